package kennel

import "sort"

// Lean is how much a coat grows in the weeks of its dog's spells, where others grow a week's worth. nil is a coat without spells.
type Lean struct {
	first int       // week of grown[0]
	grown []float64 // weeks' growth from before the first of these weeks to the end of each
}

// leanWeeks are the weeks on each side of week 0 for which spells are followed: a season and more. Beyond them coats grow as ever.
const leanWeeks = 130

// Lean is how the dog's coat grows by week. week0 is the Monday of week 0.
func (d Dog) Lean(week0 Date) *Lean {
	even := true
	l := &Lean{first: -leanWeeks, grown: make([]float64, 2*leanWeeks+1)}
	var sum float64
	for i := range l.grown {
		monday, week := week0.AddDays((l.first+i)*DaysAWeek), 1.0
		if _, in := d.SpellOn(monday, monday+DaysAWeek-1); in {
			week = 0
			for day := range Date(DaysAWeek) {
				week += d.growthOn(monday+day) / DaysAWeek
			}
			even = false
		}
		sum += week
		l.grown[i] = sum
	}
	if even {
		return nil
	}
	return l
}

// to is the weeks' growth up to the end of week t.
func (l *Lean) to(t int) float64 {
	switch last := l.first + len(l.grown) - 1; {
	case t < l.first:
		return float64(t - l.first + 1)
	case t > last:
		return l.grown[len(l.grown)-1] + float64(t-last)
	}
	return l.grown[t-l.first]
}

// tinyGrowth is arithmetic's part of a week.
const tinyGrowth = 1e-9

// Back is how many weeks before the end of week t a pull lies whose hair has grown at least the weeks by then: the fewest.
func (l *Lean) Back(t int, grown Weeks) int {
	if l == nil {
		return int(grown)
	}
	now := l.to(t)
	most := int(grown) + 2*len(l.grown) // beyond the spells every week is a whole one
	return sort.Search(most, func(n int) bool { return now-l.to(t-n) >= float64(grown)-tinyGrowth })
}

// Between is how many weeks a coat grows from the end of a week to that of another.
func (l *Lean) Between(from, to int) float64 {
	if l == nil {
		return float64(to - from)
	}
	return l.to(to) - l.to(from)
}

// Age is how many whole weeks hair that was pulled in a week has grown by the end of week t.
func (l *Lean) Age(pulled, t int) int {
	return int(l.Between(pulled, t) + tinyGrowth)
}
