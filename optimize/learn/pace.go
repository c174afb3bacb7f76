package learn

import (
	"math"

	"tuckup/kennel"
)

// newPace is the fit of how fast one dog's coat is worked: its only parameter is the factor's logarithm.
func newPace(p kennel.Pattern) model {
	minutes := func(a kennel.PatternArea) kennel.Figure { return a.Minutes }
	return model{priorSD: []float64{meanSD(p, minutes, minutes)}}
}

// add adds a session that was timed. why is empty when it is used.
func (m *model) add(dog kennel.Dog, p kennel.Pattern, w kennel.Work) (r Record, why string) {
	r = Record{On: w.On, What: WhatMinutes, Seen: float64(w.Minutes)}
	var pulling float64
	for _, x := range w.Areas {
		a, ok := p.Area(x.Area)
		if !ok {
			return r, "it worked on the " + string(x.Area) + ", which its pattern does not have"
		}
		pulling += float64(x.Share) * a.Minutes.Value
	}
	switch {
	case !(w.Minutes > 0):
		return r, "nobody looked at the clock"
	case !(pulling > 0):
		return r, "nothing was pulled"
	}
	setUp := float64(dog.Table.SetUp)
	m.records = append(m.records, observation{
		kind: paces, seen: float64(w.Minutes), scale: math.Hypot(minutesError, minutesScatter*pulling),
		predict: func(p []float64) float64 { return setUp + math.Exp(p[0])*pulling },
	})
	return r, ""
}
