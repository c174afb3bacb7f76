package optimize

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
)

// Now is what a plan in use is looked at with, on a day after it was made: the kennel as it is on that day with its coats moved by all
// work, the patterns and settings of now, and the work done, as far back as a plan looks.
type Now struct {
	On       kennel.Date
	Kennel   kennel.Kennel
	Patterns kennel.Patterns
	Options  Options
	Done     []kennel.Work
}

// Seen is the plan in use as it is seen on a day: without what is gone by, done or over, with the coats as they are, and with what has
// changed since (Result.InUse). Nothing is planned. It is for showing: the next plan begins with the plan itself.
func Seen(r Result, now Now) Result {
	on := max(now.On, r.On)
	u := &planned.InUse{From: r.On, To: r.LastDay(), Since: since(r, now), Facts: &planned.Facts{Kennel: now.Kennel, Options: now.Options}}
	u.Facts.Options.On, u.Facts.Options.Done = on, now.Done
	u.Behind = r.CatchUp(r.Behind(now.Done, on), on)
	here := map[string]kennel.Dog{} // those that are not gone
	for _, d := range now.Kennel.Dogs {
		here[d.Name] = d
	}
	weeks := min(len(r.Weeks), kennel.WeekOf(on, r.Week0)) // that are over
	r.Timetable = daysFrom(r, now.Done, on, here)
	r.InUse, r.Solved, r.On, r.Week0 = u, nil, on, on.Monday()
	r.Weeks = r.Weeks[weeks:]
	r.Kennel = r.Kennel.InHand(on)
	for i, d := range r.Kennel.Dogs { // what is only read is as it is said today
		r.Kennel.Dogs[i].Outlines = here[d.Name].Outlines
	}
	r.Readiness = slices.DeleteFunc(slices.Clone(r.Readiness), func(s ShowReadiness) bool { return s.On < on || here[s.Dog].Name == "" })
	r.Outlooks = slices.Clone(r.Outlooks)
	for i := range r.Outlooks {
		r.Outlooks[i] = outlookFrom(r.Outlooks[i], now, on, weeks)
	}
	inHand := func(dog string) bool {
		return slices.ContainsFunc(r.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == dog })
	}
	r.Outlooks = slices.DeleteFunc(r.Outlooks, func(o Outlook) bool { return !inHand(o.Dog) })
	r.Ways = slices.DeleteFunc(slices.Clone(r.Ways), func(w Way) bool { return !inHand(w.Dog) })
	for i := range r.Ways {
		r.Ways[i].Spells = spellsFrom(r.Ways[i].Spells, on)
	}
	r.Points = slices.Clone(r.Points)
	for i := range r.Points {
		r.Points[i].Weeks = r.Points[i].Weeks[min(weeks, len(r.Points[i].Weeks)):]
	}
	r.Season.HourPrice = slices.DeleteFunc(slices.Clone(r.Season.HourPrice), func(h HourPrice) bool { return h.Week < r.Week0 })
	if r.Tight != nil && r.Tight.Week < r.Week0 {
		r.Tight = nil
	}
	return r
}

// daysFrom are the plan's days from a day on, without the sessions and duties of that day that are done and without dogs that are not in hand.
func daysFrom(r Result, done []kennel.Work, on kennel.Date, here map[string]kennel.Dog) Timetable {
	t := r.Timetable
	t.Days = slices.DeleteFunc(slices.Clone(t.Days), func(d Day) bool { return d.On < on })
	t.LeftOut = slices.DeleteFunc(slices.Clone(t.LeftOut), func(l LeftOut) bool { return l.Week < on.Monday() || here[l.Dog].Name == "" })
	since := r.WorkSince(done, on)
	over := func(day kennel.Date, i Item) bool {
		if dog := here[i.Dog]; i.Dog != "" && (dog.Name == "" || !hours.InHand(dog, day) || !dog.Stands(day)) {
			return true
		}
		return day == on && slices.ContainsFunc(since, func(w kennel.Work) bool {
			return w.On == on && w.Dog == i.Dog && (i.Kind == ItemSession && w.Duty == "" || i.Kind == ItemDuty && w.Duty == i.What)
		})
	}
	for d := range t.Days {
		day := &t.Days[d]
		day.Hands = slices.Clone(day.Hands)
		for h := range day.Hands {
			hands := &day.Hands[h]
			var left []Item
			for n, i := range hands.Items {
				cut := i.Kind == ItemBreak && hands.GoesOn(n+1) && over(day.On, hands.Items[n+1])
				if !cut && !over(day.On, i) {
					left = append(left, i)
				}
			}
			hands.Items = left
		}
	}
	return t
}

// outlookFrom is a dog's outlook from a day on, so many weeks later than it was made; its coat is as the kennel has it then.
func outlookFrom(o Outlook, now Now, on kennel.Date, weeks int) Outlook {
	o.Idle, o.Planned = windowsFrom(o.Idle, on), windowsFrom(o.Planned, on)
	o.IdleScores, o.PlannedScores = fromWeek(o.IdleScores, weeks), fromWeek(o.PlannedScores, weeks)
	o.IdleStates, o.PlannedStates = fromWeek(o.IdleStates, weeks), fromWeek(o.PlannedStates, weeks)
	i := slices.IndexFunc(now.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == o.Dog })
	if i < 0 {
		return o
	}
	dog := now.Kennel.Dogs[i]
	coat, err := kennel.NewDogCoat(dog, now.Patterns[dog.Pattern], on.Monday())
	if err != nil {
		return o // what a plan of today would be refused for
	}
	t := coatToday(coat, on, on.Monday())
	o.State, o.Score, o.Areas = coat.State(t), whole(coat.Score(t)), nil
	for _, a := range coat.Areas {
		o.Areas = append(o.Areas, areaOutlook(a, t))
	}
	return o
}

// coatToday is the week whose end stands for a coat on a day: as for a show on it, but never before a pull that was already made
// this week.
func coatToday(coat kennel.DogCoat, on, week0 kennel.Date) int {
	for _, a := range coat.Areas {
		if a.Curve.Pulled(0) > a.Curve.Pulled(-1) {
			return 0
		}
	}
	return kennel.ReadinessWeek(on, week0)
}

func fromWeek[T any](all []T, weeks int) []T { return all[min(weeks, len(all)):] }

func windowsFrom(all []kennel.Window, on kennel.Date) (left []kennel.Window) {
	for _, w := range all {
		if w.To >= on {
			w.From = max(w.From, on)
			left = append(left, w)
		}
	}
	return left
}

func spellsFrom(all []Spell, on kennel.Date) (left []Spell) {
	for _, s := range all {
		if s.To >= on {
			s.From = max(s.From, on)
			left = append(left, s)
		}
	}
	return left
}
