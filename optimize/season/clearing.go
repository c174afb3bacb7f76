package season

import (
	"math"
	"slices"
)

// By when each area is cleared of dead hair is decided dog by dog: with its sessions open as the bound's relaxation has it, with
// these fixed by single weeks where that gains at the prices there are.

// withClearings is the problem with areas of its own, in which weeks of clearing can be decided; those that are stay.
func (p *Problem) withClearings() *Problem {
	o := *p
	o.Dogs = slices.Clone(p.Dogs)
	for d := range o.Dogs {
		if !o.Dogs[d].hasDead() {
			continue
		}
		o.Dogs[d].Areas = slices.Clone(o.Dogs[d].Areas)
		for a := range o.Dogs[d].Areas {
			if area := &o.Dogs[d].Areas[a]; area.cleared == 0 {
				area.cleared = 1 + p.Weeks // never: allowed whatever comes
			}
		}
	}
	return &o
}

// settle decides by when each area is cleared: as a plan made before has it, else as it comes out best for the dog on its own, at
// the prices.
func (s *solver) settle(q prices) {
	start := s.opt.Start
	before := start.covers(s.p) && len(start.Shares) == len(s.p.Dogs)
	s.each(q, func(n *dogNets) {
		switch {
		case !n.dog.hasDead():
		case before && len(start.Shares[n.d]) == len(n.dog.Areas):
			n.settleBy(start.Shares[n.d])
		default:
			n.settle()
		}
	})
}

// firstPrices are rough prices of the minutes.
func (s *solver) firstPrices() prices {
	q := newPrices(s.p)
	dear := s.p.dearest(false)
	for i := range s.p.Rows {
		q.row[i] = firstPrice * dear
	}
	return q
}

// resettle decides again by when areas are cleared, of dogs whose sessions are fixed, with these as they are. It returns the
// columns of those for which anything changed.
func (s *solver) resettle(q prices) (changed []*column) {
	all := make([]*column, len(s.dogs))
	s.each(q, func(n *dogNets) {
		if n.dog.hasDead() && s.fixed[n.d] != nil {
			before := n.dog.clearings()
			n.take(s.fixed[n.d])
			n.descend(clearingSweeps, mixTol)
			if !slices.Equal(before, n.dog.clearings()) {
				all[n.d], _ = n.bestMix(mixTol)
			}
		}
	})
	for _, c := range all {
		if c != nil {
			changed = append(changed, c)
		}
	}
	return changed
}

// setClearings decides all of the dog's weeks, as its areas hold them.
func (n *dogNets) setClearings(w []int) {
	for a := range w {
		if n.dog.Areas[a].Dead > 0 {
			n.clearBy(a, w[a]-1)
		}
	}
}

// clearAs decides the dog's weeks as shares have them, unless they agree with those that are decided.
func (n *dogNets) clearAs(shares [][]float64) {
	if c := (&column{dog: n.d, shares: shares}); c.clearsLate(n.p) {
		return
	}
	for a := range n.dog.Areas {
		if area := &n.dog.Areas[a]; area.Dead > 0 {
			n.clearBy(a, area.clearedBy(shares[a]))
		}
	}
}

// clearBy decides one area's week.
func (n *dogNets) clearBy(a, week int) {
	area := &n.dog.Areas[a]
	if week = min(n.p.Weeks, max(0, week)); 1+week == area.cleared {
		return
	}
	area.cleared = 1 + week
	if w := n.singleWindow(a, week); w == nil {
		n.plans[a] = newAreaNet(area, n.p.Weeks)
	} else {
		if w.plan == nil {
			w.plan = newAreaNet(area, n.p.Weeks)
		}
		n.plans[a] = w.plan
	}
	n.before, n.best = trial{}, trial{}
	if n.relaxed {
		return
	}
	n.nets[a] = n.plans[a]
	if !math.IsNaN(n.show) {
		n.plans[a].SetValue(n.areaValues(a))
	}
	n.bring(n.plans[a], a)
}

