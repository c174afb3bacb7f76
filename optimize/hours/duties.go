package hours

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Duty is one duty given to a week. Dog and Duty index the kennel.
type Duty struct {
	Dog, Duty, Week int
	From, To        kennel.Date // the days on which it may be done, both included: those of its week, or of them what a show leaves
	Why             string
}

// dutyPlacer gives duties to weeks. The hands of a week have all their time for duties, without breaks, for duties
// need none; the rows of the season problem take the duties' minutes off the hours, and pulling gets what remains.
type dutyPlacer struct {
	k      kennel.Kennel
	diary  Diary
	done   []kennel.Work // up to today
	hands  [][]Hands     // by week
	taken  []Fixed       // by week
	placed []Duty
	cannot []planned.Cannot
}

// PlaceDuties gives every duty to a week. Duties for shows come first, for their windows are narrow; then the
// regular ones, the most frequent first, each in the phase that keeps the busiest week least busy. What finds no
// time is returned by name and takes no hours. What was done is not due again before its time.
func PlaceDuties(k kennel.Kennel, d Diary, done []kennel.Work) ([]Duty, []planned.Cannot) {
	p := dutyPlacer{k: k, diary: d, done: done, taken: make([]Fixed, d.Weeks)}
	for t := range d.Weeks {
		p.hands = append(p.hands, d.HandsIn(t))
	}
	for s := range k.Shows {
		for dog := range k.Dogs {
			for duty, what := range k.Dogs[dog].Duties {
				if what.Before != nil && k.Shows[s].Has(k.Dogs[dog].Name) {
					p.placeBefore(dog, duty, k.Shows[s])
				}
			}
		}
	}
	type regular struct{ dog, duty int }
	var all []regular
	for dog := range k.Dogs {
		for duty, what := range k.Dogs[dog].Duties {
			if what.Before == nil && what.Every > 0 {
				all = append(all, regular{dog, duty})
			}
		}
	}
	every := func(r regular) kennel.Weeks { return k.Dogs[r.dog].Duties[r.duty].Every }
	slices.SortStableFunc(all, func(a, b regular) int { return int(every(a) - every(b)) })
	for _, r := range all {
		p.placeRegular(r.dog, r.duty)
	}
	slices.SortStableFunc(p.placed, func(a, b Duty) int {
		if a.Week != b.Week {
			return a.Week - b.Week
		}
		return a.Dog - b.Dog
	})
	return p.placed, p.cannot
}

// dutyHands reports whether the hands may do the duty.
func (p *dutyPlacer) dutyHands(h int, d kennel.Duty) bool {
	return ClassesOf(p.k.Hands[h], p.diary.SetUp).Has(DutyClass(d))
}

// with is what is fixed in a week once the duty is too, and the part of the time for it that would be taken; false where it has no room.
func (p *dutyPlacer) with(week int, d kennel.Duty) (part float64, ok bool) {
	f := p.taken[week]
	f.Add(d)
	var all float64
	for _, h := range p.hands[week] {
		if h.Does.Has(DutyClass(d)) {
			all += h.Free
		}
	}
	return (f.Duties + f.Care) / max(1, all), f.fits(p.hands[week])
}

// take gives the duty to the week, on its days from one to another.
func (p *dutyPlacer) take(dog, duty, week int, from, to kennel.Date, why string) {
	from, to = p.within(week, from, to)
	p.taken[week].Add(p.k.Dogs[dog].Duties[duty])
	p.placed = append(p.placed, Duty{Dog: dog, Duty: duty, Week: week, From: from, To: to, Why: why})
}

// within is what a week has of the days from one to another; none where from is after to.
func (p *dutyPlacer) within(week int, from, to kennel.Date) (first, last kennel.Date) {
	monday := p.diary.Monday(week)
	return max(from, monday), min(to, monday.AddDays(kennel.DaysAWeek-1))
}

func (p *dutyPlacer) miss(dog, duty int, why string) {
	what := fmt.Sprintf("%s of %s", p.k.Dogs[dog].Duties[duty].Name, p.k.Dogs[dog].Name)
	p.cannot = append(p.cannot, planned.Cannot{What: what, Why: why})
}

