package check

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// weekly compares hours, minutes and who does what.
func (c *checker) weekly() {
	for t, w := range c.r.Weeks {
		where := c.weekWords(t)
		work := map[kennel.Skill]float64{} // minutes by kind
		for _, dw := range w.Dogs {
			c.dogWeek(t, dw, work)
		}
		for _, y := range w.Duties {
			c.dutyWork(t, y)
			work[c.workOf(y)] += float64(y.Minutes)
		}
		var hours, planned float64
		for _, kind := range kindsOfWork() {
			planned += work[kind]
		}
		given := map[kennel.Skill]float64{}
		for h, hw := range w.Hands {
			minutes, _ := c.weekMinutes(h, t)
			hours += minutes / 60
			c.handsWeek(t, h, hw, given)
		}
		c.same(where, "hours available", float64(w.Hours), hours)
		c.same(where, "hours planned", float64(w.Planned), planned/60)
		for _, kind := range kindsOfWork() {
			c.same(where, "minutes of "+string(kind)+" work that all hands are given", given[kind], work[kind])
		}
	}
}

// dutyWork is the kind of work that a duty is.
func dutyWork(d kennel.Duty) kennel.Skill {
	switch {
	case d.Care():
		return planned.Care
	case d.Work == kennel.SkillClose:
		return planned.Trim
	}
	return kennel.SkillDuties
}

// workOf is the kind of work of a planned duty, as the dog has the duty.
func (c *checker) workOf(y planned.DutyWork) kennel.Skill {
	if d := c.dogNamed(y.Dog); d >= 0 {
		for _, duty := range c.dogs[d].Duties {
			if duty.Name == y.Name {
				return dutyWork(duty)
			}
		}
	}
	return dutyWork(kennel.Duty{Name: y.Name})
}

// timedOnly reports whether the work takes time and no pulling.
func timedOnly(kind kennel.Skill) bool {
	return kind == planned.SetUp || kind == planned.Care || kind == planned.Trim || kind == kennel.SkillDuties
}

func kindsOfWork() []kennel.Skill {
	return append(kennel.Skills(), planned.Care, planned.Trim, planned.SetUp)
}

func (c *checker) dogWeek(t int, dw planned.DogWeek, work map[kennel.Skill]float64) {
	d := c.dogNamed(dw.Dog)
	dog := c.dogs[d]
	where := c.weekWords(t) + ", " + dw.Dog
	var pulling float64
	for _, aw := range dw.Areas {
		a := dog.areas[c.areaNamed(d, aw.Area)]
		at := where + ", " + string(aw.Area)
		minutes := a.weekWork(t)
		pulling += minutes
		work[a.Work] += minutes
		c.same(at, "minutes", float64(aw.Minutes), minutes)
		c.equal(at, "kind of work", aw.Work, a.Work)
	}
	setUp := float64(dw.Sessions) * c.setUp(d)
	work[planned.SetUp] += setUp
	c.same(where, "minutes of pulling", float64(dw.Minutes), pulling)
	c.same(where, "minutes of set-up", float64(dw.SetUp), setUp)
	next, _ := c.nextShow(d, t)
	c.equal(where, "what it is for", dw.Why, c.reason(next, t))
	c.equal(where, "how to lift", dw.Lift, c.lift(d, t, next.On))
	c.equal(where, "tool", dw.Tool, kennel.Tool(dog.Dog, dog.pattern, c.monday(t)))
}

// lift says how the dog's hair is made to stand up in week t: as the days say of its first session, where they have one.
func (c *checker) lift(d, t int, next kennel.Date) string {
	for _, day := range c.r.Timetable.Days {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				if i.Kind == planned.ItemSession && i.Dog == c.dogs[d].Name && i.Lift != "" && day.On.AddDays(-int(day.On.Weekday())) == c.monday(t) {
					return i.Lift
				}
			}
		}
	}
	return kennel.Lift(c.dogs[d].Dog, c.dogs[d].pattern, next, c.monday(t))
}

// reason says what the work of week t is for when the show is the dog's next one.
func (c *checker) reason(next kennel.Show, t int) string {
	if next.Name == "" {
		return "keep rolling"
	}
	name := next.Name
	if next.Chance < 1 {
		name += " (hoped for)"
	}
	from := max(c.r.On, c.monday(t))
	switch days := int(next.On - from); {
	case from > c.r.On && days < kennel.DaysAWeek:
		return name + " that week"
	case days <= 0:
		return name + " today"
	case days == 1:
		return name + " tomorrow"
	case days <= 30:
		return fmt.Sprintf("%s in %d days", name, days)
	default:
		return fmt.Sprintf("%s in %d weeks", name, (2*days+kennel.DaysAWeek)/(2*kennel.DaysAWeek))
	}
}

