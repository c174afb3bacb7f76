package check

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

const (
	bandSteps = 1200 // growths at which a band is worked out anew, at even parts of the distribution
	bandSlip  = 5    // of them by which a band's end may be off: the planner draws one growth in each of its parts
	bandTol   = 0.01 // by which the chance of being in coat may be off for the same reason
)

// bands compares how sure a dog's readiness at the end of week t is: growth is lognormal around its estimate, and the
// hair on the dog is judged by the thresholds of each growth.
func (c *checker) bands(where string, says planned.ShowReadiness, d, t int) {
	dog := &c.dogs[d]
	queues := make([][]hair, len(dog.areas))
	for i := range queues {
		queues[i] = c.worked(&dog.areas[i], t)
	}
	scores := make([]float64, bandSteps)
	surely, maybe := 0.0, 0.0 // in coat; on the very threshold arithmetic decides
	for n := range scores {
		growth := c.growthAt(d, (float64(n)+0.5)/bandSteps)
		now := make([]stand, len(queues))
		for i, a := range dog.areas {
			now[i] = standing(a.RuleFor(growth), queues[i], t)
		}
		scores[n] = dog.showScore(now)
		if scores[n] >= float64(kennel.ReadyScore)+checkTol {
			surely++
		}
		if scores[n] >= float64(kennel.ReadyScore)-checkTol {
			maybe++
		}
	}
	slices.Sort(scores)
	between := func(figure string, says kennel.Score, part float64) {
		n := int(part * bandSteps)
		c.atLeast(where, figure, float64(says), scores[max(0, n-bandSlip)])
		c.atMost(where, figure, float64(says), scores[min(bandSteps-1, n+bandSlip)])
	}
	between("readiness if it grows badly", says.Low, 0.1)
	between("readiness if it grows well", says.High, 0.9)
	c.atLeast(where, "chance of being in coat", says.Likely, surely/bandSteps-bandTol)
	c.atMost(where, "chance of being in coat", says.Likely, maybe/bandSteps+bandTol)
}

// worked is what is on an area at the end of week t with the plan.
func (c *checker) worked(a *checkedArea, t int) []hair {
	if t < 0 {
		return c.queue(a, t)
	}
	q := c.queue(a, 0)
	for w, share := range a.shares[:t+1] {
		if share > 0 {
			q = pull(q, share, w)
		}
	}
	return q
}
