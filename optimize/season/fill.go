package season

import "math"

// Keeping a dog's work within its sessions at given prices, and trying sessions out.

const (
	searchTol  = 1e-7 // points: what a fill price must save to count
	fillHalves = 5    // halvings of the interval that holds a fill price
	fillSlip   = 0.25 // minutes by which a fill price may miss the sessions
)

// balance sets the fill price of week t so that the work just fits into the sessions, and returns the value. It stops
// on the way when the value, which only falls, is down to the floor.
func (n *dogNets) balance(t int, floor float64) float64 {
	hold := n.fill[t]
	if hold != 0 {
		n.setFill(t, 0)
	}
	v := n.value()
	if v <= floor || n.sessions[t] == 0 || n.work(t) <= n.room(t)+fillSlip {
		return v
	}
	low, high := 0.0, hold
	if high == 0 {
		high = n.guess(t)
	}
	for range 40 {
		n.setFill(t, high)
		if v = n.value(); v <= floor {
			return v
		}
		if n.work(t) <= n.room(t)+fillSlip {
			break
		}
		low, high = high, 2*high
	}
	best, at := v, high
	for range fillHalves {
		mid := (low + high) / 2
		n.setFill(t, mid)
		v = n.value()
		if v < best {
			best, at = v, mid
		}
		if v <= floor {
			return v
		}
		work := n.work(t)
		switch {
		case work > n.room(t)+fillSlip:
			low = mid
		case work < n.room(t)-fillSlip:
			high = mid
		default:
			low, high = mid, mid
		}
		if low == high {
			break
		}
	}
	if n.fill[t] != at {
		n.setFill(t, at)
		best = n.value()
	}
	return best
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
		calm := true
		for t, z := range n.sessions {
			if z == 0 {
				continue
			}
			over := n.work(t) - n.room(t)
			if over > fillSlip || (n.fill[t] > 0 && over < -fillSlip) {
				v = n.balance(t, math.Inf(-1))
				calm = false
			}
		}
		if calm {
			break
		}
	}
	return v
}

// trial remembers a dog's nets, so that a step that does not pay is taken back at the price of a copy.
type trial struct {
	nets     []*areaNet
	sessions []int
	fill     []float64
}

func (n *dogNets) remember(into *trial) {
	if into.nets == nil {
		for _, net := range n.nets {
			into.nets = append(into.nets, net.clone())
		}
		into.sessions, into.fill = make([]int, len(n.sessions)), make([]float64, len(n.fill))
	} else {
		for a, net := range n.nets {
			into.nets[a].copyFrom(net)
		}
	}
	copy(into.sessions, n.sessions)
	copy(into.fill, n.fill)
}

func (n *dogNets) recall(from *trial) {
	for a, net := range n.nets {
		net.copyFrom(from.nets[a])
	}
	copy(n.sessions, from.sessions)
	copy(n.fill, from.fill)
}

// canStep reports whether week t can have step sessions more.
func (n *dogNets) canStep(t, step int) bool {
	z := n.sessions[t] + step
	return z >= 0 && z <= n.dog.Most[t] && n.dog.clear(t) > 0
}
