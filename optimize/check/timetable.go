package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// timetable compares the next days, where they are laid out: the days, who is there for how long, stretches that don't
// overlap for hands or dogs, minutes, and that what is done is the weeks' shares, neither more nor less: a week promises what its
// days hold.
func (c *checker) timetable() {
	tt := c.r.Timetable
	c.atLeast("the timetable", "bound", tt.Worth.Bound, tt.Worth.Objective)
	c.same("the timetable", "gap", tt.Worth.Gap, (tt.Worth.Bound-tt.Worth.Objective)/math.Max(1, math.Abs(tt.Worth.Bound)))
	done := laidOut{map[placeInWeek]float64{}, map[placeOnDay]bool{}}
	for n, day := range tt.Days {
		c.equal(fmt.Sprintf("day %d of the timetable", n+1), "date", day.On, c.r.On.AddDays(n))
		if day.On != c.r.On.AddDays(n) {
			return
		}
		c.day(day, done)
	}
	for _, l := range tt.LeftOut {
		where := fmt.Sprintf("left out in the week of %s, %s, %s%s", l.Week, l.Dog, l.Area, l.Duty)
		t := c.weekOf(l.Week)
		c.ask(where, "week", t >= 0 && t < c.weeks && l.Week == c.monday(t) && l.Week < c.r.On.AddDays(len(tt.Days)), "one that is laid out")
		c.atLeast(where, "points", l.Points, 0)
		c.atLeast(where, "share", float64(l.Share), 0)
		if l.Area == "" {
			c.same(where, "share", float64(l.Share), 0)
			continue
		}
		c.leftOut(where, l)
	}
	c.held(done.week)
}

// laidOut is what the days do.
type laidOut struct {
	week map[placeInWeek]float64 // share done
	day  map[placeOnDay]bool     // worked, in a session that was not fixed
}

// leftOut holds what the days leave out of an area against its minutes: the weeks do not have it, and it may be dead or alive.
func (c *checker) leftOut(where string, l planned.LeftOut) {
	d := c.dogNamed(l.Dog)
	if c.ask(where, "dog", d >= 0, "one of the kennel"); d < 0 {
		return
	}
	a := c.areaNamed(d, l.Area)
	if c.ask(where, "area", a >= 0, "one of its pattern"); a < 0 {
		return
	}
	area := &c.dogs[d].areas[a]
	least := area.minutes
	if area.wasDead > 0 {
		least = area.strip
	}
	c.atMost(where, "minutes left out", float64(l.Minutes), float64(l.Share)*area.minutes)
	c.atLeast(where, "minutes left out", float64(l.Minutes), float64(l.Share)*least)
}

// placeInWeek is an area of a dog in the week of a Monday.
type placeInWeek struct {
	week kennel.Date
	dog  string
	area kennel.AreaName
}

// placeOnDay is an area of a dog on a day.
type placeOnDay struct {
	day  kennel.Date
	dog  string
	area kennel.AreaName
}

// held asks that what is done of each area is what its week says: all of it in a week that the
// timetable sees to its end, no more than that in one that it sees the start of. A session that the handler fixed may
// pull more.
func (c *checker) held(done map[placeInWeek]float64) {
	days := len(c.r.Timetable.Days)
	for t := 0; t < c.weeks && c.monday(t) < c.r.On.AddDays(days); t++ {
		whole := c.monday(t+1) <= c.r.On.AddDays(days)
		for d := range c.dogs {
			for _, a := range c.dogs[d].areas {
				where := fmt.Sprintf("timetable, %s, %s, %s", c.weekWords(t), c.dogs[d].Name, a.Name)
				sum := done[placeInWeek{c.monday(t), c.dogs[d].Name, a.Name}]
				switch {
				case c.pinned(c.dogs[d].Name, t):
					if whole {
						c.atLeast(where, "share done on its days", sum, a.shares[t])
					}
				case whole:
					c.same(where, "share done on its days", sum, a.shares[t])
				default:
					c.atMost(where, "share done on its days", sum, a.shares[t])
				}
			}
		}
	}
}

// pinned reports whether the handler fixed a session of the dog in week t.
func (c *checker) pinned(dog string, t int) bool {
	for _, s := range c.r.Options.Accepted {
		if s.Pinned && s.Dog == dog && s.On >= c.monday(t) && s.On < c.monday(t+1) {
			return true
		}
	}
	return false
}

