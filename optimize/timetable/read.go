package timetable

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// read turns a week that was laid out into days in words.
func (k *weekWork) read(table *planned.Timetable, r *week.Result) {
	table.Worth.Objective += r.Objective
	table.Worth.Bound += r.Bound
	for n := range kennel.DaysAWeek {
		if k.day(n) < k.l.Diary.On {
			continue
		}
		day := planned.Day{On: k.day(n)}
		for h := range k.l.Kennel.Hands {
			if hd, ok := k.handsDay(h, n, r); ok {
				day.Hands = append(day.Hands, hd)
			}
		}
		keepMinutes(day.Hands)
		table.Days = append(table.Days, day)
	}
	table.LeftOut = append(table.LeftOut, k.allLeftOut(r)...)
}

// handsDay is one pair of hands on day n; false when it neither works nor travels.
func (k *weekWork) handsDay(h, n int, r *week.Result) (planned.HandsDay, bool) {
	there := k.l.Diary.Presence[h][k.t*kennel.DaysAWeek+n]
	out := planned.HandsDay{Hands: k.l.Kennel.Hands[h].Name, Hours: kennel.Hours(there / minutesAnHour)}
	if h == 0 {
		out.Items = k.travel(n)
	}
	for _, line := range r.Lines {
		if line.Hands != h || line.Day != n {
			continue
		}
		for _, it := range line.Items {
			out.Items = append(out.Items, k.item(it, n, r))
		}
	}
	for _, p := range k.pinned {
		if p.hands == h && p.On == k.day(n) {
			out.Items = append(out.Items, k.pinnedItems(p)...)
		}
	}
	if meal, ok := k.l.Diary.Meal(h, k.t*kennel.DaysAWeek+n); ok {
		out.Items = withMeal(out.Items, planned.Item{Start: clock(meal.From), End: clock(meal.To), Kind: planned.ItemBreak, Why: "a meal"})
	}
	slices.SortStableFunc(out.Items, func(a, b planned.Item) int { return cmp.Compare(a.Start, b.Start) })
	return out, there > 0 || len(out.Items) > 0
}

// withMeal adds a meal to a day with work before and after it and none in its time.
func withMeal(items []planned.Item, meal planned.Item) []planned.Item {
	before, after := false, false
	for _, i := range items {
		switch {
		case i.End <= meal.Start:
			before = true
		case i.Start >= meal.End:
			after = true
		default:
			return items
		}
	}
	if !before || !after {
		return items
	}
	return append(items, meal)
}

// travel are the shows that the first pair of hands is away at on day n.
func (k *weekWork) travel(n int) (items []planned.Item) {
	for _, s := range k.l.Kennel.Shows {
		if s.Chance < kennel.CountedOn || !s.AwayDays().Holds(k.day(n)) {
			continue
		}
		var dogs []string
		var ring kennel.Minutes
		for i, d := range k.l.Kennel.Dogs {
			if s.Has(d.Name) && hours.InHand(d, k.day(n)) && !hours.InSpell(d, s) {
				dogs = append(dogs, d.Name)
				ring += d.RingMinutes(k.l.pattern(i))
			}
		}
		why := "away"
		if len(dogs) > 0 {
			why = "with " + strings.Join(dogs, ", ")
		}
		switch shown := s.On <= k.day(n) && k.day(n) <= s.Last(); {
		case len(dogs) > 0 && !shown:
			why += "; no table"
		case ring > 0:
			why += fmt.Sprintf("; %.0f min before the ring", float64(ring))
		}
		items = append(items, planned.Item{End: hoursADay * minutesAnHour, Kind: planned.ItemTravel, What: s.Name, Why: why})
	}
	return items
}

