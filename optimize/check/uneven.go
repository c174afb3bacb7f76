package check

import "math"

// A jacket is rolled evenly: each week about as much as grows. What a week takes beyond its even share of living hair is
// charged for, and so is what two weeks together lack of one.

// uneven is what dog d loses in week t for a jacket worked unevenly and for dead hair that is left, points.
func (c *checker) uneven(d, t int, share func(d, a, t int) float64) (points float64) {
	if c.r.Options.Uneven <= 0 {
		return 0
	}
	for i := range c.dogs[d].areas {
		a := &c.dogs[d].areas[i]
		if !a.Kept && t < deadFirst {
			points += leftDead * c.r.Options.Uneven * a.Weight.Value * c.deadAfter(d, i, t, share) * math.Pow(a.Ready.Value/c.slowest(d), 2)
		}
		if !a.Name.Jacket() || a.Kept {
			continue
		}
		even := millionths(c.dogs[d].growth / (a.Ready.Value + a.Hold.Value/2))
		lost := 0.0
		if a.overCounts(t) {
			lost += math.Max(0, share(d, i, t)-even)
		}
		if c.underCounts(d, a, t) {
			lost += math.Max(0, even-c.pulled(d, i, t-1, t, share))
		}
		points += c.r.Options.Uneven * a.Weight.Value * lost
	}
	return points
}

// leftDead is how much more dead hair that is left on the slowest area is charged for in the first weeks than uneven work.
const leftDead = 5

// slowest is how long the slowest of the dog's areas that are pulled takes to show, weeks.
func (c *checker) slowest(d int) (ready float64) {
	for _, a := range c.dogs[d].areas {
		if !a.Kept {
			ready = math.Max(ready, a.Ready.Value)
		}
	}
	return ready
}

// deadAfter is what is left at the end of week t of the hair of an area that was dead when the plan began.
func (c *checker) deadAfter(d, i, t int, share func(d, a, t int) float64) float64 {
	a := &c.dogs[d].areas[i]
	left := a.wasDead
	for u := range t + 1 {
		left -= share(d, i, u)
	}
	return math.Max(0, left)
}

// overCounts reports whether more than an even share in week t is charged for: not while a coat that is dead when the plan begins is taken
// down.
func (a *checkedArea) overCounts(t int) bool {
	return t >= deadFirst || a.wasDead == 0
}

// underCounts reports whether less than an even share in weeks t-1 and t is charged for: where the area can be worked in week t.
func (c *checker) underCounts(d int, a *checkedArea, t int) bool {
	return a.cap[t] > 0 && c.mostSessions(d, t) > 0
}
