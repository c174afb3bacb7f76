package season

import "slices"

// warm begins with the sessions of a plan that was made before: it is worked out for this problem, and polished. It
// returns the master in which all its sessions are settled; nil when there is no plan to begin with, or it does not fit.
func (s *solver) warm() *master {
	if !s.opt.Start.covers(s.p) {
		return nil
	}
	for d := range s.fixed {
		s.fixed[d] = make([]int, s.p.Weeks)
		for t := range s.fixed[d] {
			if s.p.Dogs[d].canOpen(t) {
				s.fixed[d][t] = min(max(0, s.opt.Start.Sessions[d][t]), s.p.Dogs[d].Most[t])
			}
		}
	}
	m, err := s.resettle()
	if err != nil || s.generate(m, warmRounds, diveSmoothing) != nil {
		return nil
	}
	s.keep(m)
	return m
}

// warmRounds is how many pricing rounds a plan made before has in its new season.
const warmRounds = 14

// covers reports whether the plan has sessions for every dog and week of the problem.
func (pl *Plan) covers(p *Problem) bool {
	return pl != nil && len(pl.Sessions) == len(p.Dogs) && !slices.ContainsFunc(pl.Sessions, func(z []int) bool { return len(z) != p.Weeks })
}
