package check

import (
	"fmt"
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// rules hold the plan against what it must keep to: sessions, finish rules, dogs that are only rolled, the grip age, and
// touches that are worth making.
func (c *checker) rules() {
	for d := range c.dogs {
		for t, z := range c.sessions[d] {
			if z != 0 || c.pulling(d, t) > 0 {
				c.sessionsKept(d, t)
			}
		}
		for a := range c.dogs[d].areas {
			c.areaKept(d, a)
		}
		c.dutiesKept(d)
	}
}

// pulling is the minutes of pulling of dog d in week t.
func (c *checker) pulling(d, t int) (sum float64) {
	for _, a := range c.dogs[d].areas {
		sum += a.weekWork(t)
	}
	return sum
}

func (c *checker) sessionsKept(d, t int) {
	dog, z := c.dogs[d], float64(c.sessions[d][t])
	where := c.weekWords(t) + ", " + dog.Name
	c.atLeast(where, "sessions", z, 1)
	c.atMost(where, "sessions", z, float64(c.mostSessions(d, t)))
	c.atMost(where, "minutes of pulling and set-up", c.pulling(d, t)+z*c.setUp(d), z*c.longestSession(d, t))
}

// caps are the largest shares of an area's living hair that may be pulled, by week.
func (c *checker) caps(d, a int) []float64 {
	dog, area := c.dogs[d], c.dogs[d].areas[a]
	caps := make([]float64, c.weeks)
	if area.Kept {
		return caps
	}
	least := c.leastShares(d, a)
	for t := range caps {
		if c.workDays(d, t, area) > 0 {
			caps[t] = 1
		}
		if dog.Coat.RollOnly {
			caps[t] = min(caps[t], dog.pattern.RollMost.Value)
		}
		if least != nil {
			caps[t] = min(caps[t], least[t])
		}
		for _, s := range c.k.Shows {
			if c.goes(d, s) && c.monday(t) <= s.Last() && c.before(s, t, area.FinishWeeks.Value) {
				caps[t] = min(caps[t], area.FinishShare.Value)
			}
			if c.near(d, a, s, t) && c.made(d, s) {
				caps[t] = min(caps[t], nearMost)
			}
		}
	}
	return caps
}

// workDays counts the days of week t on which the area can be worked: a jacket is left alone just before shows.
func (c *checker) workDays(d, t int, area checkedArea) (days int) {
	for n := range kennel.DaysAWeek {
		if day := c.monday(t).AddDays(n); !area.Name.Jacket() || !c.rested(d, day) {
			days += c.tableDays(d, day, day, area.Work)
		}
	}
	return days
}

// before reports whether week t has a day that is nearer to the show than so many weeks, rounded, or is after it.
func (c *checker) before(s kennel.Show, t int, weeks float64) bool {
	sunday := c.monday(t).AddDays(kennel.DaysAWeek - 1)
	n := int(math.Round(weeks))
	return n > 0 && int(s.On-sunday) < n*kennel.DaysAWeek
}

// near reports whether week t is so near to a show that counts that what is pulled of the area then is not back for it.
func (c *checker) near(d, a int, s kennel.Show, t int) bool {
	area := c.dogs[d].areas[a]
	return area.Name.Jacket() && s.Chance >= countedOn && c.goes(d, s) && c.monday(t) <= s.On && c.before(s, t, float64(area.rule.Ready))
}

// made reports whether the plan makes the dog ready for the show, as is to be expected over its growths. One that it makes ready can
// be, so that the rules for weeks near a show hold; whether another could have been is for the planner to find out.
func (c *checker) made(d int, s kennel.Show) bool {
	t := c.judgedWeek(s.On)
	if t < 0 || t >= c.weeks {
		return false
	}
	if c.dogs[d].expected == nil {
		c.dogs[d].expected = c.unclipped(d, func(d, a, t int) float64 { return c.dogs[d].areas[a].shares[t] })
	}
	var mean float64
	worst := math.Inf(1)
	for i, ready := range c.dogs[d].expected[t].areas {
		mean += c.dogs[d].areas[i].Weight.Value * math.Max(0, ready)
		worst = math.Min(worst, math.Max(0, ready))
	}
	return 100*math.Min(mean, worst+holeAllow) >= float64(kennel.ReadyScore)+madeTol
}

// madeTol is by how many points of readiness a dog must be past the threshold for the planner to be held to it.
const madeTol = 0.01

func (c *checker) areaKept(d, a int) {
	dog, area := c.dogs[d], c.dogs[d].areas[a]
	grip := int(math.Ceil(area.Grip.Value/dog.growth - checkTol))
	for t, share := range area.shares {
		if share == 0 {
			continue
		}
		where := fmt.Sprintf("%s, %s, %s", c.weekWords(t), dog.Name, area.Name)
		if area.Kept {
			c.atMost(where, "share of kept hair", share, 0)
			continue
		}
		c.outlineKept(where, d, a, t)
		living := share - area.dead[t]
		if area.cap[t] == 0 {
			living = share // no hands, no work: dead hair is no exception
		}
		c.atMost(where, "share of living hair", living, area.cap[t])
		if z := c.sessions[d][t]; z > 0 {
			c.atMost(where, "minutes, in one session of its week", area.weekWork(t), c.longestSession(d, t)-c.setUp(d))
		}
		worth := min(c.least(d, a, t), float64(c.r.Options.CrumbTime)/area.minutes)
		c.atLeast(where, "share", share, max(float64(c.r.Options.CrumbShare), worth))
		// What is pulled within the grip age, with what was pulled before the plan, is at most the whole area; where the
		// past alone is more, nothing is added.
		young, past := 0.0, 0.0
		for _, l := range area.layers {
			if w := area.agedIn(c.pulledIn(l)); w > t-grip && w <= t {
				past += float64(l.Share)
			}
		}
		for w := max(0, t-grip+1); w <= t; w++ {
			young += area.shares[w]
		}
		if grip > 0 {
			c.atMost(where, "hair under the grip age that would be pulled", young+past, math.Max(1, past)+gripTol)
		}
	}
}

// least is what an area may be held to in week t, at the least: its cap, as if the dog could be made ready for all shows.
func (c *checker) least(d, a, t int) float64 {
	least := c.dogs[d].areas[a].cap[t]
	for _, s := range c.k.Shows {
		if c.near(d, a, s, t) {
			least = min(least, nearMost)
		}
	}
	return least
}

// gripTol is what the season's grain of a millionth of an area may leave, summed over some weeks.
const gripTol = 1e-5

// pulledIn is the week in which a layer was pulled.
func (c *checker) pulledIn(l kennel.Layer) int {
	return int(math.Floor(float64(l.Pulled-c.r.Week0) / kennel.DaysAWeek))
}

// dutyDone reports whether a duty was done on the day or since.
func (c *checker) dutyDone(dog string, duty kennel.Duty, since kennel.Date) bool {
	return (duty.Done >= since && duty.Done <= c.r.On) ||
		slices.ContainsFunc(c.r.Options.Done, func(w kennel.Work) bool { return w.Dog == dog && w.Duty == duty.Name && w.On >= since })
}

// dutiesKept counts each duty of a dog, planned and reported.
func (c *checker) dutiesKept(d int) {
	dog := c.dogs[d]
	last := c.monday(c.weeks) // the first day after the season
	for _, duty := range dog.Duties {
		times, reported := 0, 0
		for _, w := range c.r.Weeks {
			for _, y := range w.Duties {
				if y.Dog == dog.Name && y.Name == duty.Name {
					times++
				}
			}
		}
		for _, cannot := range c.r.Cannot {
			if cannot.What == duty.Name+" of "+dog.Name {
				reported++
			}
		}
		where := duty.Name + " of " + dog.Name
		if duty.Before == nil {
			c.atMost(where, "times planned", float64(times), math.Ceil(float64(c.weeks)/float64(max(1, duty.Every))))
			if reported == 0 {
				c.atMost(where, "weeks without it", float64(c.longestWithout(d, duty)), 2*float64(max(1, duty.Every))-2)
			}
			continue
		}
		due, maybe := 0, 0 // maybe: the days for it run on after the season
		for _, s := range c.k.Shows {
			if c.goes(d, s) && s.On.AddDays(-duty.Before.From) < last {
				if maybe++; s.On.AddDays(-duty.Before.To) < last && !c.dutyDone(dog.Name, duty, s.On.AddDays(-duty.Before.From)) {
					due++
				}
			}
		}
		c.atLeast(where, "times planned and reported", float64(times+reported), float64(due))
		c.atMost(where, "times planned and reported", float64(times+reported), float64(maybe))
	}
}

// longestWithout is the most weeks on end, with the dog at the table in each, that lack a regular duty which was not done lately.
func (c *checker) longestWithout(d int, duty kennel.Duty) (most int) {
	dog, first := c.dogs[d], 0
	if c.r.On != c.r.Week0 {
		first = 1 // the week under way may have had it
	}
	done := func(on kennel.Date) {
		if on <= c.r.On {
			first = max(first, int(math.Floor(float64(on-c.r.Week0)/kennel.DaysAWeek))+int(duty.Every))
		}
	}
	for _, w := range c.r.Options.Done {
		if w.Dog == dog.Name && w.Duty == duty.Name {
			done(w.On)
		}
	}
	if duty.Done != 0 {
		done(duty.Done)
	}
	run := 0
	for t := first; t < c.weeks; t++ {
		run++
		if !c.atTableIn(d, t) || c.planned(t, dog.Name, duty.Name) {
			run = 0
		}
		most = max(most, run)
	}
	return most
}

// atTableIn reports whether the dog can be worked on a day of week t.
func (c *checker) atTableIn(d, t int) bool {
	for n := range kennel.DaysAWeek {
		if c.atTable(d, c.monday(t).AddDays(n)) {
			return true
		}
	}
	return false
}

// planned reports whether a duty is planned for week t.
func (c *checker) planned(t int, dog, duty string) bool {
	return slices.ContainsFunc(c.r.Weeks[t].Duties, func(y planned.DutyWork) bool { return y.Dog == dog && y.Name == duty })
}