func (c *checker) day(day planned.Day, done laidOut) {
	busy := map[string][]planned.Item{} // by dog
	for _, hd := range day.Hands {
		where := day.On.String() + ", " + hd.Hands
		h := -1
		for i := range c.k.Hands {
			if c.k.Hands[i].Name == hd.Hands {
				h = i
			}
		}
		c.ask(where, "hands", h >= 0, "of the kennel")
		if h < 0 {
			continue
		}
		work, most := c.dayMinutes(h, day.On)
		c.same(where, "hours available", float64(hd.Hours), work/60)
		var worked, pulled float64
		var last planned.Item
		for _, item := range hd.Items {
			together := item.Kind == planned.ItemTravel && last.Kind == planned.ItemTravel // two shows may be away on one day
			c.ask(where, "time "+item.Start.String()+"-"+item.End.String(),
				(together || last.End <= item.Start) && item.Start < item.End && item.End <= 24*60, "after what comes before it, within the day")
			last = item
			c.duty(where, day.On, item)
			switch item.Kind {
			case planned.ItemSession:
				pulled += c.session(where, h, day.On, item, done)
				worked += float64(item.End - item.Start)
			case planned.ItemDuty, planned.ItemBath:
				worked += float64(item.End - item.Start)
			}
			if item.Dog != "" && item.Kind != planned.ItemTravel {
				busy[item.Dog] = append(busy[item.Dog], item)
			}
		}
		c.rest(where, hd)
		c.atMost(where, "minutes of work", worked, work+wholeMinute*float64(len(hd.Items)))
		c.atMost(where, "minutes of pulling", pulled, most)
	}
	for d := range c.dogs {
		c.oneAtATime(day.On, d, busy[c.dogs[d].Name])
	}
}

// rest asks that hands rest after so many minutes of pulling, or after the session that has no more than a few minutes left then; and
// that no break falls before the last minutes of a session that could be finished first. Sessions that the handler fixed are as they are.
func (c *checker) rest(where string, hd planned.HandsDay) {
	tired, from := 0.0, kennel.Clock(0)
	for n, item := range hd.Items {
		free := item.Start-from >= breakFor-wholeMinute
		switch {
		case item.Kind == planned.ItemBreak && item.Why != "a meal" && hd.GoesOn(n+1) && !hd.Items[n+1].Pinned:
			c.atLeast(where, "minutes of "+hd.Items[n+1].Dog+" before and after a break in its session", tired+sessionLeft(hd, n+1), breakAfter+finishIn)
			tired = 0
		case item.Kind == planned.ItemBreak, item.Pinned, free:
			tired = 0
		}
		from = item.End
		if item.Kind != planned.ItemSession || item.Pinned {
			continue
		}
		most := float64(breakAfter)
		if !hd.GoesOn(n + 2) {
			most += finishIn
		}
		tired += float64(planned.Pulling(item.Areas))
		c.atMost(where+", session of "+item.Dog, "minutes of pulling without a rest", tired, most)
	}
}

// sessionLeft is how much of a session is pulled from the day's n-th item on.
func sessionLeft(hd planned.HandsDay, n int) (minutes float64) {
	minutes = float64(planned.Pulling(hd.Items[n].Areas))
	for n += 2; hd.GoesOn(n); n += 2 {
		minutes += float64(planned.Pulling(hd.Items[n].Areas))
	}
	return minutes
}

// duty asks that a stretch names a duty of its dog when it is one, and is as long as the duty at least; no session or break is
// called a duty, and nothing but a session has a set-up.
func (c *checker) duty(where string, on kennel.Date, item planned.Item) {
	if item.Kind != planned.ItemSession {
		c.same(where, "minutes of set-up", float64(item.SetUp), 0)
	}
	switch item.Kind {
	case planned.ItemSession, planned.ItemBreak:
		c.equal(where, "duty", item.What, "")
		return
	case planned.ItemTravel:
		c.travel(where, on, item)
		return
	}
	d := c.dogNamed(item.Dog)
	if c.ask(where, "dog", d >= 0, "one of the kennel"); d < 0 {
		return
	}
	if item.Kind == planned.ItemBath {
		c.equal(where, "duty", item.What, "lifting bath")
		return
	}
	least := math.Inf(1)
	for _, duty := range c.dogs[d].Duties {
		if duty.Name == item.What {
			c.ask(where+", "+item.What+" of "+item.Dog, "day of a bath that lifts the coat", !duty.Lifts() || c.barsBath(d, on) < 0, "not so near to a show")
			least = math.Min(least, float64(duty.Minutes))
		}
	}
	if c.ask(where, "duty", !math.IsInf(least, 1), "one of the dog's"); !math.IsInf(least, 1) {
		c.atLeast(where+", "+item.What+" of "+item.Dog, "minutes of the duty", float64(item.End-item.Start), least)
	}
}

