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
	past := func(t, back int) float64 { return a.PastAt(t) - a.PastAt(t-back) }
	var limits []flow.Limit
	var charges []flow.Charge
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
	if decided {
		dead := math.Floor(a.Dead*shareGrid) / shareGrid // never more than there is
		if last := min(week, weeks) - 1; last >= 0 {
			limits = append(limits, flow.Limit{Step: last, Back: last + 1, Room: dead})
		}
		if week < weeks {
			_, living := a.inClearing()
			limits = append(limits, flow.Limit{Step: week, Back: week + 1, Room: dead + math.Floor(living*shareGrid)/shareGrid})
			charges = append(charges, flow.Charge{From: week, To: -1, Free: dead, Step: -1})
		}
	}
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
