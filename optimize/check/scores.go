package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// shows compares the readiness for shows.
func (c *checker) shows() {
	type entry struct {
		dog  int
		show kennel.Show
	}
	var due []entry
	for d := range c.dogs {
		for _, s := range c.k.Shows {
			if c.goes(d, s) && c.judgedWeek(s.On) < c.weeks {
				due = append(due, entry{d, s})
			}
		}
	}
	slices.SortStableFunc(due, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.show.On, b.show.On), cmp.Compare(a.show.Name, b.show.Name), cmp.Compare(c.dogs[a.dog].Name, c.dogs[b.dog].Name))
	})
	c.equal("readiness", "dogs at shows", len(c.r.Readiness), len(due))
	for i, says := range c.r.Readiness {
		if i >= len(due) {
			return
		}
		dog, s, t := c.dogs[due[i].dog], due[i].show, c.judgedWeek(due[i].show.On)
		where := dog.Name + " at " + s.Name
		c.equal(where, "dog", says.Dog, dog.Name)
		c.equal(where, "show", says.Show, s.Name)
		c.equal(where, "day", says.On, s.On)
		c.same(where, "chance", says.Chance, s.Chance)
		now := dog.worked.at(t)
		c.same(where, "readiness if all is done", float64(says.Followed), dog.showScore(now))
		c.same(where, "readiness if left alone", float64(says.Idle), dog.showScore(dog.idle.at(t)))
		c.worst(where, says, due[i].dog, now)
		c.bands(where, says, due[i].dog, t)
		c.cure(where, says, due[i].dog, t)
	}
}

func (c *checker) worst(where string, says planned.ShowReadiness, d int, now []stand) {
	least := now[0].score
	for _, s := range now {
		least = min(least, s.score)
	}
	c.same(where, "readiness of the worst area", float64(says.WorstScore), least)
	a := c.areaNamed(d, says.WorstArea)
	if c.ask(where, "worst area", a >= 0 && agree(now[max(a, 0)].score, least), "the one with the least readiness"); a >= 0 {
		c.reasoned(where, says.Why, now[a])
	}
}

// outlooks compares the dogs' coats today and over the season.
func (c *checker) outlooks() {
	for d, o := range c.r.Outlooks {
		dog := c.dogs[d]
		c.equal("outlook", "dog", o.Dog, dog.Name)
		now := dog.idle.at(c.today(d))
		where := dog.Name + " today"
		c.same(where, "readiness", float64(o.Score), dog.score(now))
		c.count(where, "state", dog.whole(now).allows(o.State), quoted(o.State), "another")
		c.equal(where, "areas", len(o.Areas), len(dog.areas))
		for i, says := range o.Areas {
			if i >= len(dog.areas) {
				break
			}
			at := where + ", " + string(dog.areas[i].Name)
			c.equal(at, "area", says.Area, dog.areas[i].Name)
			c.same(at, "readiness", float64(says.Score), now[i].score)
			c.count(at, "state", now[i].allows(says.State), quoted(says.State), "another")
			c.reasoned(at, says.Why, now[i])
			c.ages(at, says, &dog.areas[i], c.today(d))
		}
		c.scores(dog, "if left alone", dog.idle, o.IdleScores, o.Idle)
		c.scores(dog, "with the plan", dog.worked, o.PlannedScores, o.Planned)
		c.states(dog, "if left alone", dog.idle, o.IdleStates)
		c.states(dog, "with the plan", dog.worked, o.PlannedStates)
	}
}

// ages compares the ages of an area's hair at the end of week t, and the ages at which it shows and is too long.
func (c *checker) ages(where string, says planned.AreaOutlook, a *checkedArea, t int) {
	c.equal(where, "weeks until it shows", says.Ready, a.rule.Ready)
	over := a.rule.Ready + a.rule.Hold
	if a.Kept {
		over = 0
	}
	c.equal(where, "weeks until it is too long", says.Over, over)
	old := 1.0
	for age, share := range says.Ages {
		var is float64
		for _, h := range c.queue(a, t) {
			if grown := a.grown(h.week, t) + checkTol; grown >= float64(age) && grown < float64(age+1) {
				is += h.share
			}
		}
		old -= is
		c.same(where, fmt.Sprintf("hair grown for %d weeks", age), float64(share), is)
	}
	c.same(where, "hair older than that", float64(says.Older), math.Max(0, old))
}

// states compares a dog's states by week.
func (c *checker) states(dog checkedDog, how string, all stands, says []kennel.State) {
	c.equal(dog.Name, "weeks of states "+how, len(says), c.weeks)
	for t, state := range says {
		if t < c.weeks {
			c.count(c.weekWords(t)+", "+dog.Name, "state "+how, dog.whole(all.at(t)).allows(state), quoted(string(state)), "another")
		}
	}
}

// today is the week whose end stands for the dog's coat today: as for a show today, but with what was pulled this week.
func (c *checker) today(d int) int {
	for _, a := range c.dogs[d].areas {
		for _, l := range a.layers {
			if l.Share > 0 && c.pulledIn(l) == 0 {
				return 0
			}
		}
	}
	return c.judgedWeek(c.r.On)
}

// scores compares a dog's readiness by week and the runs of weeks in which it is in coat.
func (c *checker) scores(dog checkedDog, how string, all stands, says []kennel.Score, windows []kennel.Window) {
	c.equal(dog.Name, "weeks of readiness "+how, len(says), c.weeks)
	in := make([]bool, c.weeks)
	last := kennel.Date(0) // the last day of the window before
	for _, w := range windows {
		first, after := int(w.From-c.r.Week0), int(w.To-c.r.Week0)+1
		c.count(dog.Name, "days in coat "+how, first >= 0 && first < after && after <= c.weeks*kennel.DaysAWeek &&
			first%kennel.DaysAWeek == 0 && after%kennel.DaysAWeek == 0 && (last == 0 || w.From > last+1),
			w.From.String()+" to "+w.To.String(), "whole weeks of the season, apart from each other")
		last = w.To
		for n := max(0, first); n < min(after, c.weeks*kennel.DaysAWeek); n++ {
			in[n/kennel.DaysAWeek] = true
		}
	}
	for t := range c.weeks {
		where := c.weekWords(t) + ", " + dog.Name
		score := dog.score(all.at(t))
		if t < len(says) {
			c.same(where, "readiness "+how, float64(says[t]), score)
		}
		shown := dog.showScore(all.at(t))
		if in[t] {
			c.atLeast(where, "readiness "+how+", on days in coat", shown, float64(kennel.ReadyScore))
		} else {
			c.atMost(where, "readiness "+how+", on days out of coat", shown, float64(kennel.ReadyScore))
		}
	}
}

// cannot compares which dogs are reported out of coat for a show that is counted on.
func (c *checker) cannot() {
	said := map[string]int{}
	for _, x := range c.r.Cannot {
		said[x.What]++
	}
	for _, r := range c.r.Readiness {
		what := r.Dog + " in coat for " + r.Show
		switch score := float64(r.Followed - kennel.ReadyScore); {
		case score < -checkTol && r.Chance >= countedOn:
			c.ask("what cannot be met", what, said[what] > 0, "listed")
		case score > checkTol || r.Chance < countedOn:
			c.ask("what cannot be met", what, said[what] == 0, "not listed")
		}
	}
}
