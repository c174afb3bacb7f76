package optimize

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
)

// weeks is the plan's work week by week.
func (l *layout) weeks(plan season.Plan) (weeks []Week) {
	for t := range l.diary.Weeks {
		weeks = append(weeks, l.week(plan, t))
	}
	return weeks
}

func (l *layout) week(plan season.Plan, t int) Week {
	w := Week{Week: l.diary.Monday(t)}
	var work [hours.Classes]float64
	for _, d := range l.workingOrder(plan, t) {
		dw := l.dogWeek(plan, d, t)
		for _, a := range dw.Areas {
			work[hours.ClassOf(a.Work)] += float64(a.Minutes)
		}
		work[hours.ClassSetUp] += float64(dw.SetUp)
		w.Dogs = append(w.Dogs, dw)
	}
	for _, p := range l.duties {
		if p.Week != t {
			continue
		}
		dog := l.k.Dogs[p.Dog]
		duty := dog.Duties[p.Duty]
		w.Duties = append(w.Duties, DutyWork{Dog: dog.Name, Name: duty.Name, Minutes: duty.Minutes, Why: p.Words(l.k.Shows, func(s kennel.Show) string { return s.Name }), Work: planned.DutyKind(duty)})
		work[hours.DutyClass(duty)] += float64(duty.Minutes)
	}
	w.Hands = l.assignHands(t, work)
	for _, h := range w.Hands {
		w.Hours += h.Hours
	}
	var minutes float64
	for _, m := range work {
		minutes += m
	}
	w.Planned = kennel.Hours(minutes / minutesAnHour)
	return w
}

// assignHands gives a week's minutes to the hands: nobody above their hours or hand load, nobody doing work that they may
// not do, and the hands that may do least first. The bounds of the season and the placing of duties leave nothing without hands
// but what arithmetic misses them by; Check compares what is given with the week's work.
func (l *layout) assignHands(t int, work [hours.Classes]float64) (out []HandsWeek) {
	week := l.diary.HandsIn(t)
	each, _ := hours.Assign(week, work)
	for h, pair := range week {
		out = append(out, HandsWeek{
			Hands: pair.Name, Hours: kennel.Hours(pair.There / minutesAnHour),
			Planned: kennel.Hours(each[h].All() / minutesAnHour), Given: kinds(each[h]),
			MostWork:    kennel.Hours(mostWork(pair, each[h]) / minutesAnHour),
			MostPulling: kennel.Hours(min(pair.Free, pair.Strip) / minutesAnHour),
		})
	}
	return out
}

// mostWork is how many minutes these hands can work in a week with what they are given: who pulls nothing needs no breaks.
func mostWork(pair hours.Hands, given hours.Given) float64 {
	if pulls := given.All() - given[hours.ClassDuties] - given[hours.ClassTrim] - given[hours.ClassCare]; pulls <= tinyMinutes {
		return pair.Free
	}
	return pair.Work
}

// tinyMinutes is arithmetic's part of a week's minutes.
const tinyMinutes = 1e-4

// kinds are the minutes that these hands are given, by kind of work.
func kinds(g hours.Given) (kinds []Given) {
	for c, m := range g {
		if m > 0 {
			kinds = append(kinds, Given{Work: hours.Class(c).Skill(), Minutes: kennel.Minutes(m)})
		}
	}
	return kinds
}

// WorthFirst is how long an area must be worked for a dog to come first for it: a touch of a few hairs can wait.
// Common practice, minutes.
const WorthFirst kennel.Minutes = 5

// workingOrder is the order in which to work the dogs that have sessions in week t: those with the slowest areas
// to be pulled first, for these can't wait; then those with the nearest show; then the kennel's order. Areas that
// are only touched don't count.
func (l *layout) workingOrder(plan season.Plan, t int) []int {
	var dogs []int
	slowest := make([]float64, len(l.k.Dogs))
	next := make([]kennel.Date, len(l.k.Dogs))
	for d := range l.k.Dogs {
		if plan.Sessions[d][t] == 0 {
			continue
		}
		dogs = append(dogs, d)
		for _, a := range l.areasWorked(plan, d, t) {
			if l.problem.Dogs[d].Areas[a].MinutesIn(t, plan.Shares[d][a]) >= float64(WorthFirst) {
				slowest[d] = max(slowest[d], l.pattern(d).Areas[a].ReadyOn(l.k.Dogs[d].Coat))
			}
		}
		next[d] = latest
		if s, ok := l.diary.NextShow(d, t); ok {
			next[d] = s.On
		}
	}
	slices.SortStableFunc(dogs, func(a, b int) int {
		return cmp.Or(cmp.Compare(slowest[b], slowest[a]), cmp.Compare(next[a], next[b]))
	})
	return dogs
}

const latest = kennel.Date(1<<31 - 1)

// areasWorked are the dog's areas pulled in week t in the pattern's order, which is the working order: the lower side
// and the middle, which come back slowest, first.
func (l *layout) areasWorked(plan season.Plan, d, t int) (areas []int) {
	for a, shares := range plan.Shares[d] {
		if shares[t] > 0 {
			areas = append(areas, a)
		}
	}
	return areas
}

func (l *layout) pattern(d int) kennel.Pattern { return l.pats[l.k.Dogs[d].Pattern] }

func (l *layout) dogWeek(plan season.Plan, d, t int) DogWeek {
	dog := l.k.Dogs[d]
	n := plan.Sessions[d][t]
	next, _ := l.diary.NextShow(d, t)
	w := DogWeek{
		Dog: dog.Name, Sessions: n, SetUp: kennel.Minutes(n) * l.setUp(d), Why: l.diary.WeekFor(d, t, func(s kennel.Show) string { return s.Name }),
		Lift: kennel.Lift(dog, l.pattern(d), next.On, l.diary.Monday(t)), Tool: kennel.Tool(dog, l.pattern(d), l.diary.Monday(t)),
	}
	for _, a := range l.areasWorked(plan, d, t) {
		share := plan.Shares[d][a][t]
		work := AreaWork{
			Area: l.pattern(d).Areas[a].Name, Share: kennel.Share(share), Work: l.pattern(d).Areas[a].Work,
			Minutes: kennel.Minutes(l.problem.Dogs[d].Areas[a].MinutesIn(t, plan.Shares[d][a])),
			Few:     planned.FewHairs(kennel.Share(share), kennel.Share(l.problem.Dogs[d].Areas[a].Most[t]), l.opt),
		}
		w.Minutes += work.Minutes
		w.Areas = append(w.Areas, work)
	}
	return w
}
