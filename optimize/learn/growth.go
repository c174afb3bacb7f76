package learn

import (
	"math"

	"tuckup/kennel"
)

// growth is the fit of one dog's growth. Its parameters are logarithms: the dog's factor, the lag, and then by area with
// records the area's own factor and the error of its show length.
type growth struct {
	model
	pattern kennel.Pattern
	own     map[kennel.AreaName]int // first parameter of an area
	count   map[kennel.AreaName]int // records of an area
}

// The parameters of a growth fit; an area's own follow.
const (
	dogGrowth = iota
	lag
	firstOwn
)

func newGrowth(p kennel.Pattern) *growth {
	sd := meanSD(p, func(a kennel.PatternArea) kennel.Figure { return a.Ready }, func(a kennel.PatternArea) kennel.Figure { return a.Weight })
	return &growth{
		model: model{priorSD: []float64{sd, lagSD}}, pattern: p,
		own: map[kennel.AreaName]int{}, count: map[kennel.AreaName]int{},
	}
}

// parametersOf are the area's own: the first is its growth, the second its show length.
func (g *growth) parametersOf(a kennel.PatternArea) int {
	at, ok := g.own[a.Name]
	if !ok {
		at = len(g.priorSD)
		g.own[a.Name] = at
		length := lengthSD
		if a.ShowLength != nil {
			length = max(length, rangeSD(*a.ShowLength))
		}
		g.priorSD = append(g.priorSD, areaSD, length)
	}
	g.count[a.Name]++
	return at
}

// addLength adds a length that was taken. why is empty when it is used.
func (g *growth) addLength(l Length) (r Record, why string) {
	r = Record{On: l.On, Area: l.Area, What: WhatLength, Seen: float64(l.Length)}
	a, ok := g.pattern.Area(l.Area)
	age := float64(l.On-l.Pulled) / daysInAWeek
	switch {
	case !ok:
		return r, "its pattern has no such area"
	case a.ShowLength == nil:
		return r, "no length is published for the area, so a length tells no weeks"
	case l.Pulled == 0:
		return r, "nothing says when the hair that was measured was last pulled"
	case age <= 0 || !(l.Length > 0):
		return r, "there was no hair to measure yet"
	case age > a.Ready.Value+a.Hold.Value:
		return r, "hair so old may have stopped growing"
	}
	own := g.parametersOf(a)
	show, ready := a.ShowLength.Value, a.Ready.Value
	predict := func(p []float64) float64 {
		late := min(lagPart*math.Exp(p[lag]), mostLag) * ready
		grown := math.Exp(p[dogGrowth]+p[own]) * age
		return show * math.Exp(p[own+1]) * max(0, grown-late) / (ready - late)
	}
	usual := predict(make([]float64, len(g.priorSD)))
	g.records = append(g.records, observation{
		kind: lengths, seen: float64(l.Length), scale: math.Hypot(lengthError, lengthScatter*usual), predict: predict,
	})
	return r, ""
}

// mostLag is the most of ready that the lag may take.
const mostLag = 0.5

// addShowable adds a note that hair was first fit to be shown. why is empty when it is used.
func (g *growth) addShowable(s kennel.Showable) (r Record, why string) {
	weeks := float64(s.On-s.Pulled) / daysInAWeek
	r = Record{On: s.On, Area: s.Area, What: WhatShowable, Seen: weeks}
	a, ok := g.pattern.Area(s.Area)
	switch {
	case !ok:
		return r, "its pattern has no such area"
	case s.Pulled == 0 || weeks <= 0:
		return r, "nothing says when that hair was pulled before"
	}
	own := g.parametersOf(a)
	ready := math.Log(a.Ready.Value)
	g.records = append(g.records, observation{
		kind: showables, seen: math.Log(weeks), scale: math.Hypot(showableSpread, showableError/a.Ready.Value),
		predict: func(p []float64) float64 { return ready - p[dogGrowth] - p[own] },
	})
	return r, ""
}

// estimates are the dog's growth, and that of each area with enough records.
func (g *growth) estimates(f fitted) (dog Estimate, areas []Area) {
	dog = estimate(f, len(g.records), dogGrowth)
	for _, a := range g.pattern.Areas {
		if n := g.count[a.Name]; n >= ownRecords {
			areas = append(areas, Area{Area: a.Name, Growth: estimate(f, n, dogGrowth, g.own[a.Name])})
		}
	}
	return dog, areas
}
