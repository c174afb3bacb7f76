package season

import "math"

// This file says what a plan is worth, straight from the definition in MODEL.md: slowly, and with nothing shared
// with the solver, so that it can be used to check it.

// Evaluate is the objective of a plan in points: what readiness is worth, less sessions, less departures from
// accepted sessions, less uneven work, plus the balance term. It doesn't ask whether the plan is allowed; see Violations. The
// problem must pass Validate and the plan must have its shape.
func Evaluate(p *Problem, plan Plan) float64 {
	var points float64
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		for t := range p.Weeks {
			points += dog.Value[t] * Readiness(p, plan, d, t)
			if dog.ShowValue != nil && dog.ShowValue[t] != 0 {
				points += dog.ShowValue[t] * ShowReadiness(p, plan, d, t)
			}
			points -= Uneven(p, plan, d, t)
			z := float64(plan.Sessions[d][t])
			points -= dog.SessionCost * z
			if t < len(dog.Kept) {
				points -= dog.Stay * math.Abs(z-float64(dog.Kept[t]))
			}
		}
	}
	if least, shown := leastShowMean(p, plan); shown {
		points += p.Balance * least
	}
	return points
}

// Readiness is how ready dog d is at the end of week t: 1 is fully ready. It is not clipped: a hopeless coat has
// a negative readiness, and the share younger than some weeks may pass 1 where an area is taken down twice.
func Readiness(p *Problem, plan Plan, d, t int) float64 {
	var sum float64
	for a := range p.Dogs[d].Areas {
		area := &p.Dogs[d].Areas[a]
		sum += area.Weight * areaReadiness(area, plan.Shares[d][a], t)
	}
	return sum
}

// areaReadiness is how ready an area is at the end of week t, unclipped.
func areaReadiness(area *Area, shares []float64, t int) float64 {
	full := 1.0
	for _, k := range area.Young {
		full -= k.Slope * math.Max(0, younger(area, shares, t, k.Weeks)-k.Allow)
	}
	for _, k := range area.Old {
		full -= k.Slope * math.Max(0, 1-younger(area, shares, t, k.Weeks)-k.Allow)
	}
	return full
}

// ShowReadiness is how ready dog d is for a show at the end of week t: Readiness, but at most Hole more than its worst
// area. Unclipped.
func ShowReadiness(p *Problem, plan Plan, d, t int) float64 {
	ready := Readiness(p, plan, d, t)
	if p.Hole > 0 {
		for a := range p.Dogs[d].Areas {
			ready = math.Min(ready, p.Hole+areaReadiness(&p.Dogs[d].Areas[a], plan.Shares[d][a], t))
		}
	}
	return ready
}

// Uneven is what dog d's week t is charged for work beyond an even share, for too little in two weeks, for dead hair that is left, and
// for what is moved from where it was agreed, points.
func Uneven(p *Problem, plan Plan, d, t int) float64 {
	var points float64
	for a := range p.Dogs[d].Areas {
		area, shares := &p.Dogs[d].Areas[a], plan.Shares[d][a]
		if area.Over != nil {
			points += area.Over[t] * math.Max(0, shares[t]-area.Even)
		}
		if area.Under != nil {
			points += area.Under[t] * math.Max(0, area.Even-younger(area, shares, t, 2))
		}
		var pulled float64
		for _, share := range shares[:t+1] {
			pulled += share
		}
		if area.Left != nil {
			points += area.Left[t] * math.Max(0, area.Dead-pulled)
		}
		if t < len(area.Agreed) {
			points += area.Moved * math.Abs(pulled-area.Agreed[t])
		}
	}
	return points
}

// ShowMean is dog d's weighted mean readiness over its shows, unclipped like ShowReadiness; 0 for a dog without shows.
func ShowMean(p *Problem, plan Plan, d int) float64 {
	var mean float64
	for t, w := range p.Dogs[d].Shows {
		if w != 0 {
			mean += w * ShowReadiness(p, plan, d, t)
		}
	}
	return mean
}

// leastShowMean is the least ShowMean among the dogs with shows, and whether there is one.
func leastShowMean(p *Problem, plan Plan) (float64, bool) {
	least, shown := math.Inf(1), false
	for d := range p.Dogs {
		if len(p.Dogs[d].Shows) > 0 {
			least, shown = math.Min(least, ShowMean(p, plan, d)), true
		}
	}
	return least, shown
}

// younger is P(t) - P(t-weeks): the share of an area younger than so many weeks at the end of week t, unclipped.
func younger(a *Area, shares []float64, t, weeks int) float64 {
	share := a.PastAt(t) - a.PastAt(t-weeks)
	for s := max(0, t-weeks+1); s <= t; s++ {
		share += shares[s]
	}
	return share
}
