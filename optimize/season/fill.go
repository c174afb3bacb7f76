package season

import (
	"math"

	"tuckup/optimize/flow"
)

// Keeping a dog's work within its sessions at given prices, and trying sessions out.

// searchTol is what a fill price must save to count, points.
const searchTol = 1e-7

// fillSearch says how a fill price is sought.
type fillSearch struct {
	value func() float64 // of the dog with its present fill prices, at least what it is worth with the right ones
	now   float64        // the value at the present price
	floor float64        // a value that ends the search
	care  float64        // points that may be left
}

// seekFill looks for the fill price of week t with the least value, within what the line allows, and returns that value.
// The value is convex in the price and its slope is what the sessions hold less the work, so the price is sought where
// the lines that touch it on either side meet: where the value lies on them, none is lower.
func (n *dogNets) seekFill(t int, l line, q fillSearch) float64 {
	type touch struct{ at, value, slope float64 }
	best := touch{n.fill[t], q.now, l.roomAt(n.fill[t]) - n.work(t)}
	ask := func(at float64) touch {
		n.setFill(t, at)
		x := touch{at: at, value: q.value()}
		x.slope = l.roomAt(at) - n.work(t)
		if x.value < best.value {
			best = x
		}
		return x
	}
	left, right := best, best
	if best.slope < 0 {
		step := n.guess(t)
		for k := 0; right.slope < -fillSlip && best.value > q.floor && k < fillRises; k++ {
			left = right
			right = ask(math.Max(2*left.at, left.at+step))
		}
	} else {
		left = ask(l.least)
	}
	for k := 0; k < fillTouches && left.slope < -fillSlip && right.slope > fillSlip && best.value > q.floor; k++ {
		at := (right.value - left.value + left.slope*left.at - right.slope*right.at) / (left.slope - right.slope)
		line := left.value + left.slope*(at-left.at)
		if !(at > left.at && at < right.at) || line > best.value-q.care {
			break
		}
		mid := ask(at)
		if mid.value <= line+q.care {
			break
		}
		if mid.slope < 0 {
			left = mid
		} else {
			right = mid
		}
	}
	if n.fill[t] != best.at {
		n.setFill(t, best.at)
		return q.value()
	}
	return best.value
}

// balance sets the fill price of week t so that the work just fits into the sessions, and returns the value; now is that
// at the present price. It stops on the way when the value, which only falls, is down to the floor.
func (n *dogNets) balance(t int, now, floor float64) float64 {
	if n.sessions[t] == 0 {
		if n.fill[t] == 0 {
			return now
		}
		n.setFill(t, 0)
		return n.value()
	}
	over := n.work(t) - n.room(t)
	if now <= floor || (over <= fillSlip && (n.fill[t] == 0 || over >= -fillSlip)) {
		return now
	}
	return n.seekFill(t, line{room: n.room(t), dear: math.Inf(1)}, fillSearch{value: n.value, now: now, floor: floor, care: balanceCare})
}

// guess is where the search for a fill price begins: what a minute of the week costs, or a little.
func (n *dogNets) guess(t int) float64 {
	g := 1e-4
	for _, m := range n.minute[t] {
		g = max(g, m/2)
	}
	return g
}

// even brings the fill prices of all weeks into balance, and returns the value.
func (n *dogNets) even(sweeps int) float64 {
	v := n.value()
	for range sweeps {
		before := v
		for t := range n.sessions {
			if n.stopped() {
				return v
			}
			v = n.balance(t, v, math.Inf(-1))
		}
		if v > before-searchTol {
			break
		}
	}
	return v
}

// trial remembers a dog's nets, so that a step that does not pay is taken back at the price of a copy.
type trial struct {
	nets     []*flow.Net
	sessions []int
	fill     []float64
}

func (n *dogNets) remember(into *trial) {
	if into.nets == nil {
		for _, net := range n.nets {
			into.nets = append(into.nets, net.Clone())
		}
		into.sessions, into.fill = make([]int, len(n.sessions)), make([]float64, len(n.fill))
	} else {
		for a, net := range n.nets {
			into.nets[a].CopyFrom(net)
		}
	}
	copy(into.sessions, n.sessions)
	copy(into.fill, n.fill)
}

func (n *dogNets) recall(from *trial) {
	for a, net := range n.nets {
		net.CopyFrom(from.nets[a])
	}
	copy(n.sessions, from.sessions)
	copy(n.fill, from.fill)
}

// canStep reports whether week t can have step sessions more.
func (n *dogNets) canStep(t, step int) bool {
	z := n.sessions[t] + step
	return z >= n.low[t] && z <= n.high[t]
}
