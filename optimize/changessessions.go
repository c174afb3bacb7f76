package optimize

import (
	"cmp"
	"slices"

	"tuckup/kennel"
)

// SessionChange is a session that one plan has and the other has elsewhere or not at all.
type SessionChange struct {
	Dog      string
	Kind     ChangeKind
	From, To SessionAt // From is zero for one that was added, To for one that was dropped
}

// ChangeKind is what became of a session.
type ChangeKind string

// What may become of a session.
const (
	SessionMoved   ChangeKind = "moved"
	SessionAdded   ChangeKind = "added"
	SessionDropped ChangeKind = "dropped"
)

// nearDays is how many days apart two sessions of a dog may be and still count as one that was moved. Common practice: a
// rolled coat is worked weekly, so what is further off is other work.
const nearDays = kennel.DaysAWeek

// sessionChanges sets the sessions of both plans from one Monday to another (not included) against each other: to the day
// in weeks that both timetables hold, else by week.
func sessionChanges(before, after Result, from, to kennel.Date) (all []SessionChange) {
	was, is := map[string][]SessionAt{}, map[string][]SessionAt{}
	for monday := from; monday < to; monday = monday.AddDays(kennel.DaysAWeek) {
		first := max(monday, before.On, after.On)
		toTheDay := holds(before.Timetable, first, monday) && holds(after.Timetable, first, monday)
		addSessions(before, was, monday, toTheDay, after.On)
		addSessions(after, is, monday, toTheDay, after.On)
	}
	for _, dog := range bothDogs(before, after) {
		all = append(all, pair(dog, was[dog], is[dog])...)
	}
	return all
}

// holds reports whether the timetable has every day from first to the Sunday of the Monday week.
func holds(t Timetable, first, monday kennel.Date) bool {
	days := map[kennel.Date]bool{}
	for _, d := range t.Days {
		days[d.On] = true
	}
	sunday := monday.AddDays(kennel.DaysAWeek - 1)
	for d := first; d <= sunday; d++ {
		if !days[d] {
			return false
		}
	}
	return len(t.Days) > 0 && first <= sunday
}

// addSessions adds the plan's sessions in the week of the Monday by dog: from the given day on where they are told to
// the day; else all of the week, with those that were done before the plan was made.
func addSessions(r Result, to map[string][]SessionAt, monday kennel.Date, toTheDay bool, from kennel.Date) {
	if toTheDay {
		for _, day := range r.Timetable.Days {
			if day.On < from || day.On.Monday() != monday {
				continue
			}
			for _, h := range day.Hands {
				for _, item := range h.Items {
					if again := onDay(to[item.Dog], day.On); item.Kind == ItemSession && !again { // a break may cut a session in two
						to[item.Dog] = append(to[item.Dog], SessionAt{On: day.On, Start: item.Start, Hands: h.Hands})
					}
				}
			}
		}
		return
	}
	week, _ := weekOf(r, monday)
	for _, d := range week.Dogs {
		for range d.Sessions {
			to[d.Dog] = append(to[d.Dog], SessionAt{On: monday})
		}
	}
	for _, w := range doneIn(r, monday) {
		if w.Duty == "" {
			to[w.Dog] = append(to[w.Dog], SessionAt{On: monday})
		}
	}
}

// onDay reports whether one of the sessions is on the day: a dog has one a day at the most.
func onDay(all []SessionAt, day kennel.Date) bool {
	return slices.ContainsFunc(all, func(s SessionAt) bool { return s.On == day })
}

// pair finds what became of one dog's sessions. Those that stand in both are left alone; a session that is on the same
// day at another time or with other hands was moved, then one that is near; the rest was dropped or added.
func pair(dog string, was, is []SessionAt) (all []SessionChange) {
	was, is = slices.Clone(was), slices.Clone(is)
	take := func(same func(a, b SessionAt) bool, found func(a, b SessionAt)) {
		for i := 0; i < len(was); i++ {
			j := slices.IndexFunc(is, func(b SessionAt) bool { return same(was[i], b) })
			if j < 0 {
				continue
			}
			found(was[i], is[j])
			was, is = slices.Delete(was, i, i+1), slices.Delete(is, j, j+1)
			i--
		}
	}
	moved := func(a, b SessionAt) {
		all = append(all, SessionChange{Dog: dog, Kind: SessionMoved, From: a, To: b})
	}
	take(func(a, b SessionAt) bool { return a == b }, func(SessionAt, SessionAt) {})
	take(func(a, b SessionAt) bool { return a.On == b.On }, moved)
	take(func(a, b SessionAt) bool { return max(a.On-b.On, b.On-a.On) <= nearDays }, moved)
	for _, a := range was {
		all = append(all, SessionChange{Dog: dog, Kind: SessionDropped, From: a})
	}
	for _, b := range is {
		all = append(all, SessionChange{Dog: dog, Kind: SessionAdded, To: b})
	}
	slices.SortStableFunc(all, func(a, b SessionChange) int {
		return cmp.Or(cmp.Compare(a.when(), b.when()), cmp.Compare(a.Kind, b.Kind))
	})
	return all
}

// when is the day that the change is first felt.
func (s SessionChange) when() kennel.Date {
	switch s.Kind {
	case SessionAdded:
		return s.To.On
	case SessionDropped:
		return s.From.On
	}
	return min(s.From.On, s.To.On)
}
