package hours

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// liftable are the latest days in one piece, of those from one to another, on which a bath may lift the dog's coat: not so near to a show
// that it would not lie flat. Where there are none, by is the first of the shows that bar them, or -1.
func (p *dutyPlacer) liftable(dog int, from, to kennel.Date) (first, last kennel.Date, by int) {
	last, by = to, -1
	for again := true; again && last >= from; {
		again = false
		for i, s := range p.k.Shows {
			if p.bars(dog, s) && s.BarsBath(last) {
				last, by, again = s.On.AddDays(-kennel.NoBathDays-1), i, true
			}
		}
	}
	first = from
	for _, s := range p.k.Shows {
		if p.bars(dog, s) && s.Last() < last {
			first = max(first, s.Last().AddDays(1))
		}
	}
	return first, last, by
}

// bars reports whether the show keeps baths that lift the dog's coat away: it goes there, and the show counts.
func (p *dutyPlacer) bars(dog int, s kennel.Show) bool {
	return s.Chance >= kennel.CountedOn && Goes(p.k.Dogs[dog], s)
}

// bathBefore is the bath of a show with the days on which it may lift the coat. Where an earlier show bars all of them, what is done for
// that one is for both, and served is true.
func (p *dutyPlacer) bathBefore(b beforeShow) (left beforeShow, served bool) {
	first, last, by := p.liftable(b.dog, b.from, min(b.to, p.k.Shows[b.show].On.AddDays(-kennel.NoBathDays-1)))
	left = b
	left.from, left.to = first, last
	if first <= last || by < 0 || by == b.show {
		return left, false
	}
	if done := p.lastDone(b.dog, b.duty); done != 0 && done >= p.k.Shows[by].On.AddDays(-b.lasts) {
		return left, true
	}
	i := slices.IndexFunc(p.placed, func(d Duty) bool { return d.Dog == b.dog && d.Duty == b.duty && slices.Contains(d.Shows, by) })
	if i < 0 {
		return left, false
	}
	p.placed[i].Shows = append(slices.Clone(p.placed[i].Shows), b.show)
	return left, true
}

// whyNoBath says why a bath that lifts the coat is not given before a show.
func (p *dutyPlacer) whyNoBath(b beforeShow) string {
	rule := fmt.Sprintf("within %d days of a show a coat is not lifted by a bath", kennel.NoBathDays)
	if b.to < p.diary.On {
		return fmt.Sprintf("the days for it before %s ended on %s, and %s", p.k.Shows[b.show].Name, planned.DayWords(b.to, p.diary.On), rule)
	}
	return fmt.Sprintf("%s, and no other day is left for it before %s", rule, p.k.Shows[b.show].Name)
}
