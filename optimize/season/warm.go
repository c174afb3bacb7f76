package season

import (
	"math"
	"slices"
)

// warm begins with the sessions of a plan that was made before: it is worked out for this problem. It
// returns the master in which all its sessions are fixed; nil when there is no plan to begin with, or it does not fit.
func (s *solver) warm() *master {
	if !s.opt.Start.covers(s.p) {
		return nil
	}
	s.settle(s.firstPrices())
	cols := make([]*column, len(s.dogs))
	for d := range s.fixed {
		s.fixed[d] = make([]int, s.p.Weeks)
		for t := range s.fixed[d] {
			if s.p.Dogs[d].canOpen(t) {
				s.fixed[d][t] = min(max(0, s.opt.Start.Sessions[d][t]), s.p.Dogs[d].Most[t])
			}
		}
		if c := s.remembered(d); c != nil {
			s.columns.useful[d] = append(s.columns.useful[d], c)
		}
		cols[d] = s.clipped(d)
	}
	s.atHand(s.p.cutBack(cols))
	if Violations(s.p, *s.opt.Start, startSlip) == nil {
		s.atHand(s.opt.Start.Clone())
	}
	m, err := s.feasibleMaster(s.fixed)
	if err != nil || s.generate(m, warmRounds, diveSmoothing) != nil {
		clear(s.fixed)
		clear(s.columns.useful)
		return nil
	}
	s.keep(m)
	return m
}

// startSlip is by how much a plan to begin with may break a limit, as Violations has it, and be an answer as it is.
const startSlip = 1e-6

// reshare makes the most of the sessions that are fixed, and leaves them as they are.
func (s *solver) reshare() {
	s.clear()
	if m, err := s.bestIn(nil); err == nil && s.generate(m, finalRounds, diveSmoothing) == nil {
		s.keep(m)
		s.offerMix(m, s.fixed)
	}
}

// mend makes the most of the sessions of a plan made before, fixed in the master. Where a look at the bound says that much
// may be missing, it chooses all of them again.
func (s *solver) mend(m *master) {
	s.improve(m, improvement{steps: polishMend})
	s.duals.lp = s.duals.incumbent
	s.look(quickNodes)
	if s.clock.expired() || gap(s.bound, s.best.value) <= renewGap {
		return
	}
	s.renew()
	s.improve(nil, improvement{steps: polishMend})
	s.look(quickNodes)
}

// renew chooses all sessions again, in a few rounds that begin with the columns of the plan made before, and keeps the plan
// that is better. The rounds also tell at which prices to look for a bound.
func (s *solver) renew() {
	before := s.checkpoint()
	clear(s.fixed)
	s.duals.lp = s.duals.incumbent
	m, err := s.master()
	if err == nil && s.generate(m, renewRounds, smoothing) == nil {
		s.duals.lp, s.lpValue = s.duals.best, m.objective()
		s.keep(m)
		if s.diveWeeks(m) == nil {
			s.offerMix(m, s.fixed)
		}
	}
	s.goBackUnlessBetter(before)
}

// covers reports whether the plan has sessions for every dog and week of the problem.
func (pl *Plan) covers(p *Problem) bool {
	return pl != nil && len(pl.Sessions) == len(p.Dogs) && !slices.ContainsFunc(pl.Sessions, func(z []int) bool { return len(z) != p.Weeks })
}

// clipped is what is left of the dog's season in the plan made before with the fixed sessions; idle where that does not hold.
func (s *solver) clipped(d int) *column {
	dog, start := &s.p.Dogs[d], s.opt.Start
	shares := table(len(dog.Areas), s.p.Weeks)
	if len(start.Shares) == len(s.p.Dogs) && len(start.Shares[d]) == len(dog.Areas) {
		for a := range shares {
			for t, z := range s.fixed[d] {
				if z > 0 && t < len(start.Shares[d][a]) {
					shares[a][t] = math.Min(math.Max(0, start.Shares[d][a][t]), dog.Areas[a].MostIn(t, shares[a]))
				}
			}
		}
	}
	c := newColumn(s.p, d, s.fixed[d], shares)
	for t, z := range s.fixed[d] { // sessions may be shorter now
		if most := dog.clear(t) * float64(z); c.work[t] > most {
			for a := range shares {
				shares[a][t] *= most / c.work[t]
			}
		}
	}
	if Violations(s.alone(d), Plan{Sessions: s.fixed[d : d+1], Shares: [][][]float64{shares}}, startTol) != nil {
		return idleColumn(s.p, d, nil)
	}
	return newColumn(s.p, d, s.fixed[d], shares)
}

// alone is the problem of one dog without limits.
func (s *solver) alone(d int) *Problem {
	return &Problem{Weeks: s.p.Weeks, Kinds: s.p.Kinds, Dogs: s.p.Dogs[d : d+1]}
}

// remembered is the dog's season in the plan made before, as a column, where it holds with the fixed sessions; else nil.
func (s *solver) remembered(d int) *column {
	start, dog := s.opt.Start, &s.p.Dogs[d]
	if len(start.Shares) != len(s.p.Dogs) || len(start.Shares[d]) != len(dog.Areas) {
		return nil
	}
	if Violations(s.alone(d), Plan{Sessions: s.fixed[d : d+1], Shares: start.Shares[d : d+1]}, startTol) != nil {
		return nil
	}
	return newColumn(s.p, d, s.fixed[d], start.Shares[d])
}

// startTol is how far a plan made before may pass a limit and still count as keeping it.
const startTol = 1e-7
