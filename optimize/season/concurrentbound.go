package season

import "slices"

// proveBeside goes on with the bound while the plan is made of the columns that were met: on one core, with nets and
// programs of its own. The function that it returns waits for the end and takes over what came of it. Without a time limit
// the work is always the same; with one it ends when the plan is made.
func (s *solver) proveBeside() (join func()) {
	b := newBoundSolver(s)
	done := make(chan struct{})
	go func() {
		defer close(done)
		m, err := b.master()
		for err == nil && !b.clock.spent(b.phase.timeShare) {
			err = b.generate(m, besideRounds, smoothing)
			b.duals.lp = b.duals.best
			b.look(lookTimes * b.phase.nodes)
			if !b.clock.timed() {
				b.lookFurther()
				break
			}
		}
		b.keep(m)
	}()
	return func() {
		if s.clock.timed() {
			b.clock.ended.Store(true)
		}
		<-done
		s.rounds += b.rounds
		if b.bound < s.bound {
			s.bound = b.bound
			s.report()
		}
		s.duals.lp, s.columns.open = b.duals.lp, b.columns.useful
	}
}

// lookFurther bounds again with more nodes from stage to stage.
func (s *solver) lookFurther() {
	for range besideStages {
		s.phase.nodes *= nodesGrow
		s.look(lookTimes * s.phase.nodes)
	}
}

// newBoundSolver is a solver for the bound of the same season, as far as the other has come.
func newBoundSolver(s *solver) *solver {
	o := s.opt
	o.Progress = nil
	b := newBareSolver(&clock{cancelled: s.clock.cancelled, stopwatch: s.clock.stopwatch, limit: s.clock.limit}, s.p, o)
	b.workers = inTurn
	b.phase = phase{s.proveNodes(), s.phase.timeShare}
	b.best.value, b.bound, b.lpValue = s.best.value, s.bound, s.lpValue
	b.duals.lp, b.duals.best = s.duals.lp, s.duals.lp
	b.columns.useful = slices.Clone(s.columns.useful)
	for d, n := range s.dogs {
		b.dogs[d].parts, b.dogs[d].openHoles = n.parts, n.openHoles
		for side := range n.pseudoCosts {
			b.dogs[d].pseudoCosts[side] = n.pseudoCosts[side].clone()
		}
	}
	return b
}
