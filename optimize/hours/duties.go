package hours

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Duty is one duty given to a week. Dog and Duty index the kennel.
type Duty struct {
	Dog, Duty, Week int
	From, To        kennel.Date // the days on which it may be done, both included: those of its week, or of them what a show leaves
	Why             string      // of a regular one: "every 2 weeks"
	Shows           []int       // that it is for, by date; they index the kennel
	Late            bool        // the days for it are over
}

// Words say what a duty is for: why, or the shows, called as they are to be named.
func (d Duty) Words(shows []kennel.Show, named func(kennel.Show) string) string {
	if len(d.Shows) == 0 {
		return d.Why
	}
	names := make([]string, len(d.Shows))
	for i, s := range d.Shows {
		names[i] = named(shows[s])
	}
	why := "for " + strings.Join(names, " and ")
	if d.Late {
		why += Late
	}
	return why
}

// NotDone is a duty before a show for which no week has time. They index the kennel.
type NotDone struct{ Dog, Duty, Show int }

// Placed is what became of the duties of a season.
type Placed struct {
	Duties  []Duty // by week, then dog
	NotDone []NotDone
	Cannot  []planned.Cannot
}

// dutyPlacer gives duties to weeks. The hands of a week have all their time for duties, without breaks, for duties
// need none; the rows of the season problem take the duties' minutes off the hours, and pulling gets what remains.
type dutyPlacer struct {
	k      kennel.Kennel
	pats   kennel.Patterns
	diary  Diary
	done   []kennel.Work      // up to today
	hands  [][]Hands          // by week
	taken  []Fixed            // by week
	booked [][]kennel.Minutes // hands, day: what duties for shows take of it at least
	placed []Duty
	not    []NotDone
	cannot []planned.Cannot
}

// PlaceDuties gives every duty to a week. Duties for shows come first, those whose days end first before the others, for their
// windows are narrow; each of these has a day on which it fits beside them. Then the regular ones, the most frequent first, each in
// the phase that keeps the busiest week least busy. What finds no time is returned by name and takes no hours. What was done is not
// due again before its time.
func PlaceDuties(k kennel.Kennel, pats kennel.Patterns, d Diary, done []kennel.Work) Placed {
	p := dutyPlacer{k: k, pats: pats, diary: d, done: done, taken: make([]Fixed, d.Weeks)}
	for t := range d.Weeks {
		p.hands = append(p.hands, d.HandsIn(t))
	}
	for range k.Hands {
		p.booked = append(p.booked, make([]kennel.Minutes, d.Days()))
	}
	for _, b := range p.beforeShows() {
		p.placeBefore(b)
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
	return Placed{p.placed, p.not, p.cannot}
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
	return f.of(fixed) / max(1, all), f.fits(p.hands[week])
}

// take gives a duty to its week, on the days that this has of those that it may be done on.
func (p *dutyPlacer) take(d Duty) {
	d.From, d.To = p.within(d.Week, d.From, d.To)
	p.taken[d.Week].Add(p.k.Dogs[d.Dog].Duties[d.Duty])
	p.placed = append(p.placed, d)
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
func (p *dutyPlacer) lastDone(dog, duty int) kennel.Date {
	return p.k.Dogs[dog].LastDone(p.k.Dogs[dog].Duties[duty], p.done, p.diary.On)
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
		from, to, _ := p.regularDays(dog, duty, t)
		p.take(Duty{Dog: dog, Duty: duty, Week: t, From: from, To: to, Why: why})
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

// finished reports whether the dog's legs, or what else its pattern cares for, are done for a show in the week: its care is part of that.
func (p *dutyPlacer) finished(dog int, what kennel.Duty, week int) bool {
	pattern := p.pats[p.k.Dogs[dog].Pattern]
	return what.Care() && pattern.Brings(what.Name) && slices.ContainsFunc(p.placed, func(d Duty) bool {
		if d.Dog != dog || d.Week != week {
			return false
		}
		x := p.k.Dogs[dog].Duties[d.Duty]
		return x.Care() && pattern.Finishes(x)
	})
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

// regularDays are the days of a week on which a duty that comes round may be done, and whether they are all that the week has: shows
// keep some of them free of baths.
func (p *dutyPlacer) regularDays(dog, duty, week int) (from, to kennel.Date, all bool) {
	first, last := p.within(week, p.diary.On, p.diary.Date(p.diary.Days()))
	if !p.k.Dogs[dog].Duties[duty].Lifts() {
		return first, last, true
	}
	from, to, _ = p.liftable(dog, first, last)
	return from, to, from == first && to == last
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
			from, to, all := p.regularDays(dog, duty, t)
			if p.diary.daysAtTable(dog, t) == 0 || from > to {
				continue // away or not yet in hand, or no bath so near to a show: not owed
			}
			owed = owed || all && (t > 0 || p.diary.On == p.diary.Week0) // the week under way may have had it already
			if done = p.finished(dog, what, t); done {
				continue
			}
			part, _ := p.with(t, what)
			if p.holds(dog, duty, t, from, to) {
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