// settle decides the dog's weeks at its present prices with its sessions open.
func (n *dogNets) settle() { n.highest(nil, 0, rootNodes) }

// settleBy decides the dog's weeks as shares of a plan made before have them; areas that those don't clear are settled afresh.
func (n *dogNets) settleBy(shares [][]float64) {
	for a := range n.dog.Areas {
		if area := &n.dog.Areas[a]; area.Dead > 0 && (len(shares[a]) != n.p.Weeks || area.clearedBy(shares[a]) == n.p.Weeks) {
			n.settle()
			break
		}
	}
	for a := range n.dog.Areas {
		if area := &n.dog.Areas[a]; area.Dead > 0 && len(shares[a]) == n.p.Weeks {
			if week := area.clearedBy(shares[a]); week < n.p.Weeks {
				n.clearBy(a, week)
			}
		}
	}
}

// descend changes the weeks with the dog's sessions as they are, as long as that gains. Tried are those that gain at the fill prices
// there are: no others can. All areas are tried at once, and where there is more than one sweep then one after the other.
func (n *dogNets) descend(sweeps int, tol float64) {
	_, now := n.bestMix(tol)
	for range sweeps {
		if n.stopped() {
			return
		}
		was := n.dog.clearings()
		promised, gains := n.promisedClearings()
		if slices.Equal(was, promised) {
			return
		}
		if n.tryClearings(promised, &now, tol) {
			continue
		}
		gained := false
		for !n.stopped() && sweeps > 1 {
			a := 0
			for b, g := range gains {
				if g > gains[a] {
					a = b
				}
			}
			if gains[a] <= clearingGain {
				break
			}
			gains[a] = 0
			one := n.dog.clearings()
			one[a] = promised[a]
			gained = n.tryClearings(one, &now, tol) || gained
		}
		if !gained {
			return
		}
	}
}

// promisedClearings are the weeks of clearing that are best at the present fill prices, and what each area's gains there.
func (n *dogNets) promisedClearings() (weeks []int, gains []float64) {
	weeks, gains = n.dog.clearings(), make([]float64, len(n.nets))
	n.areasCost()
	for a, net := range n.nets {
		gains[a] = net.Minimum()
	}
	n.relaxDead(true)
	for a := range n.nets {
		n.solveArea(a)
		if gains[a] -= n.nets[a].Minimum(); gains[a] > clearingGain {
			weeks[a] = 1 + n.chosen[a].from
		}
	}
	n.relaxDead(false)
	return weeks, gains
}

// tryClearings changes the weeks, and takes that back unless it gains.
func (n *dogNets) tryClearings(to []int, now *float64, tol float64) bool {
	was, fill, holes := n.dog.clearings(), slices.Clone(n.fill), n.holes
	n.setClearings(to)
	if _, v := n.bestMix(tol); v > *now+clearingGain {
		*now = v
		return true
	}
	n.setClearings(was)
	n.setHoles(holes)
	for t, v := range fill {
		n.setFill(t, v)
	}
	return false
}

const (
	clearingSweeps = 3    // sweeps over the dog's areas
	clearingLooks  = 1    // .. with its sessions open
	clearingGain   = 1e-5 // points that another week must gain
)

// clear decides again by when the best plan's areas are cleared, at its own prices, and keeps that if the plan is better,
// which it reports.
func (s *solver) clear() (better bool) {
	dead := s.p.withDead()
	for range clearRounds {
		if len(dead) == 0 || s.clock.expired() {
			return better
		}
		before := s.checkpoint()
		if changed := s.resettle(s.duals.incumbent); changed != nil {
			for _, c := range changed {
				s.columns.useful[c.dog] = append(slices.Clone(s.columns.useful[c.dog]), c)
			}
			m, err := s.feasibleMaster(s.fixed)
			if err == nil && s.generate(m, finalRounds, diveSmoothing) == nil {
				s.keep(m)
				s.offerMix(m, s.fixed)
			}
		}
		if !s.goBackUnlessBetter(before) {
			return better
		}
		better = true
	}
	return better
}

// clearRounds is how often that is done at most.
const clearRounds = 3
