package season

import (
	"math"
	"slices"
)

// By when each area is cleared of dead hair is decided dog by dog: to begin with as the relaxation of the bound has it, then
// week by week where that gains at the prices there are.

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

// settle decides by when each area is cleared, before any column is made: as a plan made before has it, else as it comes out
// best for the dog on its own, at the prices.
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

// resettle decides again by when areas are cleared, with the dogs' sessions as they are where they are fixed, and brings the
// pool into line. It reports whether anything changed.
func (s *solver) resettle(q prices) bool {
	changed := make([]bool, len(s.dogs))
	s.each(q, func(n *dogNets) {
		if !n.dog.hasDead() {
			return
		}
		before := n.clearings()
		if f := s.fixed[n.d]; f != nil {
			for t, z := range f {
				n.setSessions(t, z)
			}
			n.descend(clearingSweeps)
		} else {
			n.settle()
		}
		changed[n.d] = !slices.Equal(before, n.clearings())
	})
	for d, c := range changed {
		if c {
			s.realign(d)
		}
	}
	return slices.Contains(changed, true)
}

// realign works out the dog's columns again for its weeks of clearing, and leaves out those that don't agree with them.
func (s *solver) realign(d int) {
	for _, pool := range [][][]*column{s.columns.useful, s.columns.open, s.columns.basic} {
		var kept []*column
		for _, c := range pool[d] {
			if c = c.realigned(s.p); c != nil {
				kept = append(kept, c)
			}
		}
		pool[d] = kept
	}
}

// realigned is the column with the minutes of the weeks of clearing; nil where it clears an area too early for them, or its
// sessions don't hold it then.
func (c *column) realigned(p *Problem) *column {
	dog := &p.Dogs[c.dog]
	for a := range dog.Areas {
		area := &dog.Areas[a]
		week, decided := area.clearing()
		if !decided {
			continue
		}
		sum, minutes := 0.0, area.MinutesOf(c.shares[a])
		for t, s := range c.shares[a] {
			sum += s
			if t < week && sum > area.Dead+clearedTol || t == week && sum > area.Dead+area.Most[t]+clearedTol ||
				t > week && s > area.Most[t]+clearedTol || area.Room != nil && minutes[t] > area.Room[t]+brokenTol {
				return nil
			}
		}
	}
	o := newColumn(p, c.dog, c.sessions, c.shares)
	if !o.fits(p, o.sessions) {
		return nil
	}
	return o
}

// clearings are the dog's decided weeks, as its areas hold them.
func (n *dogNets) clearings() []int {
	w := make([]int, len(n.dog.Areas))
	for a := range w {
		w[a] = n.dog.Areas[a].cleared
	}
	return w
}

// setClearings decides them all.
func (n *dogNets) setClearings(w []int) {
	for a := range w {
		if n.dog.Areas[a].Dead > 0 {
			n.clearBy(a, w[a]-1)
		}
	}
}

// clearBy decides one area's week, and makes its net again.
func (n *dogNets) clearBy(a, week int) {
	area := &n.dog.Areas[a]
	if week = min(n.p.Weeks, max(0, week)); 1+week == area.cleared {
		return
	}
	area.cleared = 1 + week
	n.plans[a] = newAreaNet(area, n.p.Weeks)
	if !n.relaxed {
		n.nets[a] = n.plans[a]
	}
	n.before, n.best, n.mix = trial{}, trial{}, nil
	if math.IsNaN(n.show) {
		return
	}
	value := make([]float64, n.p.Weeks)
	for t := range value {
		value[t] = n.areaValue(t, a)
	}
	n.plans[a].SetValue(value)
	n.bring(n.plans[a], a)
}

// settle decides the dog's weeks at its present prices with its sessions open.
func (n *dogNets) settle() {
	n.highest(nil, 0, rootNodes)
	n.relaxDead(true)
	n.mix = nil
	c, _ := n.bestMix(mixTol)
	n.relaxDead(false)
	n.mix = nil
	for a := range n.dog.Areas {
		if n.dog.Areas[a].Dead > 0 {
			n.clearBy(a, n.dog.Areas[a].clearedBy(c.shares[a]))
		}
	}
	n.descend(1)
}

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

// descend changes the weeks by single ones with the dog's sessions as they are, as long as that gains.
func (n *dogNets) descend(sweeps int) {
	_, now := n.bestMix(mixTol)
	for range sweeps {
		gained := false
		for a := range n.dog.Areas {
			if n.dog.Areas[a].Dead == 0 {
				continue
			}
			for _, by := range [2]int{-1, 1} {
				for n.tryClearing(a, n.nextOpen(a, by), &now) {
					gained = true
				}
			}
			for to := 0; to <= n.p.Weeks && n.p.Weeks <= clearingAll; to++ {
				gained = n.tryClearing(a, to, &now) || gained
			}
		}
		if !gained || n.stopped() {
			return
		}
	}
}

// nextOpen is the next week, one way or the other, in which the area can be worked with the dog's sessions; past the season's
// ends where there is none.
func (n *dogNets) nextOpen(a, by int) int {
	to := n.dog.Areas[a].cleared - 1 + by
	for to >= 0 && to < n.p.Weeks && (n.sessions[to] == 0 || n.dog.Areas[a].Most[to] == 0) {
		to += by
	}
	return to
}

// tryClearing moves an area's week, and takes that back unless it gains.
func (n *dogNets) tryClearing(a, to int, now *float64) bool {
	was := n.dog.Areas[a].cleared - 1
	if to < 0 || to > n.p.Weeks || to == was || n.stopped() {
		return false
	}
	fill, holes := slices.Clone(n.fill), n.holes
	n.clearBy(a, to)
	if _, v := n.bestMix(mixTol); v > *now+clearingGain {
		*now = v
		return true
	}
	n.clearBy(a, was)
	n.setHoles(holes)
	for t, v := range fill {
		n.setFill(t, v)
	}
	return false
}

const (
	clearingSweeps = 3    // sweeps over the dog's areas
	clearingGain   = 1e-5 // points that another week must gain
	clearingAll    = 12   // weeks of a season up to which every week is tried
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
		if s.resettle(s.duals.incumbent) {
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
