package season

import (
	"math/rand/v2"
	"slices"
)

const (
	kickMost  = 16 // kicks of a small season
	kickSize  = 60 // dog-weeks up to which a season is small
	kickSteps = 4  // sessions that a kick changes at the most
)

// kick leads the polished plan of a small season out of a dead end: a few sessions are changed at random and the plan
// is polished from there. What is no better is taken back.
func (s *solver) kick() {
	size := len(s.dogs) * s.p.Weeks
	if size == 0 || size > kickSize || len(s.p.Rows) == 0 {
		return
	}
	rng := rand.New(rand.NewPCG(s.opt.Seed, uint64(size)))
	for range kickMost {
		if s.over() || s.proven() {
			return
		}
		before := s.settled()
		for range 1 + rng.IntN(kickSteps) {
			d, t := rng.IntN(len(s.dogs)), rng.IntN(s.p.Weeks)
			if most := s.p.Dogs[d].Most[t]; most > 0 && s.p.Dogs[d].canOpen(t) {
				f := slices.Clone(s.fixed[d])
				f[t] = (f[t] + 1 + rng.IntN(most)) % (most + 1)
				s.fixed[d] = f
			}
		}
		if _, err := s.resettle(); err == nil {
			s.polish()
		}
		s.better(before)
	}
}
