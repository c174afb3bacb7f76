package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

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
	for _, x := range c.r.Readiness {
		if c.dogNamed(x.Dog) >= 0 {
			c.notDone(x)
		}
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

// dutyDone is the last day up to today on which all lines of a duty were done; zero when nothing says so.
func (c *checker) dutyDone(dog string, duty kennel.Duty) (last kennel.Date) {
	for i, part := range split(duty.Name) {
		var on kennel.Date
		if duty.Done <= c.r.On {
			on = duty.Done
		}
		for _, w := range c.r.Options.Done {
			if w.Dog == dog && w.On <= c.r.On && slices.Contains(split(w.Duty), part) {
				on = max(on, w.On)
			}
		}
		if i == 0 || on < last {
			last = on
		}
	}
	return last
}

// dutiesKept counts each duty of a dog, planned and reported.
func (c *checker) dutiesKept(d int) {
	dog := c.dogs[d]
	for _, duty := range dog.Duties {
		if duty.Before != nil {
			c.beforeShows(d, duty)
			continue
		}
		times := 0
		for _, w := range c.r.Weeks {
			for _, y := range w.Duties {
				if y.Dog == dog.Name && y.Name == duty.Name {
					times++
				}
			}
		}
		where := duty.Name + " of " + dog.Name
		c.atMost(where, "times planned", float64(times), math.Ceil(float64(c.weeks)/float64(max(1, duty.Every))))
		if !slices.ContainsFunc(c.r.Cannot, func(x planned.Cannot) bool { return x.What == where }) {
			c.atMost(where, "weeks without it", float64(c.longestWithout(d, duty)), 2*float64(max(1, duty.Every))-2)
		}
	}
}

// beforeShows asks of each show of the dog that a duty is done before it, planned for it, or said not to be done there; and of what is
// planned that each time is for a show of its own.
func (c *checker) beforeShows(d int, duty kennel.Duty) {
	dog := c.dogs[d]
	lasts, listed := c.lasts(d, duty)
	done := c.dutyDone(dog.Name, duty)
	for _, s := range c.k.Shows {
		if !c.goes(d, s) || listed && s.Chance < countedOn {
			continue
		}
		where := fmt.Sprintf("%s of %s for %s", duty.Name, dog.Name, s.Name)
		lasts := lasts + int(s.On-c.bathFor(d, duty, s).On)
		times := 0
		for t, w := range c.r.Weeks {
			for _, y := range w.Duties {
				if y.Dog == dog.Name && y.Name == duty.Name && c.isFor(d, y.Why, s) {
					_, _, ok := c.showDays(d, y.Why, duty, c.monday(t), c.monday(t+1)-1)
					c.ask(where, "week "+c.monday(t).String(), ok, "one with days for it")
					times++
				}
			}
		}
		not := slices.ContainsFunc(c.r.Readiness, func(x planned.ShowReadiness) bool {
			return x.Dog == dog.Name && x.Show == s.Name && x.On == s.On && slices.Contains(x.NotDone, duty.Name)
		})
		still := done != 0 && done >= s.On.AddDays(-lasts)
		c.atMost(where, "times planned", float64(times), 1)
		if still {
			c.atMost(where, "times planned, though it was done", float64(times), 0)
		}
		if s.On.AddDays(-duty.Before.To) < c.monday(c.weeks) && c.judgedWeek(s.On) < c.weeks && !still {
			if c.judgedWeek(s.On) < 0 { // a show in the first days has no line to say it on
				not = not || slices.ContainsFunc(c.r.Cannot, func(x planned.Cannot) bool { return x.What == duty.Name+" of "+dog.Name })
			}
			c.ask(where, "what becomes of it", times == 1 || not, "planned, or not done")
		}
	}
}

// notDone asks that what is said not to be done before a show is a duty of the dog that is due before it, for which there is no week,
// or the days of its week have no time.
func (c *checker) notDone(x planned.ShowReadiness) {
	d := c.dogNamed(x.Dog)
	for _, name := range x.NotDone {
		where := fmt.Sprintf("%s for %s, %s", x.Dog, x.Show, name)
		due := slices.ContainsFunc(c.dogs[d].Duties, func(duty kennel.Duty) bool { return duty.Name == name && duty.Before != nil })
		if c.ask(where, "duty that is not done", due, "one before a show"); !due {
			continue
		}
		for _, s := range c.k.Shows {
			if s.Name != x.Show || s.On != x.On {
				continue
			}
			for t, w := range c.r.Weeks {
				for _, y := range w.Duties {
					if y.Dog != x.Dog || y.Name != name || !c.isFor(d, y.Why, s) {
						continue
					}
					left := slices.ContainsFunc(c.r.Timetable.LeftOut, func(l planned.LeftOut) bool {
						return l.Dog == x.Dog && l.Duty == name && l.Week == c.monday(t)
					})
					c.ask(where, "duty that is not done", left, "one that no week has, or the days leave out")
				}
			}
		}
	}
}

// isFor reports whether a duty's reason names the show among those that it is for.
func (c *checker) isFor(d int, why string, s kennel.Show) bool {
	why, is := strings.CutPrefix(why, "for ")
	why, _ = strings.CutSuffix(why, ", late")
	if !is {
		return false
	}
	for rest := why; ; {
		named := -1
		for i, o := range c.k.Shows {
			after, ok := strings.CutPrefix(rest, o.Name)
			if ok && c.goes(d, o) && (after == "" || strings.HasPrefix(after, " and ")) && (named < 0 || len(o.Name) > len(c.k.Shows[named].Name)) {
				named = i
			}
		}
		if named < 0 {
			return false
		}
		if c.k.Shows[named].Name == s.Name {
			return true // two shows of one name are told apart by their weeks
		}
		rest = strings.TrimPrefix(strings.TrimPrefix(rest, c.k.Shows[named].Name), " and ")
		if rest == "" {
			return false
		}
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
	if last := c.dutyDone(dog.Name, duty); last != 0 {
		done(last)
	}
	run := 0
	for t := first; t < c.weeks; t++ {
		run++
		if !c.atTableIn(d, t) || duty.Lifts() && c.anyBarBath(d, t) || c.planned(t, dog.Name, duty.Name) || c.partOfFinish(d, t, duty) {
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

// partOfFinish reports whether the care of a dog that its pattern brings is part of what is done on its legs before a show in week t.
func (c *checker) partOfFinish(d, t int, care kennel.Duty) bool {
	if dutyWork(care) != planned.Care || slices.ContainsFunc(split(care.Name), func(x string) bool { return x != careOfKept && x != undercoat }) {
		return false
	}
	return slices.ContainsFunc(c.dogs[d].Duties, func(x kennel.Duty) bool {
		_, listed := c.lasts(d, x)
		return listed && dutyWork(x) == planned.Care && c.planned(t, c.dogs[d].Name, x.Name)
	})
}

// planned reports whether a duty is planned for week t.
func (c *checker) planned(t int, dog, duty string) bool {
	return slices.ContainsFunc(c.r.Weeks[t].Duties, func(y planned.DutyWork) bool { return y.Dog == dog && y.Name == duty })
}
