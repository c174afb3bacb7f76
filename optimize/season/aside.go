package season

import "slices"

// proveAside goes on with the bound while the plan is made of the columns that were met: on one core, with nets and
// programs of its own. The function that it returns waits for the end and takes over what came of it. Without a time limit
// the work is always the same; with one it ends when the plan is made.
func (s *solver) proveAside() (join func()) {
	a := newAside(s)
	done := make(chan struct{})
	go func() {
		defer close(done)
		m, err := a.master()
		for err == nil && !a.past() {
			err = a.generate(m, asideRounds, smoothing)
			a.open = a.least
			a.look(lookTimes * a.nodes)
			if !a.timed() {
				break
			}
		}
		a.keep(m)
	}()
	return func() {
		if s.timed() {
			a.enough.Store(true)
		}
		<-done
		s.rounds += a.rounds
		if a.bound < s.bound {
			s.bound = a.bound
			s.report()
		}
		s.open, s.met = a.open, a.pool
	}
}

// newAside is a solver for the bound of the same season, as far as the other has come.
func newAside(s *solver) *solver {
	o := s.opt
	o.Progress = nil
	a := newSolverOf(s.ctx, s.p, o)
	a.aside, a.nodes = true, s.proveNodes()
	a.value, a.bound, a.hope, a.open, a.least, a.part = s.value, s.bound, s.hope, s.open, s.open, s.part
	a.pool = slices.Clone(s.pool)
	for d, n := range s.dogs {
		a.dogs[d].parts = n.parts
		for side := range n.brought {
			a.dogs[d].brought[side] = n.brought[side].clone()
		}
	}
	return a
}