func (k *weekWork) item(it week.Item, n int, r *week.Result) planned.Item {
	out := planned.Item{Start: clock(it.Start), End: clock(it.End), Kind: planned.ItemBreak, Why: "rest the hands"}
	switch {
	case it.Session >= 0:
		s := k.sessions[it.Session]
		out.Kind, out.Dog, out.SetUp = planned.ItemSession, s.of.Dog, kennel.Minutes(it.SetUp)
		out.Lift, out.Tool, out.Why = k.lift(s.dog, n, r), s.of.Tool, k.l.sessionWhy(s.dog, k.day(n))
		if s.first != "" {
			out.Why += "; " + s.first
		}
		for _, d := range it.Parts {
			out.Areas = append(out.Areas, s.areas[d.Part].Part(kennel.Minutes(d.Minutes)))
		}
	case it.Duty >= 0:
		d := k.duties[it.Duty]
		out.Kind, out.Dog, out.What, out.Why = planned.ItemDuty, k.l.Kennel.Dogs[d.dog].Name, d.name, d.why
		if d.bath != "" {
			out.Kind = planned.ItemBath
			out.Why = k.l.bathWhy(d.dog, k.day(n), k.firstSession(d.dog, n, r), d.bath)
		}
	}
	return out
}

// firstSession is the day of the dog's first session after day n.
func (k *weekWork) firstSession(d, n int, r *week.Result) kennel.Date {
	first := kennel.DaysAWeek
	for i, s := range r.Sessions {
		if s.Placed && k.sessions[i].dog == d && s.Day > n {
			first = min(first, s.Day)
		}
	}
	for _, p := range k.pinned {
		if m := int(p.On - k.day(0)); p.dog == d && m > n {
			first = min(first, m)
		}
	}
	return k.day(first)
}

// lift says how the long layer is made to stand up for a session on day n: by the bath that was given, else without.
func (k *weekWork) lift(d, n int, r *week.Result) string {
	for i, b := range r.Duties {
		if b.Placed && k.duties[i].bath != "" && k.duties[i].dog == d && b.Day < n && b.Day >= n-bathLasts {
			return fmt.Sprintf("lifted by the bath on %s; powder out before the ring", dayName(k.day(b.Day)))
		}
	}
	return "back-comb or powder; powder out before the ring"
}

// Lift says in the weeks that the days lay out how long hair is made to stand up as the days say it: in each dog's first session.
func Lift(days planned.Timetable, weeks []planned.Week) {
	said := map[string]bool{}
	for _, d := range days.Days {
		for _, h := range d.Hands {
			for _, i := range h.Items {
				key := d.On.Monday().String() + " " + i.Dog
				if i.Kind != planned.ItemSession || i.Lift == "" || said[key] {
					continue
				}
				said[key] = true
				for w := range weeks {
					for g := range weeks[w].Dogs {
						if dw := &weeks[w].Dogs[g]; weeks[w].Week == d.On.Monday() && dw.Dog == i.Dog {
							dw.Lift = i.Lift
						}
					}
				}
			}
		}
	}
}

// bathLasts is how many days a lifted coat stands. Common practice (C15).
const bathLasts = 2

// pinnedItems are a pinned session as the handler fixed it, with the breaks that it needs.
func (k *weekWork) pinnedItems(p pinnedWork) (items []planned.Item) {
	item := func(at float64) planned.Item {
		return planned.Item{
			Start: clock(at), Kind: planned.ItemSession, Dog: p.Dog, Pinned: true, Why: k.l.sessionWhy(p.dog, p.On),
			Lift: "back-comb or powder; powder out before the ring",
			Tool: kennel.Tool(k.l.Kennel.Dogs[p.dog], k.l.pattern(p.dog), k.l.Diary.Monday(k.t)),
		}
	}
	now, tired := p.start, kennel.Minutes(0)
	it := item(now)
	it.SetUp = p.setUp
	now += float64(p.setUp)
	left := planned.Pulling(p.areas)
	for _, a := range p.areas {
		for a.Minutes > tinyMinutes {
			most := kennel.Minutes(hours.BreakAfter)
			if tired+left <= hours.BreakAfter+hours.FinishIn+tinyMinutes {
				most += hours.FinishIn
			} else if tired >= hours.BreakAfter {
				it.End = clock(now)
				items = append(items, it, planned.Item{Start: clock(now), End: clock(now + hours.BreakFor), Kind: planned.ItemBreak, Why: "rest the hands"})
				now += hours.BreakFor
				it, tired = item(now), 0
			}
			x := min(a.Minutes, most-tired)
			it.Areas = append(it.Areas, a.Part(x))
			a = a.Part(a.Minutes - x)
			tired += x
			left -= x
			now += float64(x)
		}
	}
	it.End = clock(now)
	return append(items, it)
}

