package check

import (
	"math"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// The calendar of a check, day by day from the kennel.

func within(spans []kennel.Span, day kennel.Date) bool {
	for _, s := range spans {
		if (s.From == 0 || s.From <= day) && (s.To == 0 || day <= s.To) {
			return true
		}
	}
	return false
}

// travelling reports whether the day is spent at or on the way to a show that is counted on and that of picks.
func (c *checker) travelling(day kennel.Date, of func(kennel.Show) bool) bool {
	for _, s := range c.k.Shows {
		if s.Chance >= countedOn && of(s) && within([]kennel.Span{s.AwayDays()}, day) {
			return true
		}
	}
	return false
}

// dayMinutes are the minutes that a pair of hands works on a day, and how many of them may be pulling. The first pair
// travels to the shows.
func (c *checker) dayMinutes(h int, day kennel.Date) (work, pull float64) {
	pair := c.k.Hands[h]
	if day < c.r.On || within(pair.Away, day) || h == 0 && c.travelling(day, func(kennel.Show) bool { return true }) {
		return 0, 0
	}
	most := pair.StripHoursADay
	if most <= 0 {
		most = c.r.Options.StripHours
	}
	work = math.Max(0, 60*float64(pair.Hours[day.Weekday()]))
	return work, math.Min(work, 60*float64(most))
}

// meal is how long a pair of hands eats on a day: half an hour where it is there for more than six, but where a duty takes more
// than half of the day.
func (c *checker) meal(h int, day kennel.Date) float64 {
	work, _ := c.dayMinutes(h, day)
	if work <= mealAfter {
		return 0
	}
	for _, dog := range c.dogs {
		for _, duty := range dog.Duties {
			if m := float64(duty.Minutes); m <= work && 2*m > work-mealFor-mealWhole {
				return 0
			}
		}
	}
	return mealFor
}

// meals are those of week t.
func (c *checker) meals(h, t int) (minutes float64) {
	for n := range kennel.DaysAWeek {
		minutes += c.meal(h, c.monday(t).AddDays(n))
	}
	return minutes
}

// weekMinutes are the minutes of a pair of hands in week t.
func (c *checker) weekMinutes(h, t int) (work, pull float64) {
	for n := range kennel.DaysAWeek {
		w, p := c.dayMinutes(h, c.monday(t).AddDays(n))
		work, pull = work+w, pull+p
	}
	return work, pull
}

// rests are the minutes of week t in which a pair of hands can't work when it pulls all day: each hour of a day, less a set-up,
// holds a break, as long as the hand load lasts.
func (c *checker) rests(h, t int) (minutes float64) {
	for n := range kennel.DaysAWeek {
		work, pull := c.dayMinutes(h, c.monday(t).AddDays(n))
		minutes += restsADay(work-c.meal(h, c.monday(t).AddDays(n)), pull)
	}
	return minutes
}

// restsADay are the minutes of breaks in a day of so many minutes of work, so many of them pulling.
func restsADay(work, pull float64) (minutes float64) {
	for left := math.Min(work-leastSetUp, pull+breakFor); left >= breakAfter+breakFor; left -= breakAfter + breakFor {
		minutes += breakFor
	}
	return minutes
}

// mostSessions are the most sessions that dog d can have in week t: on days on which it and hands that set sessions up are there for
// longer than a set-up, that it has not had, and with free days between.
func (c *checker) mostSessions(d, t int) int {
	dog := c.dogs[d]
	if c.longestIn(d, t) <= c.setUp(d) {
		return 0
	}
	had := map[kennel.Date]bool{}
	for _, w := range c.r.Options.Done {
		if w.Dog == dog.Name && w.Duty == "" && w.On <= c.r.On && c.monday(t) <= w.On && w.On < c.monday(t+1) {
			had[w.On] = true
		}
	}
	days := c.daysApart(d, t, had, true)
	if days == 0 {
		days = c.daysApart(d, t, had, false)
	}
	return max(0, min(dog.Table.AWeek-len(had), days))
}

// longestIn is the longest session of dog d, set-up and pulling, that a day of week t holds.
func (c *checker) longestIn(d, t int) (longest float64) {
	for n := range kennel.DaysAWeek {
		day := c.monday(t).AddDays(n)
		for h := range c.k.Hands {
			if c.atTable(d, day) && c.may(h, planned.SetUp) {
				work, pull := c.dayMinutes(h, day)
				work -= c.meal(h, day)
				longest = math.Max(longest, work-restsADay(work, pull))
			}
		}
	}
	return math.Min(longest, c.longestSession(d, t))
}

// daysApart counts the days of week t on which dog d can have a session, with free days between and after those that it had; not
// those on which its jacket is left alone before a show where they are of no use.
func (c *checker) daysApart(d, t int, had map[kennel.Date]bool, useful bool) (days int) {
	taken := map[kennel.Date]bool{}
	for day := range had {
		taken[day] = true
	}
	for day := c.monday(t); day < c.monday(t+1); day++ {
		rests := useful && c.rested(d, day)
		for n := -c.r.Options.FreeDays; n <= c.r.Options.FreeDays; n++ {
			rests = rests || taken[day.AddDays(n)]
		}
		if !rests && c.tableDays(d, day, day, planned.SetUp) > 0 {
			taken[day] = true
			days++
		}
	}
	return days
}

// longestSession is how long dog d may stand on the table in week t, minutes.
func (c *checker) longestSession(d, t int) float64 {
	dog := c.dogs[d]
	if dog.Born != 0 && c.monday(t).Time().Before(dog.Born.Time().AddDate(1, 0, 0)) {
		return math.Min(float64(dog.Table.Minutes), float64(c.r.Options.PuppyTable))
	}
	return float64(dog.Table.Minutes)
}

// left is what a pair of hands has left of its minutes in week t, of work of any kind, of work when it pulls at all, and of
// pulling: those that do nothing but duties need no breaks.
func (c *checker) left(h, t int) (all, beside, pull float64) {
	all, pull = c.weekMinutes(h, t)
	all -= c.meals(h, t)
	work, pulled := c.spent(h, t)
	all, beside = math.Max(0, all-work), math.Max(0, all-c.rests(h, t)-work)
	return all, beside, math.Min(all, math.Max(0, pull-pulled))
}

// spent is what a pair of hands has worked in week t before the plan was made, which is today, and how much of it was pulling.
func (c *checker) spent(h, t int) (work, pull float64) {
	if c.r.On.AddDays(-int(c.r.On.Weekday())) != c.monday(t) {
		return 0, 0
	}
	for _, w := range c.r.Options.Done {
		if w.On == c.r.On && w.Hands == c.k.Hands[h].Name {
			work += float64(w.Minutes)
			if w.Duty == "" {
				pull += float64(w.Minutes)
			}
		}
	}
	return work, pull
}

// atTable reports whether the dog can be worked on the day.
func (c *checker) atTable(d int, day kennel.Date) bool {
	dog := c.dogs[d]
	return day >= c.r.On && dog.inHand(day) && dog.fit(day) && !c.travelling(day, func(s kennel.Show) bool { return s.Has(dog.Name) && !dog.spellAt(s) })
}

func (d checkedDog) inHand(day kennel.Date) bool { return len(d.Here) == 0 || within(d.Here, day) }

// tableDays counts the days from one to another (both included) on which the dog is at the table and someone who does
// such work is there.
func (c *checker) tableDays(d int, from, to kennel.Date, work kennel.Skill) (days int) {
	for day := from; day <= to; day++ {
		for h := range c.k.Hands {
			if minutes, _ := c.dayMinutes(h, day); minutes > 0 && c.may(h, work) && c.atTable(d, day) {
				days++
				break
			}
		}
	}
	return days
}

// may reports whether a pair of hands is let near a kind of work. Hands that do duties or furnishings care for kept hair, hands that do close work trim. Sessions are set up by those who do the hardest work
// that anybody here does.
func (c *checker) may(h int, work kennel.Skill) bool {
	switch work {
	case planned.SetUp:
	case planned.Care:
		return c.k.Hands[h].Can(kennel.SkillDuties) || c.k.Hands[h].Can(kennel.SkillFurnishings)
	case planned.Trim:
		return c.k.Hands[h].Can(kennel.SkillClose)
	default:
		return c.k.Hands[h].Can(work)
	}
	for _, hardest := range kennel.Skills() {
		for _, pair := range c.k.Hands {
			if hardest != kennel.SkillDuties && pair.Can(hardest) {
				return c.k.Hands[h].Can(hardest)
			}
		}
	}
	return c.k.Hands[h].Can(kennel.SkillJacket)
}

// goes reports whether the dog is shown at a show that is not past: named for it and in hand on all its days.
func (c *checker) goes(d int, s kennel.Show) bool { return s.On >= c.r.On && c.wentTo(d, s) }

// wentTo reports the same of any show.
func (c *checker) wentTo(d int, s kennel.Show) bool {
	if !s.Has(c.dogs[d].Name) || c.dogs[d].spellAt(s) {
		return false
	}
	for day := s.On; day <= s.Last(); day++ {
		if !c.dogs[d].inHand(day) {
			return false
		}
	}
	return true
}

// judgedWeek is the week at whose end the coat stands nearest to the day before the date: a show up to Wednesday sees
// the coat as the week before left it.
func (c *checker) judgedWeek(day kennel.Date) int {
	t := int(day-c.r.Week0) / kennel.DaysAWeek
	if day.Weekday() <= kennel.Wednesday {
		t--
	}
	return t
}

// nextShow is the dog's first show from today and from the Monday of week t on.
func (c *checker) nextShow(d, t int) (next kennel.Show, ok bool) {
	for _, s := range c.k.Shows {
		if c.goes(d, s) && s.On >= c.monday(t) && (!ok || s.On < next.On) {
			next, ok = s, true
		}
	}
	return next, ok
}
