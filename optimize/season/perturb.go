package season

import (
	"math/rand/v2"
	"slices"
)

// perturb leads the polished plan of a small season out of a dead end: a few sessions are changed at random, or some dogs
// get sessions that they had in columns met before or are freed and fixed again, and the plan is polished from there. What
// is no better is taken back. Each polishing has the steps given. It returns whether the season is small enough for it.
func (s *solver) perturb(steps int) bool {
	size := len(s.dogs) * s.p.Weeks
	if size == 0 || !s.small() || len(s.p.Rows) == 0 {
		return false
	}
	near := 0.0 // gap that is near enough
	if s.p.areas()*s.p.Weeks > perturbAreas {
		near = perturbGap
	}
	dead := s.p.withDead()
	rng := rand.New(rand.NewPCG(s.opt.Seed, uint64(size)))
	for i := range min(perturbMost, perturbWork/size) {
		if s.clock.expired() || s.proven() || gap(s.bound, s.best.value) <= near {
			break
		}
		before := s.checkpoint()
		kinds := 3
		if len(dead) > 0 {
			kinds = 4
		}
		switch i % kinds {
		case 0:
			for range 1 + rng.IntN(perturbDogs) {
				if d := rng.IntN(len(s.dogs)); len(s.columns.open[d]) > 0 {
					c := s.columns.open[d][rng.IntN(len(s.columns.open[d]))]
					s.fixed[d] = c.sessions
					s.dogs[d].setClearings(c.clear)
				}
			}
		case 1:
			for range 1 + rng.IntN(perturbSessions) {
				s.change(rng, rng.IntN(len(s.dogs)), rng.IntN(s.p.Weeks))
			}
		case 3:
			s.clearOtherwise(rng, dead[rng.IntN(len(dead))])
		default:
			s.free(rng.Perm(len(s.dogs))[:min(len(s.dogs), freeDogs)])
		}
		if m, err := s.feasibleMaster(s.fixed); err == nil {
			s.polish(m, steps)
			s.clear()
		}
		s.goBackUnlessBetter(before)
	}
	return true
}

// areas is how many areas all dogs have.
func (p *Problem) areas() (sum int) {
	for d := range p.Dogs {
		sum += len(p.Dogs[d].Areas)
	}
	return sum
}

// small reports whether the season is so small that more is tried.
func (s *solver) small() bool { return len(s.dogs)*s.p.Weeks <= perturbSize }

// clearOtherwise clears one area of a dog by another week.
func (s *solver) clearOtherwise(rng *rand.Rand, d int) {
	n := s.dogs[d]
	var areas []int
	for a := range n.dog.Areas {
		if n.dog.Areas[a].Dead > 0 {
			areas = append(areas, a)
		}
	}
	n.clearBy(areas[rng.IntN(len(areas))], rng.IntN(s.p.Weeks+1))
}

// change gives a dog another number of sessions in the week, if it can have one.
func (s *solver) change(rng *rand.Rand, d, t int) {
	if most := s.p.Dogs[d].Most[t]; s.p.Dogs[d].canOpen(t) {
		f := slices.Clone(s.fixed[d])
		f[t] = (f[t] + 1 + rng.IntN(most)) % (most + 1)
		s.fixed[d] = f
	}
}
