package season

import (
	"math"

	"tuckup/optimize/flow"
)

// shareGrid is the grid of a net's shares.
const shareGrid = 1e6

// newAreaNet is the net of an area at given prices: its curve is what is pulled of the area from week 0 on, its charges are
// the area's terms and uneven work, its limits the grip rule and what clearing it of dead hair asks for. All weeks begin
// closed, all prices and values at 0; the value of a week is the points of the area's full readiness then. Where a week of
// clearing is decided and in the season, charge 0 is that of living hair pulled in it.
func newAreaNet(a *Area, weeks int) *flow.Net {
	most := make([]float64, weeks)
	week, decided := a.clearing()
	for t := range most {
		most[t] = a.reach(t)
		switch {
		case a.Dead > 0 && !decided:
			most[t] = math.Ceil(most[t]*shareGrid) / shareGrid // never less than can be
		case a.Dead > 0 && a.Room != nil:
			most[t] = math.Floor(most[t]*shareGrid) / shareGrid // never more
		}
	}
	if !decided {
		return newNet(a, most, nil, nil)
	}
	living := 0.0
	if week < weeks {
		_, living = a.inClearing()
		living = math.Floor(living*shareGrid) / shareGrid
	}
	limits, charges := a.clearedIn(weeks, week, week, living)
	return newNet(a, most, limits, charges)
}

// newWindowNet is the net of an area that is cleared of dead hair by the end of one of the weeks from..to, for a bound: hair pulled
// in these counts as dead, as far as the net knows, and it is held to no less than it may pull. Where the weeks are in the season,
// charge 0 is that of living hair pulled in them.
func newWindowNet(a *Area, weeks, from, to int) *flow.Net {
	most, living := make([]float64, weeks), 0.0
	for t := range most {
		most[t] = math.Ceil(a.reachBy(t, from, to)*shareGrid-gridSlip) / shareGrid
		if t >= from && t <= to {
			living += math.Ceil(a.living(t)*shareGrid-gridSlip) / shareGrid
		}
	}
	limits, charges := a.clearedIn(weeks, from, to, living)
	net := newNet(a, most, limits, charges)
	net.Blur(a.Dead - a.deadOnGrid())
	return net
}

// deadOnGrid is the dead share on the grid of a net, never more than there is.
func (a *Area) deadOnGrid() float64 { return math.Floor(a.Dead*shareGrid+gridSlip) / shareGrid }

// clearedIn are what clearing an area by the end of one of the weeks from..to asks for: before them no more is pulled than is dead,
// and until their end no more living hair than the share given.
func (a *Area) clearedIn(weeks, from, to int, living float64) (limits []flow.Limit, charges []flow.Charge) {
	dead := a.deadOnGrid()
	if last := min(from, weeks) - 1; last >= 0 {
		limits = append(limits, flow.Limit{Step: last, Back: last + 1, Room: dead})
	}
	if to < weeks {
		limits = append(limits, flow.Limit{Step: to, Back: to + 1, Room: dead + living})
		charges = append(charges, flow.Charge{From: to, To: -1, Free: dead, Step: -1})
	}
	return limits, charges
}

// newNet is the net of an area with the largest shares by week, and with limits and charges beside its own.
func newNet(a *Area, most []float64, limits []flow.Limit, charges []flow.Charge) *flow.Net {
	weeks := len(most)
	past := func(t, back int) float64 { return a.PastAt(t) - a.PastAt(t-back) }
	for t := range weeks {
		if a.Grip > 0 {
			limits = append(limits, flow.Limit{Step: t, Back: a.Grip, Room: math.Max(0, 1-past(t, a.Grip))})
		}
		for _, k := range merged(a.Young) {
			charges = append(charges, flow.Charge{From: t, To: t - k.Weeks, Free: k.Allow - past(t, k.Weeks), Step: t, Slope: k.Slope})
		}
		for _, k := range merged(a.Old) {
			free := k.Allow - 1 + past(t, k.Weeks)
			if t-k.Weeks < 0 && free >= 0 {
				continue // the ground is never above the curve: no charge is possible
			}
			charges = append(charges, flow.Charge{From: t - k.Weeks, To: t, Free: free, Step: t, Slope: k.Slope})
		}
		if a.Over != nil && a.Over[t] > 0 {
			charges = append(charges, flow.Charge{From: t, To: t - 1, Free: a.Even, Step: -1, Slope: a.Over[t]})
		}
		if a.Under != nil && a.Under[t] > 0 {
			charges = append(charges, flow.Charge{From: t - 2, To: t, Free: past(t, 2) - a.Even, Step: -1, Slope: a.Under[t]})
		}
		if t < len(a.Agreed) && a.Moved > 0 {
			charges = append(
				charges,
				flow.Charge{From: t, To: -1, Free: a.Agreed[t], Step: -1, Slope: a.Moved},
				flow.Charge{From: -1, To: t, Free: -a.Agreed[t], Step: -1, Slope: a.Moved},
			)
		}
		if a.Left != nil && a.Left[t] > 0 && a.Dead > 0 {
			charges = append(charges, flow.Charge{From: -1, To: t, Free: -a.Dead, Step: -1, Slope: a.Left[t]})
		}
	}
	return flow.New(most, limits, charges)
}

// gridSlip is by how much of the grid a share may miss it by rounding.
const gridSlip = 1e-6
