package season

import (
	"math/rand/v2"
	"slices"
)

const (
	kickMost  = 24  // kicks of a small season
	kickWork  = 840 // .. and dog-weeks in all of them
	kickSize  = 60  // dog-weeks up to which a season is small
	kickSteps = 4   // sessions that a kick changes at the most
	kickDogs  = 2   // .. or dogs that it gives other sessions
)

// kick leads the polished plan of a small season out of a dead end: a few sessions are changed at random, or some dogs
// get sessions that they had in columns met before, and the plan is polished from there. What is no better is taken back. It
// returns whether it kicked at all.
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
		if i%2 == 0 {
			for range 1 + rng.IntN(kickDogs) {
				if d := rng.IntN(len(s.dogs)); len(s.met[d]) > 0 {
					s.fixed[d] = s.met[d][rng.IntN(len(s.met[d]))].sessions
				}
			}
		} else {
			for range 1 + rng.IntN(kickSteps) {
				s.change(rng, rng.IntN(len(s.dogs)), rng.IntN(s.p.Weeks))
			}
		}
		if m, err := s.resettle(); err == nil {
			s.polish(m)
		}
		s.better(before)
	}
	return true
}

// change gives a dog another number of sessions in the week, if it can have one.
func (s *solver) change(rng *rand.Rand, d, t int) {
	if most := s.p.Dogs[d].Most[t]; s.p.Dogs[d].canOpen(t) {
		f := slices.Clone(s.fixed[d])
		f[t] = (f[t] + 1 + rng.IntN(most)) % (most + 1)
		s.fixed[d] = f
	}
}
