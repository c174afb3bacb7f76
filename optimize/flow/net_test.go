package flow

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// paying lists the arcs whose flow would pay to change, looked at one by one.
func (n *Net) paying() (out []int) {
	for k := range n.arcs {
		r := n.arcs[k].cost - n.pot[n.arcs[k].tail] + n.pot[n.arcs[k].head]
		if (r < 0 && n.arcs[k].flow < n.arcs[k].room) || (r > 0 && n.arcs[k].flow > 0) {
			out = append(out, k)
		}
	}
	return out
}

// netFault says how a solved net is not at an optimum; empty when it is.
func netFault(n *Net) string {
	left := make([]int64, n.nodes)
	var total wide
	for k := range n.arcs {
		f := n.arcs[k].flow
		if f < 0 || f > n.arcs[k].room {
			return "a flow beyond its arc"
		}
		left[n.arcs[k].tail] -= f
		left[n.arcs[k].head] += f
		total.add(f, n.arcs[k].cost)
	}
	for t, p := range n.price { // week t's price is sent from Q(t-1) to Q(t)
		left[t] += p
		left[t+1] -= p
	}
	switch {
	case slices.ContainsFunc(left, func(v int64) bool { return v != 0 }):
		return "flow is lost on the way"
	case len(n.paying()) > 0:
		return "an arc still pays"
	case total != n.total:
		return "the kept total is not what the flow costs"
	}
	return ""
}

// Arcs are looked at again only where something moved since. After any course of prices, openings, values, copies taken
// and brought back, with solves between or not, no arc pays and the optimum is that of a net made afresh.
func TestLazyLookMissesNoArc(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	few := 0 // solves that looked at less than all
	for range 40 {
		weeks := 6 + rng.IntN(30)
		most, limits, charges := someCoat(rng, weeks)
		charges = append(charges, Charge{From: rng.IntN(weeks), To: -1, Free: rng.Float64() / 2, Step: -1}) // of points
		net, points := New(most, limits, charges), 0.0
		value, price, open := make([]float64, weeks), make([]float64, weeks), make([]bool, weeks)
		revalue := func() {
			for w := range value {
				value[w] = rng.Float64() * float64(rng.IntN(3))
			}
			net.SetValue(value)
			points = rng.Float64() * float64(rng.IntN(2))
			net.SetCharge(len(charges)-1, points)
		}
		revalue()
		var kept *Net
		var keptPrice []float64
		var keptOpen []bool
		for range 60 {
			switch rng.IntN(12) {
			case 0:
				revalue()
				kept = nil // its values are others now
			case 1:
				if kept == nil {
					kept = net.Clone()
				} else {
					kept.CopyFrom(net)
				}
				keptPrice, keptOpen = slices.Clone(price), slices.Clone(open)
			case 2:
				if kept != nil {
					net.CopyFrom(kept)
					copy(price, keptPrice)
					copy(open, keptOpen)
				}
			}
			for range rng.IntN(4) {
				w := rng.IntN(weeks)
				if rng.IntN(2) == 0 {
					price[w] = rng.Float64() * rng.Float64()
					net.SetPrice(w, price[w])
				} else {
					open[w] = !open[w]
					net.SetOpen(w, open[w])
				}
			}
			if rng.IntN(3) == 0 {
				continue // what changed waits for the next solve
			}
			if len(net.moved) > 0 && 2*len(net.moved) < len(net.pot) {
				few++
			}
			net.Solve()
			if fault := netFault(net); fault != "" {
				t.Fatalf("%d weeks: %s", weeks, fault)
			}
			fresh := New(most, limits, charges)
			fresh.SetValue(value)
			fresh.SetCharge(len(charges)-1, points)
			for w := range weeks {
				fresh.SetPrice(w, price[w])
				fresh.SetOpen(w, open[w])
			}
			fresh.Solve()
			if fresh.total != net.total || fresh.Minimum() != net.Minimum() {
				t.Fatalf("%d weeks: the optimum is %v, of a net made afresh %v", weeks, net.Minimum(), fresh.Minimum())
			}
		}
	}
	if few < 500 {
		t.Errorf("only %d solves looked at less than all arcs", few)
	}
}

// someCoat is a net as an area of a coat has it: what may be pulled in a week, hair too young to grip, charges on what is
// young and on what is old, and what was pulled before.
func someCoat(rng *rand.Rand, weeks int) (most []float64, limits []Limit, charges []Charge) {
	rate := rng.Float64() / 10
	past := func(t int) float64 { return math.Max(0, rate*float64(min(t, 0)+10)) } // so much a week since week -10
	for t := range weeks {
		m := 1.0
		if rng.IntN(4) == 0 {
			m = float64(rng.IntN(4)) / 50
		}
		most = append(most, m)
		limits = append(limits, Limit{Step: t, Back: 3, Room: math.Max(0, 1-(past(t)-past(t-3)))})
		for _, k := range []struct {
			weeks        int
			allow, slope float64
		}{{8, 0.5, 0.8}, {11, 0.6, 1.5}} {
			charges = append(charges, Charge{From: t, To: t - k.weeks, Free: k.allow - (past(t) - past(t-k.weeks)), Step: t, Slope: k.slope})
		}
		for _, k := range []struct {
			weeks        int
			allow, slope float64
		}{{18, 0.1, 0.5}, {21, 0.2, 0.75}} {
			charges = append(charges, Charge{From: t - k.weeks, To: t, Free: k.allow - 1 + past(t) - past(t-k.weeks), Step: t, Slope: k.slope})
		}
	}
	return most, limits, charges
}
