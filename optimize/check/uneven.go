package check

import "math"

// A jacket is rolled evenly: each week about as much as grows. What a week takes beyond its even share of living hair is
// charged for, and so is what two weeks together lack of one.

// uneven is what the jacket of dog d loses in week t for being worked unevenly, points.
func (c *checker) uneven(d, t int, share func(d, a, t int) float64) (points float64) {
	if c.r.Options.Uneven <= 0 {
		return 0
	}
	for i := range c.dogs[d].areas {
		a := &c.dogs[d].areas[i]
		if !a.Name.Jacket() || a.Kept {
			continue
		}
		even := millionths(c.dogs[d].growth / (a.Ready.Value + a.Hold.Value/2))
		lost := 0.0
		if c.overCounts(a, t) {
			lost += math.Max(0, share(d, i, t)-even)
		}
		if c.underCounts(d, a, t) {
			lost += math.Max(0, even-c.pulled(d, i, t-1, t, share))
		}
		points += c.r.Options.Uneven * a.Weight.Value * lost
	}
	return points
}

// overCounts reports whether more than an even share in week t is charged for: not while a coat that is dead when the plan begins is taken
// down.
func (c *checker) overCounts(a *checkedArea, t int) bool {
	return t >= deadFirst || c.dead(a, c.began(a)) == 0
}

// underCounts reports whether less than an even share in weeks t-1 and t is charged for: where the area can be worked in week t.
func (c *checker) underCounts(d int, a *checkedArea, t int) bool {
	return a.cap[t] > 0 && c.mostSessions(d, t) > 0
}
