package season

import (
	"math/rand/v2"
	"slices"
)

// kick leads the polished plan of a small season out of a dead end: a few sessions are changed at random, or some dogs
// get sessions that they had in columns met before or are freed and settled anew, and the plan is polished from there. What
// is no better is taken back. It returns whether it kicked at all.
func (s *solver) kick() bool {
	size := len(s.dogs) * s.p.Weeks
	if size == 0 || size > kickSize || len(s.p.Rows) == 0 {
		return false
	}
	rng := rand.New(rand.NewPCG(s.opt.Seed, uint64(size)))
	for i := range min(kickMost, kickWork/size) {
		if s.over() || s.proven() {
			break
		}
		before := s.settled()
		switch i % 3 {
		case 0:
			for range 1 + rng.IntN(kickDogs) {
				if d := rng.IntN(len(s.dogs)); len(s.met[d]) > 0 {
					s.fixed[d] = s.met[d][rng.IntN(len(s.met[d]))].sessions
				}
			}
		case 1:
			for range 1 + rng.IntN(kickSteps) {
				s.change(rng, rng.IntN(len(s.dogs)), rng.IntN(s.p.Weeks))
			}
		default:
			s.free(rng.Perm(len(s.dogs))[:min(len(s.dogs), freeDogs)])
		}
		if m, err := s.resettle(); err == nil {
			s.polish(m)
		}
		s.better(before)
	}
	return true
}

// free settles the sessions of some dogs anew, all others held as they are.
func (s *solver) free(dogs []int) {
	before := slices.Clone(s.fixed)
	for _, d := range dogs {
		s.fixed[d] = nil
		s.pool[d] = slices.Concat(s.pool[d], s.met[d])
	}
	m, err := s.master()
	if err != nil || s.generate(m, freeRounds, diveSmoothing) != nil || s.dive(m) != nil {
		s.fixed = before
		return
	}
	s.take(m)
}

// change gives a dog another number of sessions in the week, if it can have one.
func (s *solver) change(rng *rand.Rand, d, t int) {
	if most := s.p.Dogs[d].Most[t]; s.p.Dogs[d].canOpen(t) {
		f := slices.Clone(s.fixed[d])
		f[t] = (f[t] + 1 + rng.IntN(most)) % (most + 1)
		s.fixed[d] = f
	}
}
