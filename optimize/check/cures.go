package check

import (
	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// cure does the work that is said to bring a dog in coat for a show judged at the end of week t, hair by hair: instead of what the
// plan pulls of its areas from then on.
func (c *checker) cure(where string, says planned.ShowReadiness, d, t int) {
	dog := c.dogs[d]
	if says.Cure == nil {
		return
	}
	c.atMost(where, "readiness of a dog that needs work to be in coat", float64(says.Score), float64(kennel.ReadyScore))
	now := append([]stand(nil), dog.worked.at(t)...)
	for _, w := range says.Cure.Work {
		i := c.areaNamed(d, w.Area)
		if c.ask(where, "area that would bring it in coat", i >= 0, "one of its pattern"); i < 0 {
			return
		}
		a := &dog.areas[i]
		c.ask(where, "day by which work brings it in coat", w.By >= c.r.On && w.By < says.On && c.canDo(d, a.Work, w.By),
			"before the show, and one on which it can be done")
		c.atMost(where, "share that brings it in coat", float64(w.Share), 1)
		week := c.weekOf(w.By)
		if week < 0 || week >= c.weeks {
			return
		}
		dead := c.deadIn(a, func(u int) float64 {
			switch {
			case u < week:
				return a.shares[u]
			case u == week:
				return float64(w.Share)
			}
			return 0
		})
		c.same(where, "minutes that bring it in coat", float64(w.Minutes), a.work(float64(w.Share), dead[week]))
		q := c.queue(a, 0)
		for u := 0; u < min(week, c.weeks); u++ {
			if a.shares[u] > 0 {
				q = pull(q, a.shares[u], u)
			}
		}
		now[i] = standing(a.rule, pull(q, float64(w.Share), week), t, a.grown)
	}
	c.same(where, "readiness with work that brings it in coat", float64(says.Cure.Score), dog.showScore(now))
	c.atLeast(where, "readiness with work that brings it in coat", dog.showScore(now), float64(kennel.ReadyScore))
}

// canDo reports whether dog d is at the table on the day and someone who does such work is there.
func (c *checker) canDo(d int, work kennel.Skill, day kennel.Date) bool {
	return c.tableDays(d, day, day, work) > 0
}
