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
		sum += a.shares[t] * a.minutes
	}
	return sum
}

func (c *checker) sessionsKept(d, t int) {
	dog, z := c.dogs[d], float64(c.sessions[d][t])
	where := c.weekWords(t) + ", " + dog.Name
	longest := float64(dog.Table.Minutes)
	if dog.Born != 0 && c.monday(t).Time().Before(dog.Born.Time().AddDate(1, 0, 0)) {
		longest = math.Min(longest, float64(c.r.Options.PuppyTable))
	}
	c.atLeast(where, "sessions", z, 1)
	c.atMost(where, "sessions", z, float64(min(dog.Table.AWeek, c.daysIn(d, t, planned.SetUp))))
	c.atMost(where, "minutes of pulling and set-up", c.pulling(d, t)+z*float64(dog.Table.SetUp), z*longest)
}

// caps are the largest shares of an area that may be pulled, by week.
func (c *checker) caps(d, a int) []float64 {
	dog, area := c.dogs[d], c.dogs[d].areas[a]
	caps := make([]float64, c.weeks)
	for t := range caps {
		if c.daysIn(d, t, area.Work) > 0 {
			caps[t] = 1
		}
		if dog.Coat.RollOnly {
			caps[t] = min(caps[t], dog.pattern.RollMost.Value)
		}
		finish, sunday := int(math.Round(area.FinishWeeks.Value)), c.monday(t).AddDays(kennel.DaysAWeek-1)
		for _, s := range c.k.Shows {
			if c.goes(d, s) && finish > 0 && c.monday(t) <= s.Last() && int(s.On-sunday) < finish*kennel.DaysAWeek {
				caps[t] = min(caps[t], area.FinishShare.Value)
			}
		}
	}
	return caps
}

func (c *checker) areaKept(d, a int) {
	dog, area := c.dogs[d], c.dogs[d].areas[a]
	grip := int(math.Ceil(area.Grip.Value/dog.growth - checkTol))
	for t, share := range area.shares {
		if share == 0 {
			continue
		}
		where := fmt.Sprintf("%s, %s, %s", c.weekWords(t), dog.Name, area.Name)
		c.atMost(where, "share", share, area.cap[t])
		worth := max(float64(c.r.Options.CrumbShare), min(area.cap[t], float64(c.r.Options.CrumbTime)/area.minutes))
		c.atLeast(where, "share", share, worth)
		// What is pulled within the grip age, with what was pulled before the plan, is at most the whole area; where the
		// past alone is more, nothing is added.
		young, past := 0.0, 0.0
		for _, l := range area.layers {
			if w := c.pulledIn(l); w > t-grip && w <= t {
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

// gripTol is what the season's grain of a millionth of an area may leave, summed over some weeks.
const gripTol = 1e-5

// pulledIn is the week in which a layer was pulled.
func (c *checker) pulledIn(l kennel.Layer) int {
	return int(math.Floor(float64(l.Pulled-c.r.Week0) / kennel.DaysAWeek))
}

// dutyDone reports whether a duty was done on the day or since.
func (c *checker) dutyDone(dog, duty string, since kennel.Date) bool {
	return slices.ContainsFunc(c.r.Options.Done, func(w kennel.Work) bool { return w.Dog == dog && w.Duty == duty && w.On >= since })
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
			continue
		}
		due, maybe := 0, 0 // maybe: the days for it run on after the season
		for _, s := range c.k.Shows {
			if c.goes(d, s) && s.On.AddDays(-duty.Before.From) < last {
				if maybe++; s.On.AddDays(-duty.Before.To) < last && !c.dutyDone(dog.Name, duty.Name, s.On.AddDays(-duty.Before.From)) {
					due++
				}
			}
		}
		c.atLeast(where, "times planned and reported", float64(times+reported), float64(due))
		c.atMost(where, "times planned and reported", float64(times+reported), float64(maybe))
	}
}