// travel asks that a day away says who is away, and how long its dogs are worked at the show on that day.
func (c *checker) travel(where string, on kennel.Date, item planned.Item) {
	for _, s := range c.k.Shows {
		if s.Name != item.What || s.Chance < countedOn || !within([]kennel.Span{s.AwayDays()}, on) {
			continue
		}
		var with []string
		var ring float64
		for _, dog := range c.dogs {
			if !s.Has(dog.Name) || !dog.inHand(on) || dog.spellAt(s) {
				continue
			}
			with = append(with, dog.Name)
			for _, f := range dog.pattern.Finish {
				if f.From.Value < 1 {
					ring += dog.atRing(f)
				}
			}
		}
		why := "away"
		if len(with) > 0 {
			why = "with " + strings.Join(with, ", ")
		}
		if before := on < s.On || on > s.On.AddDays(max(s.Days, 1)-1); before && len(with) > 0 {
			why += "; no table"
		} else if !before && ring > 0 {
			why += fmt.Sprintf("; %.0f min before the ring", ring)
		}
		c.equal(where, "who is away", item.Why, why)
		return
	}
	c.ask(where, "show travelled to", false, "one of these days")
}

// atRing is how long a line takes at a show on the dog, which may say otherwise than its pattern.
func (d checkedDog) atRing(f kennel.FinishLine) (minutes float64) {
	minutes = f.Minutes.Value
	for _, own := range d.own {
		parts := split(own.Name)
		switch {
		case !slices.Contains(parts, strings.ToLower(f.Name)):
		case own.LeaveOut || own.Every > 0 || own.Before != nil:
			return 0
		case own.Minutes > 0:
			minutes = float64(own.Minutes) / float64(len(parts))
		}
	}
	return minutes
}

// wholeMinute is what a stretch may be off for being told in whole minutes.
const wholeMinute = 1

// session compares one session and returns its minutes of pulling.
func (c *checker) session(where string, h int, on kennel.Date, item planned.Item, done laidOut) (pulled float64) {
	where += ", session of " + item.Dog
	d := c.dogNamed(item.Dog)
	c.ask(where, "dog", d >= 0, "one of the kennel")
	if d < 0 {
		return 0
	}
	monday := on.AddDays(-int(on.Weekday()))
	rested, fixed := c.rested(d, on), c.pinned(item.Dog, c.weekOf(on))
	for _, aw := range item.Areas {
		a := c.areaNamed(d, aw.Area)
		c.ask(where, "area", a >= 0, "one of its pattern")
		if a < 0 {
			continue
		}
		area := c.dogs[d].areas[a]
		place := placeInWeek{monday, item.Dog, aw.Area}
		c.same(where+", "+string(aw.Area), "minutes", float64(aw.Minutes), c.minutesOfPart(&area, c.weekOf(on), float64(aw.Share)))
		c.equal(where+", "+string(aw.Area), "kind of work", aw.Work, area.Work)
		if !fixed {
			c.ask(where+", "+string(aw.Area), "day of jacket work", area.Work != kennel.SkillJacket || !rested, "not one of the last two before a show, for a jacket")
			yesterday := placeOnDay{on - 1, item.Dog, aw.Area}
			c.ask(where+", "+string(aw.Area), "day of work", !done.day[yesterday], "not the day after the area's last")
		}
		done.day[placeOnDay{on, item.Dog, aw.Area}] = !fixed
		c.ask(where+", "+string(aw.Area), "hands", c.may(h, area.Work), "who may do "+string(area.Work)+" work")
		done.week[place] += float64(aw.Share)
		pulled += float64(aw.Minutes)
	}
	c.atLeast(where, "minutes from start to end", float64(item.End-item.Start)+wholeMinute, float64(item.SetUp)+pulled)
	c.atLeast(where, "minutes of set-up", float64(item.SetUp), 0)
	return pulled
}

// rested reports whether the dog's jacket is left alone on the day: it is on the last days before a show, and on its own.
func (c *checker) rested(d int, on kennel.Date) bool {
	for _, s := range c.k.Shows {
		if c.goes(d, s) && s.On.AddDays(-restDays) <= on && on <= s.Last() {
			return true
		}
	}
	return false
}

// oneAtATime asks that a dog is there and never in two places, and that its session of the day is set up once, whoever
// works on it and however many breaks are in it.
func (c *checker) oneAtATime(on kennel.Date, d int, items []planned.Item) {
	where := on.String() + ", " + c.dogs[d].Name
	var setUp float64
	sessions := 0
	for _, x := range items {
		if x.Kind == planned.ItemSession {
			sessions++
			setUp += float64(x.SetUp)
		}
	}
	if sessions > 0 {
		c.same(where, "minutes of set-up", setUp, c.setUp(d))
	}
	for i, x := range items {
		c.ask(where, "presence", c.atTable(d, on), "at the table on a day with work")
		for _, y := range items[:i] {
			c.ask(where, "time "+x.Start.String(), x.End <= y.Start || y.End <= x.Start, "not on two tables at a time")
		}
	}
}