// placeBefore gives a duty to the week of the show's window that has most time left; where the window is over or has no time, to the
// first week after it, up to the day before the show, that has: late is better than never.
func (p *dutyPlacer) placeBefore(dog, duty int, show kennel.Show) {
	if show.On < p.diary.On || !Goes(p.k.Dogs[dog], show) {
		return
	}
	what := p.k.Dogs[dog].Duties[duty]
	from, to := show.On.AddDays(-what.Before.From), show.On.AddDays(-what.Before.To)
	if last := p.lastDone(dog, duty); last != 0 && last >= from {
		return
	}
	best, most := -1, 0.0
	for t := range p.taken {
		if room := p.roomIn(t); p.holds(dog, duty, t, from, to) && (best < 0 || room > most) {
			best, most = t, room
		}
	}
	if best >= 0 {
		p.take(dog, duty, best, from, to, "for "+show.Name)
		return
	}
	late := max(to.AddDays(1), p.diary.On)
	for t := range p.taken {
		if p.holds(dog, duty, t, late, show.On.AddDays(-1)) {
			p.take(dog, duty, t, late, show.On.AddDays(-1), "for "+show.Name+Late)
			return
		}
	}
	switch {
	case to < p.diary.On:
		p.miss(dog, duty, fmt.Sprintf("the days for it before %s ended on %s, and none is left", show.Name, planned.DayWords(to, p.diary.On)))
	case to < p.diary.Date(p.diary.Days()):
		p.miss(dog, duty, fmt.Sprintf("%s (from %s to %s, before %s)", p.whyNot(dog, duty, from, to),
			planned.DayWords(max(from, p.diary.On), p.diary.On), planned.DayWords(to, p.diary.On), show.Name))
	}
}

// Late is what the reason of a duty for a show ends with when the days for it were over.
const Late = ", late"

// holds reports whether the week has time for the duty on one of its days from one to another.
func (p *dutyPlacer) holds(dog, duty, week int, from, to kennel.Date) bool {
	first, last := p.within(week, from, to)
	if _, ok := p.with(week, p.k.Dogs[dog].Duties[duty]); !ok || first > last {
		return false
	}
	return p.noDay(dog, duty, first, last) == ""
}

// roomIn is what hands that may do duties have left in a week.
func (p *dutyPlacer) roomIn(week int) float64 {
	_, alone := dutyTime(p.hands[week])
	return alone - p.taken[week].Duties
}

// lastDone is the day on which the duty was done last, zero when nothing tells.
func (p *dutyPlacer) lastDone(dog, duty int) (last kennel.Date) {
	if said := p.k.Dogs[dog].Duties[duty].Done; said <= p.diary.On {
		last = said
	}
	for _, w := range p.done {
		if w.Dog == p.k.Dogs[dog].Name && w.Duty == p.k.Dogs[dog].Duties[duty].Name && w.On <= p.diary.On {
			last = max(last, w.On)
		}
	}
	return last
}

// placeRegular gives a duty that comes round every few weeks to weeks, in the best phase.
func (p *dutyPlacer) placeRegular(dog, duty int) {
	what := p.k.Dogs[dog].Duties[duty]
	n := int(what.Every)
	from, to := 0, min(n, p.diary.Weeks)
	if last := p.lastDone(dog, duty); last != 0 {
		from = max(0, kennel.WeekOf(last, p.diary.Week0)+n)
		to = from + 1
	}
	best := p.phase(dog, duty, from)
	for first := from + 1; first < to; first++ {
		if r := p.phase(dog, duty, first); r.better(best) {
			best = r
		}
	}
	why := "every week"
	if n > 1 {
		why = fmt.Sprintf("every %d weeks", n)
	}
	for _, t := range best.weeks {
		p.take(dog, duty, t, p.diary.On, p.diary.Date(p.diary.Days()), why)
	}
	if len(best.missed) == 0 {
		return
	}
	due := p.diary.Monday(best.missed[0])
	not := p.whyNot(dog, duty, due, min(due.AddDays(n*kennel.DaysAWeek), p.diary.Date(p.diary.Days()))-1)
	if len(best.missed) == 1 {
		p.miss(dog, duty, fmt.Sprintf("%s (due in the week of %s)", not, planned.DayWords(due, p.diary.On)))
	} else {
		p.miss(dog, duty, fmt.Sprintf("%s (due %d times, first in the week of %s)", not, len(best.missed), planned.DayWords(due, p.diary.On)))
	}
}

// round is a regular duty's weeks in one phase.
type round struct {
	weeks, missed []int
	busiest       float64 // largest part of a week's duty hours that would be taken, among weeks
}

func (r round) better(than round) bool {
	if len(r.missed) != len(than.missed) {
		return len(r.missed) < len(than.missed)
	}
	return r.busiest < than.busiest
}

// phase is the weeks of a duty that is first due in the week first. When the week that it is due in has no time
// for it, it waits for the next one that has, but not until it is due again.
func (p *dutyPlacer) phase(dog, duty, first int) round {
	what := p.k.Dogs[dog].Duties[duty]
	n := int(what.Every)
	var r round
	for due := first; due < p.diary.Weeks; due += n {
		owed, done := false, false
		for t := due; t < min(due+n, p.diary.Weeks) && !done; t++ {
			if p.diary.daysAtTable(dog, t) == 0 {
				continue // away or not yet in hand: not owed
			}
			owed = owed || t > 0 || p.diary.On == p.diary.Week0 // the week under way may have had it already
			part, _ := p.with(t, what)
			if p.holds(dog, duty, t, p.diary.On, p.diary.Date(p.diary.Days())) {
				r.weeks = append(r.weeks, t)
				r.busiest = max(r.busiest, part)
				done = true
			}
		}
		if owed && !done {
			r.missed = append(r.missed, due)
		}
	}
	return r
}