func (c *checker) dutyWork(t int, y planned.DutyWork) {
	where := fmt.Sprintf("%s, %s of %s", c.weekWords(t), y.Name, y.Dog)
	d := c.dogNamed(y.Dog)
	c.ask(where, "dog", d >= 0, "one of the kennel")
	if d < 0 {
		return
	}
	for _, duty := range c.dogs[d].Duties {
		from, to := c.monday(t), c.monday(t).AddDays(kennel.DaysAWeek-1)
		switch {
		case duty.Name != y.Name:
			continue
		case duty.Before == nil && duty.Every == 1 && y.Why != "every week":
			continue
		case duty.Before == nil && duty.Every > 1 && y.Why != fmt.Sprintf("every %d weeks", duty.Every):
			continue
		case duty.Before != nil:
			first, last, ok := c.showDays(d, y.Why, duty, from, to)
			if !ok {
				continue
			}
			from, to = first, last
		}
		c.same(where, "minutes", float64(y.Minutes), float64(duty.Minutes))
		if y.Work != "" {
			c.equal(where, "kind of work", y.Work, dutyWork(duty))
		}
		c.atLeast(where, "days with the dog and hands there", float64(c.tableDays(d, from, to, dutyWork(duty))), 1)
		return
	}
	c.equal(where, "why", y.Why, "when the kennel says that it is due")
}

// showDays are the days, of those from one to another, that a duty has for the shows that are the reason given: those of its window
// before the first, on which it is still right at the others; or, late, those after it up to the day before the show.
func (c *checker) showDays(d int, why string, duty kennel.Duty, from, to kennel.Date) (first, last kennel.Date, ok bool) {
	why, is := strings.CutPrefix(why, "for ")
	lasts, listed := c.lasts(d, duty)
	why, late := strings.CutSuffix(why, ", late")
	for _, s := range c.k.Shows {
		rest, named := strings.CutPrefix(why, s.Name)
		if !is || !named || !c.goes(d, s) || listed && s.Chance < countedOn || rest != "" && !strings.HasPrefix(rest, " and ") {
			continue
		}
		begin, end := s.On.AddDays(-duty.Before.From), s.On.AddDays(-duty.Before.To)
		if late {
			begin, end = end.AddDays(1), s.On.AddDays(-1)
		}
		if duty.Lifts() {
			end = min(end, s.On.AddDays(-noBathDays-1))
		}
		others, known := c.alsoFor(d, rest, s)
		for _, o := range others {
			if !duty.Lifts() {
				begin = max(begin, o.On.AddDays(-lasts))
			}
		}
		if first, last = max(from, begin), min(to, end); known && first <= last {
			return first, last, true
		}
	}
	return 0, 0, false
}

// alsoFor are the shows after the first that a duty says that it is for: " and Dunmarrow and Fallowgate".
func (c *checker) alsoFor(d int, rest string, first kennel.Show) (all []kennel.Show, known bool) {
	if rest == "" {
		return nil, true
	}
	for _, s := range c.k.Shows {
		after, named := strings.CutPrefix(rest, " and "+s.Name)
		if !named || !c.goes(d, s) || s.On < first.On {
			continue
		}
		if more, ok := c.alsoFor(d, after, first); ok {
			return append(more, s), true
		}
	}
	return nil, false
}

func (c *checker) handsWeek(t, h int, hw planned.HandsWeek, given map[kennel.Skill]float64) {
	where := c.weekWords(t) + ", " + hw.Hands
	work, _ := c.weekMinutes(h, t)
	left, beside, pull := c.left(h, t)
	var all, pulled, duties float64
	for _, g := range hw.Given {
		minutes := float64(g.Minutes)
		all += minutes
		if !timedOnly(g.Work) {
			pulled += minutes
		}
		if timedOnly(g.Work) && g.Work != planned.SetUp {
			duties += minutes
		}
		given[g.Work] += minutes
		c.atLeast(where, "minutes of "+string(g.Work), minutes, 0)
		c.ask(where, "work given", slices.Contains(kindsOfWork(), g.Work) && c.may(h, g.Work), "what these hands may do, not "+string(g.Work))
	}
	c.equal(where, "hands", hw.Hands, c.k.Hands[h].Name)
	c.same(where, "hours available", float64(hw.Hours), work/60)
	most := beside
	if agree(duties, all) {
		most = left
	}
	c.same(where, "most hours of work", float64(hw.MostWork), most/60)
	c.same(where, "most hours of pulling", float64(hw.MostPulling), pull/60)
	c.same(where, "hours planned", float64(hw.Planned), all/60)
	if agree(duties, all) {
		c.atMost(where, "minutes given, all of them duties", all, left)
	} else {
		c.atMost(where, "minutes given, with breaks", all, beside)
	}
	c.atMost(where, "minutes of pulling given", pulled, pull)
}
