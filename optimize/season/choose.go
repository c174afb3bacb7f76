package season

// Mending a dog's sessions at given prices: a search over single sessions added, dropped and shifted.

// search adds, drops and shifts sessions while that pays, in a few passes.
func (n *dogNets) search() {
	best := n.even(evenSweeps)
	n.remember(&n.best)
	now := best
	for range searchPasses {
		gained := false
		for t := range n.sessions {
			if n.stopped() {
				break
			}
			for n.canStep(t, 1) && n.try(&now, t, 1, -1) {
				gained = true
			}
			for n.canStep(t, -1) && n.try(&now, t, -1, -1) {
				gained = true
			}
		}
		for t := range n.sessions {
			if n.stopped() {
				break
			}
			for _, to := range [2]int{t - 1, t + 1} {
				if to >= 0 && to < len(n.sessions) && n.canStep(t, -1) && n.canStep(to, 1) && n.try(&now, t, -1, to) {
					gained = true
				}
			}
		}
		if !gained {
			break
		}
		now = n.even(evenSweeps)
		if now <= best+searchTol {
			break
		}
		best = now
		n.remember(&n.best)
	}
	n.recall(&n.best)
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
	v := n.balance(t, n.value(), floor)
	if v > floor {
		*now = v
		return true
	}
	n.recall(&n.before)
	return false
}
