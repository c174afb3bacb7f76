package season

import (
	"math"
	"math/rand/v2"
	"slices"
)

// repair goes on with the best plan as long as there is time: a few dogs are freed, all others held to their sessions, and dived for
// again; what is no better is taken back (destroy and repair; Shaw, CP 1998). How many are freed follows what brought something. It returns whether the plan is better.
func (s *solver) repair() (better bool) {
	if len(s.dogs) < 2 || len(s.p.Rows) == 0 {
		return false
	}
	rng := rand.New(rand.NewPCG(s.opt.Seed, uint64(len(s.dogs))))
	worth := [3]float64{1, 1, 1} // of freeing two, three and four dogs
	for s.clock.timed() && !s.clock.spent(polishTime) && !s.proven() {
		size := draw(rng, worth[:])
		before := s.checkpoint()
		s.free(rng.Perm(len(s.dogs))[:min(len(s.dogs), 2+size)])
		worth[size] = math.Max(repairLeast, repairForget*worth[size])
		if s.goBackUnlessBetter(before) {
			worth[size] += 1 - repairForget
			better = true
		}
	}
	return better
}

// draw is a place by its weight.
func draw(rng *rand.Rand, weight []float64) int {
	sum := 0.0
	for _, w := range weight {
		sum += w
	}
	x := sum * rng.Float64()
	for i, w := range weight {
		if x -= w; x < 0 {
			return i
		}
	}
	return len(weight) - 1
}

// free fixes the sessions of some dogs again, all others held as they are, where that promises to gain.
func (s *solver) free(dogs []int) {
	before, clear := slices.Clone(s.fixed), make([][]int, len(dogs))
	for i, d := range dogs {
		clear[i] = s.p.Dogs[d].clearings()
		s.fixed[d] = nil
		s.columns.useful[d] = slices.Concat(s.columns.useful[d], s.columns.open[d])
	}
	m, err := s.master()
	if err == nil {
		err = s.generate(m, repairRounds, diveSmoothing)
	}
	if err == nil {
		err = s.again(m)
	}
	if err == nil && m.objective() > s.best.value+repairTol*math.Max(1, math.Abs(s.best.value)) && s.diveWeeks(m) == nil {
		s.offerMix(m, s.fixed)
		return
	}
	s.fixed = before
	for i, d := range dogs {
		s.dogs[d].setClearings(clear[i])
	}
}
