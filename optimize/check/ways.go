package check

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Of the jacket's work: less in a week is tidying, less in some weeks is not rolling, and less in all is not taking the jacket down.
const (
	tidied  = 0.01
	rolling = 0.1
	down    = 0.2
)

// ways compares how each dog is worked with what the weeks pull of its jacket.
func (c *checker) ways() {
	c.equal("the plan", "ways of working a dog", len(c.r.Ways), len(c.dogs))
	for d, w := range c.r.Ways {
		if d >= len(c.dogs) {
			return
		}
		dog := c.dogs[d]
		where := "the way of " + dog.Name
		c.equal(where, "dog", w.Dog, dog.Name)
		c.equal(where, "held to rolling", w.Held, dog.Coat.RollOnly)
		heaviest := planned.WayRested
		last := kennel.Date(0)
		for _, s := range w.Spells {
			c.spell(where, d, s)
			c.ask(where, "days of the spell", s.From > last, "after the spell before")
			last = s.To
			heaviest = heavier(heaviest, s.Kind)
		}
		c.equal(where, "way", w.Kind, heaviest)
		c.equal(where, "let go", w.LetGo, heaviest == planned.WayRested && dog.showScore(dog.worked.at(c.weeks-1)) < float64(kennel.ReadyScore))
		if w.Other != nil {
			c.otherWay(where, d, *w.Other)
		}
	}
}

// heavier is the one of two ways that takes more at once.
func heavier(a, b planned.WayKind) planned.WayKind {
	order := []planned.WayKind{planned.WayRested, planned.WayRolled, planned.WayStaged, planned.WayStripped}
	return order[max(slices.Index(order, a), slices.Index(order, b), 0)]
}

// spell compares the work on the jacket in the weeks of a spell with its kind.
func (c *checker) spell(where string, d int, s planned.Spell) {
	first, after := int(s.From-c.r.Week0), int(s.To-c.r.Week0)+1
	inside := first >= 0 && first < after && after <= c.weeks*kennel.DaysAWeek && after%kennel.DaysAWeek == 0
	c.ask(where, "days of the spell", inside && (s.From == c.r.On || first%kennel.DaysAWeek == 0), "whole weeks of the season from today on")
	if !inside {
		return
	}
	from, to := first/kennel.DaysAWeek, after/kennel.DaysAWeek-1
	var sum, most float64
	for t := from; t <= to; t++ {
		take := c.jacket(d, t)
		sum += take
		most = max(most, take)
	}
	switch s.Kind {
	case planned.WayRested:
		c.atMost(where, "most of the jacket pulled in a week of the "+string(s.Kind)+" spell", most, rolling)
	case planned.WayRolled:
		c.atLeast(where, "jacket pulled in the first week of the "+string(s.Kind)+" spell", c.jacket(d, from), tidied)
		c.atLeast(where, "jacket pulled in the last week of the "+string(s.Kind)+" spell", c.jacket(d, to), tidied)
	case planned.WayStaged, planned.WayStripped:
		c.atLeast(where, "jacket pulled in the "+string(s.Kind)+" spell", sum, down)
	default:
		c.ask(where, "kind of spell", false, "one of the ways")
	}
}

// jacket is how much of dog d's jacket is pulled in week t, its areas weighed by the time that they take.
func (c *checker) jacket(d, t int) float64 {
	var pulled, all float64
	for _, a := range c.dogs[d].areas {
		if a.Name.Jacket() {
			pulled += a.Minutes.Value * a.shares[t]
			all += a.Minutes.Value
		}
	}
	return pulled / max(all, 1)
}

// otherWay compares what the plan is said to bring beside another way; what that would bring is found by planning.
func (c *checker) otherWay(where string, d int, o planned.Other) {
	var least, most int // at the threshold, to within arithmetic, both are right
	for t := range c.weeks {
		score := c.dogs[d].showScore(c.dogs[d].worked.at(t)) - float64(kennel.ReadyScore)
		if score >= checkTol {
			least++
		}
		if score >= -checkTol {
			most++
		}
	}
	c.count(where, "weeks in coat", least <= o.InCoat && o.InCoat <= most, quoted(o.InCoat), quoted(most))
	for _, s := range o.Shows {
		i := slices.IndexFunc(c.r.Readiness, func(r planned.ShowReadiness) bool {
			return r.Dog == c.dogs[d].Name && r.Show == s.Show && r.On == s.On
		})
		if c.ask(where, "show of the other way", i >= 0, "one that it is shown at"); i >= 0 {
			c.same(where, "readiness beside the other way", float64(s.Score), float64(c.r.Readiness[i].Score))
		}
	}
}
