package check

import (
	"math"
	"slices"

	"tuckup/kennel"
)

// A jacket is rolled evenly: each week about as much as grows. What a week takes beyond its even share of living hair is
// charged for, and so is what two weeks together lack of one, but for the last weeks before a show.

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
			lost += tooMuch * math.Max(0, share(d, i, t)-even)
		}
		if c.underCounts(d, a, t) {
			lost += math.Max(0, even-c.pulled(d, i, t-1, t, share))
		}
		points += c.r.Options.Uneven * a.Weight.Value * lost
	}
	return points
}

const (
	leftDead = 5 // how much more dead hair that is left on the slowest area is charged for in the first weeks than too little work
	tooMuch  = 3 // how much more work beyond an even share is
)

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

// underCounts reports whether less than an even share in weeks t-1 and t is charged for: where the area can be worked in week t, and neither
// is one of the last before a show.
func (c *checker) underCounts(d int, a *checkedArea, t int) bool {
	return a.cap[t] > 0 && c.mostSessions(d, t) > 0 && !c.lastWeek(d, a, t) && (t == 0 || !c.lastWeek(d, a, t-1))
}

// lastWeek reports whether week t is one of the last before a show that counts, as the area's pattern says, up to the show.
func (c *checker) lastWeek(d int, a *checkedArea, t int) bool {
	return slices.ContainsFunc(c.k.Shows, func(s kennel.Show) bool {
		return s.Chance >= countedOn && c.goes(d, s) && c.monday(t) <= s.Last() && c.before(s, t, a.FinishWeeks.Value)
	})
}

// fresh is what an area's readiness at the end of week t is charged for what was pulled in the last weeks, where a show that counts is to
// come: each of them is in all the spans that reach back to it.
func (c *checker) fresh(d, i, t int, share func(d, a, t int) float64) (charged float64) {
	a := &c.dogs[d].areas[i]
	if !a.Name.Jacket() || a.Kept || !slices.ContainsFunc(c.k.Shows, func(s kennel.Show) bool {
		w := c.judgedWeek(s.On)
		return s.Chance >= countedOn && c.goes(d, s) && w >= 0 && w < c.weeks
	}) {
		return 0
	}
	spans := int(math.Min(freshSpans, math.Round(a.FinishWeeks.Value)))
	for ago := range spans {
		charged += freshCharge * float64(spans-ago) * c.pulled(d, i, t-ago, t-ago, share)
	}
	return charged
}

const (
	freshSpans  = 3    // the longest span, weeks
	freshCharge = 0.08 // readiness of an area, for all of it pulled in a span
)
