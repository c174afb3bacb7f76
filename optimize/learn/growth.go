package learn

import (
	"cmp"
	"math"
	"slices"

	"tuckup/kennel"
)

// growth is the fit of one dog's growth. Its parameters are logarithms: the dog's factor, the lag, and then by area with
// records the area's own factor and the error of its show length.
type growth struct {
	model
	pattern kennel.Pattern
	dog     kennel.Dog
	own     map[kennel.AreaName]int // first parameter of an area
	count   map[kennel.AreaName]int // records of an area
}

// The parameters of a growth fit; an area's own follow.
const (
	dogGrowth = iota
	lag
	firstOwn
)

func newGrowth(d kennel.Dog, p kennel.Pattern) *growth {
	sd := meanSD(p, func(a kennel.PatternArea) kennel.Figure { return a.Ready }, func(a kennel.PatternArea) kennel.Figure { return a.Weight })
	return &growth{
		model: model{priorSD: []float64{sd, lagSD}}, pattern: p, dog: d,
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
	age := g.dog.WeeksGrown(l.Pulled, l.On)
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
	weeks := g.dog.WeeksGrown(s.Pulled, s.On)
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

// halfStep is how far a share may be from the one that was seen: what is seen goes by halves and doubles.
const halfStep = math.Sqrt2

// addLook adds how a long layer was seen. It bounds the weeks after which hair is of the long layer: hair that was not seen to be long
// is younger than that, hair that was is older. Beyond one bound alone nothing is out of line. why is empty when it is used.
func (g *growth) addLook(x Look) (r Record, why string) {
	r = Record{On: x.On, Area: x.Area, What: WhatLook}
	a, ok := g.pattern.Area(x.Area)
	least, most := 0.0, math.Inf(1)
	switch {
	case !ok || a.Kept:
		return r, "its pattern has no such area that is pulled"
	case x.Long != kennel.LongThick:
		least, ok = g.ageAt(x.Layers, float64(x.Share)*halfStep, x.On) // of the oldest hair that was not seen to be long
	}
	if ok && x.Share > 0 {
		most, ok = g.ageAt(x.Layers, float64(x.Share)/halfStep, x.On) // of the youngest hair that was
	}
	switch {
	case !ok:
		return r, "nothing says when the hair that was looked at was last pulled"
	case most <= 0 || least <= 0 && math.IsInf(most, 1):
		return r, "there was no hair to look at yet"
	case x.Share == 0 && x.Long != kennel.LongNone:
		return r, "none of it was long, and none was expected to be"
	}
	own := g.parametersOf(a)
	long, lower, upper := math.Log(a.LongAfter(kennel.Coat{})), math.Log(least), math.Log(most)
	scale := math.Hypot(lookSpread, lookError/a.LongAfter(kennel.Coat{}))
	weeks := func(p []float64) float64 { return long - p[dogGrowth] - p[own] }
	o := observation{kind: looks, scale: scale}
	switch {
	case math.IsInf(upper, 1): // none of it: at least so many weeks
		o.bound, o.seen, o.predict = true, lower, func(p []float64) float64 { return min(lower, weeks(p)) }
	case math.IsInf(lower, -1): // at most
		o.bound, o.seen, o.predict = true, upper, func(p []float64) float64 { return max(upper, weeks(p)) }
	default: // anywhere between
		o.seen, o.predict = (lower+upper)/2, weeks
		o.scale = math.Hypot(scale, (upper-lower)/math.Sqrt(12))
	}
	g.records = append(g.records, o)
	return r, ""
}

// ageAt is how many weeks' growth ago the hair was pulled that has the share of the area's hair before it, the oldest first; false where no
// pull of it is known.
func (g *growth) ageAt(layers []kennel.Layer, share float64, on kennel.Date) (weeks float64, known bool) {
	sorted := slices.Clone(layers)
	slices.SortStableFunc(sorted, func(x, y kennel.Layer) int { return cmp.Compare(x.Pulled, y.Pulled) })
	before := 1.0
	for _, l := range sorted {
		if l.Pulled > on {
			return 0, false
		}
		before -= float64(l.Share)
	}
	if before > leastUndated && share < before {
		return 0, false
	}
	for _, l := range sorted {
		weeks = g.dog.WeeksGrown(l.Pulled, on)
		if before += float64(l.Share); share < before-leastUndated {
			break
		}
	}
	return weeks, len(sorted) > 0
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