// allLeftOut is what the days could not hold, area by area and duty by duty, in the order of the week's work.
func (k *weekWork) allLeftOut(r *week.Result) (out []planned.LeftOut) {
	out = append(out, k.leftOut...)
	for i, s := range r.Sessions {
		work := k.sessions[i]
		for a, area := range work.areas {
			missing := area.Minutes - kennel.Minutes(s.Minutes[a])
			if missing < tinyMinutes {
				continue
			}
			left := area.Part(missing)
			out = append(out, planned.LeftOut{
				Week: k.day(0), Dog: work.of.Dog, Area: area.Area, Share: left.Share, Minutes: missing,
				Points: work.worth[a] * float64(left.Share/area.Share), Why: k.whyLeft(i, a, s),
			})
		}
	}
	for i, d := range r.Duties {
		if w := k.duties[i]; !d.Placed && w.bath == "" {
			out = append(out, planned.LeftOut{
				Week: k.day(0), Dog: k.l.Kennel.Dogs[w.dog].Name, Duty: w.name, Why: "no day has time left for it",
			})
		}
	}
	out = together(out)
	for i := range out {
		x := &out[i]
		x.Crumb = x.Duty == "" && x.Minutes < k.l.Options.CrumbTime && x.Share < max(k.l.Options.CrumbShare, k.fewHairs(x.Dog, x.Area))
	}
	return out
}

// fewHairs is a little more than the share of an area that is only a few hairs, 0 where more may be pulled in this week.
func (k *weekWork) fewHairs(dog string, area kennel.AreaName) kennel.Share {
	d := k.l.dogIndex(dog)
	most := kennel.Share(k.l.Problem.Dogs[d].Areas[k.l.areaIndex(d, area)].Most[k.t])
	if planned.FewHairs(most, most, k.l.Options) {
		return most + tinyShare
	}
	return 0
}

// tinyShare is arithmetic's part of a share.
const tinyShare = 1e-6

// together are the lines with those of one area made one, with the reason of the largest.
func together(all []planned.LeftOut) (out []planned.LeftOut) {
	for _, x := range all {
		i := slices.IndexFunc(out, func(o planned.LeftOut) bool { return x.Area != "" && o.Dog == x.Dog && o.Area == x.Area })
		if i < 0 {
			out = append(out, x)
			continue
		}
		o := &out[i]
		if x.Share > o.Share {
			o.Why = x.Why
		}
		o.Share, o.Minutes, o.Points = o.Share+x.Share, o.Minutes+x.Minutes, o.Points+x.Points
	}
	return out
}

// whyLeft says why area a of session i found no time.
func (k *weekWork) whyLeft(i, a int, s week.PlacedSession) string {
	area, part := k.sessions[i].areas[a], &k.p.Sessions[i].Parts[a]
	switch {
	case s.Placed && len(part.Barred) > 0 && part.Barred[s.Day] || !s.Placed && k.canMeet(i, area, nil) && !k.canMeet(i, area, part.Barred):
		return k.sessions[i].barred[a]
	case s.Placed:
		return fmt.Sprintf("%s has no time left for it, breaks counted", dayName(k.day(s.Day)))
	case !k.canMeet(i, area, nil):
		return "no day left of the week has the dog and hands for it together"
	case k.otherSession(i):
		return "no other day has time for one more session, free days and breaks counted"
	}
	return "no day has time left for its session, breaks counted"
}

func (k *weekWork) otherSession(i int) bool {
	for j := range k.sessions {
		if j != i && k.sessions[j].dog == k.sessions[i].dog {
			return true
		}
	}
	return false
}

// canMeet reports whether some day that is not barred has the dog and hands that may do the area's work.
func (k *weekWork) canMeet(i int, area planned.AreaWork, barred []bool) bool {
	for n, day := range k.p.Dogs[k.sessions[i].dog].Days {
		if n < len(barred) && barred[n] {
			continue
		}
		for _, h := range k.p.Hands {
			if day.There && len(h.Days[n].Stretches) > 0 && h.Does&week.Kind(int(hours.ClassOf(area.Work))) != 0 {
				return true
			}
		}
	}
	return false
}
