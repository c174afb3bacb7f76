package season

import (
	"math"

	"tuckup/optimize/flow"
)

// newAreaNet is the net of an area at given prices: its curve is what is pulled of the area from week 0 on, its charges are
// the area's terms, its limits the grip rule. All weeks begin closed, all prices and values at 0; the value of a week is the
// points of the area's full readiness then.
func newAreaNet(a *Area, weeks int) *flow.Net {
	past := func(t, back int) float64 { return a.PastAt(t) - a.PastAt(t-back) }
	var limits []flow.Limit
	var charges []flow.Charge
	for t := range weeks {
		if a.Grip > 0 {
			limits = append(limits, flow.Limit{Step: t, Back: a.Grip, Room: math.Max(0, 1-past(t, a.Grip))})
		}
		for _, k := range a.Young {
			charges = append(charges, flow.Charge{From: t, To: t - k.Weeks, Free: k.Allow - past(t, k.Weeks), Step: t, Slope: k.Slope})
		}
		for _, k := range a.Old {
			free := k.Allow - 1 + past(t, k.Weeks)
			if t-k.Weeks < 0 && free >= 0 {
				continue // the ground is never above the curve: no charge is possible
			}
			charges = append(charges, flow.Charge{From: t - k.Weeks, To: t, Free: free, Step: t, Slope: k.Slope})
		}
	}
	return flow.New(a.Most[:weeks], limits, charges)
}
