package hours

import (
	"cmp"
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// beforeShow is a duty that is due before a show. Dog, duty and show index the kennel.
type beforeShow struct {
	dog, duty, show int
	from, to        kennel.Date // the days for it
	lasts           int         // days before a show that it may have been done
}

// beforeShows are the duties due before shows that are still to come, those whose days end first before the others. What a pattern
// has done before a show is for shows that count.
func (p *dutyPlacer) beforeShows() (all []beforeShow) {
	for s, show := range p.k.Shows {
		for d, dog := range p.k.Dogs {
			if show.On < p.diary.On || !show.Has(dog.Name) || !Goes(dog, show) {
				continue
			}
			pattern := p.pats[dog.Pattern]
			for i, what := range dog.Duties {
				if what.Before == nil || pattern.Finishes(what) && show.Chance < kennel.CountedOn {
					continue
				}
				all = append(all, beforeShow{
					dog: d, duty: i, show: s, lasts: pattern.Lasts(what),
					from: show.On.AddDays(-what.Before.From), to: show.On.AddDays(-what.Before.To),
				})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b beforeShow) int { return cmp.Or(cmp.Compare(a.to, b.to), cmp.Compare(a.show, b.show)) })
	return all
}

// placeBefore gives a duty to the week of the show's window that has most time left, on days that are good for the dog's next show as
// well where there are any; where the window is over or has no time, to the first week after it, up to the day before the show, that
// has: late is better than never; but a bath that lifts the coat comes on no day so near to a show that it would not lie flat. What was done, or is planned, so near to the show that it is still right is not done again.
func (p *dutyPlacer) placeBefore(b beforeShow) {
	show := p.k.Shows[b.show]
	if last := p.lastDone(b.dog, b.duty); last != 0 && last >= show.On.AddDays(-b.lasts) || p.shared(b) {
		return
	}
	was, lifts := b, p.k.Dogs[b.dog].Duties[b.duty].Lifts()
	if lifts {
		served := false
		if b, served = p.bathBefore(b); served {
			return
		}
	}
	if next := p.nextNear(b); next > b.from && p.placeIn(b, next, b.to) {
		return
	}
	if p.placeIn(b, b.from, b.to) {
		return
	}
	late, until := max(was.to.AddDays(1), p.diary.On), show.On.AddDays(-1)
	if lifts {
		late, until, _ = p.liftable(b.dog, late, show.On.AddDays(-kennel.NoBathDays-1))
	}
	for t := range p.taken {
		first, last := p.within(t, late, until)
		if p.book(b, t, first, last) {
			p.take(Duty{Dog: b.dog, Duty: b.duty, Week: t, From: first, To: last, Shows: []int{b.show}, Late: true})
			return
		}
	}
	why := ""
	switch {
	case lifts && (b.from > b.to || b.to < p.diary.On):
		why = p.whyNoBath(was)
	case b.to < p.diary.On:
		why = fmt.Sprintf("the days for it before %s ended on %s, and none is left", show.Name, planned.DayWords(b.to, p.diary.On))
	case b.to < p.diary.Date(p.diary.Days()):
		why = fmt.Sprintf("%s (from %s to %s, before %s)", p.whyNot(b.dog, b.duty, b.from, b.to),
			planned.DayWords(max(b.from, p.diary.On), p.diary.On), planned.DayWords(b.to, p.diary.On), show.Name)
	default:
		return // its days run on after the season
	}
	p.not = append(p.not, NotDone{b.dog, b.duty, b.show})
	p.miss(b.dog, b.duty, why)
}

// placeIn gives the duty to the week with most time left of those that have a day for it from one to another.
func (p *dutyPlacer) placeIn(b beforeShow, from, to kennel.Date) bool {
	best, most := -1, 0.0
	for t := range p.taken {
		first, last := p.within(t, from, to)
		if room := p.roomIn(t); (best < 0 || room > most) && p.holds(b.dog, b.duty, t, first, last) && p.day(b, first, last).ok {
			best, most = t, room
		}
	}
	if best < 0 {
		return false
	}
	first, last := p.within(best, from, to)
	p.book(b, best, first, last)
	p.take(Duty{Dog: b.dog, Duty: b.duty, Week: best, From: first, To: last, Shows: []int{b.show}})
	return true
}

// shared reports whether what is planned of the duty for an earlier show is still right at this one, and says there that it is for both.
func (p *dutyPlacer) shared(b beforeShow) bool {
	show := p.k.Shows[b.show]
	i := slices.IndexFunc(p.placed, func(d Duty) bool {
		return d.Dog == b.dog && d.Duty == b.duty && d.From >= show.On.AddDays(-b.lasts) && d.To < show.On
	})
	if i < 0 {
		return false
	}
	p.placed[i].Shows = append(slices.Clone(p.placed[i].Shows), b.show)
	return true
}

// nextNear is the first day on which the duty, done for this show, is still right at the dog's next show; zero when that is too far
// off, or there is none.
func (p *dutyPlacer) nextNear(b beforeShow) (day kennel.Date) {
	pattern, duty := p.pats[p.k.Dogs[b.dog].Pattern], p.k.Dogs[b.dog].Duties[b.duty]
	for _, s := range p.k.Shows {
		counts := s.Chance >= kennel.CountedOn || !pattern.Finishes(duty)
		if s.On > p.k.Shows[b.show].On && counts && s.Has(p.k.Dogs[b.dog].Name) && Goes(p.k.Dogs[b.dog], s) && s.On.AddDays(-b.lasts) <= b.to {
			day = max(day, s.On.AddDays(-b.lasts))
		}
	}
	return day
}

// place is a day on which hands have room for a duty; ok in one that is.
type place struct {
	hands, day int
	ok         bool
}

// day is the day from one to another on which the duty fits beside the other duties for shows, with the hands that may do least, and
// of their days the one with most time left.
func (p *dutyPlacer) day(b beforeShow, from, to kennel.Date) (best place) {
	takes := kennel.Minutes(OnClock(p.k.Dogs[b.dog].Duties[b.duty].Minutes))
	skills, most := 0, kennel.Minutes(0)
	for h := range p.k.Hands {
		if !p.dutyHands(h, p.k.Dogs[b.dog].Duties[b.duty]) {
			continue
		}
		does := ClassesOf(p.k.Hands[h], p.diary.SetUp).size()
		for n := max(0, int(from-p.diary.Week0)); n < p.diary.Days() && p.diary.Date(n) <= to; n++ {
			left := p.diary.Free(h, n) - p.booked[h][n]
			if !p.diary.Table[b.dog][n] || left < takes {
				continue
			}
			if !best.ok || does < skills || does == skills && left > most {
				best, skills, most = place{h, n, true}, does, left
			}
		}
	}
	return best
}

// book keeps a day of the week for the duty, if one has room.
func (p *dutyPlacer) book(b beforeShow, week int, from, to kennel.Date) bool {
	if !p.holds(b.dog, b.duty, week, from, to) {
		return false
	}
	at := p.day(b, from, to)
	if !at.ok {
		return false
	}
	p.booked[at.hands][at.day] += kennel.Minutes(OnClock(p.k.Dogs[b.dog].Duties[b.duty].Minutes))
	return true
}
