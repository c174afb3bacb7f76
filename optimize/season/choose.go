package season

import "math"

// Choosing a dog's sessions at given prices: a search over single sessions added, dropped and shifted.

const (
	searchTol  = 1e-7 // points: what a step must gain
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

// search adds, drops and shifts sessions while that pays, at most so many passes.
func (n *dogNets) search(passes int) {
	best := n.even(3)
	n.remember(&n.best)
	now := best
	for range passes {
		gained := false
		for t := range n.sessions {
			for n.canStep(t, 1) && n.try(&now, t, 1, -1) {
				gained = true
			}
			for n.canStep(t, -1) && n.try(&now, t, -1, -1) {
				gained = true
			}
		}
		for t := range n.sessions {
			for _, to := range [2]int{t - 1, t + 1} {
				if to >= 0 && to < len(n.sessions) && n.sessions[t] > 0 && n.canStep(to, 1) && n.try(&now, t, -1, to) {
					gained = true
				}
			}
		}
		if !gained {
			break
		}
		now = n.even(3)
		if now <= best+searchTol {
			break
		}
		best = now
		n.remember(&n.best)
	}
	n.recall(&n.best)
}

func (n *dogNets) canStep(t, step int) bool {
	z := n.sessions[t] + step
	return z >= 0 && z <= n.dog.Most[t] && n.dog.clear(t) > 0
}

// try changes week t by step sessions, moving them to another week if to is one, and keeps that if it pays.
func (n *dogNets) try(now *float64, t, step, to int) bool {
	n.remember(&n.before)
	n.setSessions(t, n.sessions[t]+step)
	floor := *now + searchTol
	if to >= 0 {
		n.setFill(t, 0)
		n.setSessions(to, n.sessions[to]-step)
		t = to
	}
	v := n.balance(t, floor)
	if v > floor {
		*now = v
		return true
	}
	n.recall(&n.before)
	return false
}

// openAll plans one session in every week that can be worked and drops those again in which nothing is pulled.
func (n *dogNets) openAll() {
	for t := range n.sessions {
		if n.dog.canOpen(t) {
			n.setSessions(t, 1)
		}
	}
	n.even(2)
	for t, z := range n.sessions {
		if z > 0 && n.work(t) == 0 {
			n.setSessions(t, 0)
		}
	}
	n.areasCost()
}
