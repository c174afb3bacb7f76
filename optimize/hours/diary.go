// Package hours is who is there when: which hands work on which day and which dog is at the table, what work the hands of a week
// may be given, and the weeks in which duties are laid. The season and the days are both planned inside it.
package hours

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

const minutesAnHour = 60

// BreakFor is for how many minutes hands rest after BreakAfter minutes of pulling: ten minutes in each hour of it. E3 (HSE, Assessment of Repetitive
// Tasks: at least 5 to 10 minutes; seen) and E4 (Galinsky et al. 2000: a break in each hour, no loss of output; seen).
const (
	BreakAfter = 50
	BreakFor   = 10
)

// FinishIn is how many minutes a session may have left when a break is due for it to be finished first. Common practice: nobody has a
// dog wait ten minutes for its last five.
const FinishIn = 5

// Breaks is how many breaks a session of so many minutes of pulling has when rested hands begin it.
func Breaks(pull float64) int {
	return max(0, int(math.Ceil((pull-FinishIn-tinyMinutes)/BreakAfter))-1)
}

// Diary is the season day by day: which hands work when and which days each dog is at the table. Days count
// from Week0, the Monday of week 0; days before today are empty.
type Diary struct {
	On, Week0 kennel.Date // today; the Monday of week 0
	Weeks     int
	Presence  [][]kennel.Minutes // hands, day: minutes of work of any kind
	Strip     [][]kennel.Minutes // hands, day: minutes of pulling, never above Presence
	Table     [][]bool           // dog, day: in hand, fit to be worked and not travelling
	Spent     []Spent            // by hands: of today
	SetUp     kennel.Skill       // the kind of work that hands must do to set a session up

	kennel kennel.Kennel
	start  float64 // when days begin, minutes after midnight
}

// Spent is what a pair of hands has worked today already, minutes.
type Spent struct{ Work, Strip float64 }

// NewDiary is the diary of a kennel from the day of the options on.
func NewDiary(k kennel.Kennel, opt planned.Options, weeks int) Diary {
	d := Diary{On: opt.On, Week0: opt.On.Monday(), Weeks: weeks, SetUp: setUpSkill(k), kennel: k, start: float64(opt.DayStart) * minutesAnHour}
	for i, h := range k.Hands {
		away := h.Away
		if i == 0 {
			away = append(append([]kennel.Span(nil), away...), travels(k.Shows, func(kennel.Show) bool { return true })...)
		}
		limit := h.StripHoursADay
		if limit <= 0 {
			limit = opt.StripHours
		}
		presence := make([]kennel.Minutes, d.Days())
		strip := make([]kennel.Minutes, d.Days())
		for n := range presence {
			day := d.Date(n)
			if day < d.On || held(away, day) {
				continue
			}
			hours := max(0, h.Hours[day.Weekday()])
			presence[n] = kennel.Minutes(hours * minutesAnHour)
			strip[n] = kennel.Minutes(min(hours, limit) * minutesAnHour)
		}
		var today Spent
		for _, w := range opt.Done {
			if w.On == d.On && w.Hands == h.Name {
				today.Work += float64(w.Minutes)
				if w.Duty == "" {
					today.Strip += float64(w.Minutes)
				}
			}
		}
		d.Spent = append(d.Spent, today)
		d.Presence = append(d.Presence, presence)
		d.Strip = append(d.Strip, strip)
	}
	for _, dog := range k.Dogs {
		away := travels(k.Shows, func(s kennel.Show) bool { return s.Has(dog.Name) && !InSpell(dog, s) })
		table := make([]bool, d.Days())
		for n := range table {
			day := d.Date(n)
			table[n] = day >= d.On && InHand(dog, day) && dog.Stands(day) && !held(away, day)
		}
		d.Table = append(d.Table, table)
	}
	return d
}

// travels are the days away at the shows that are counted on and that of picks.
func travels(shows []kennel.Show, of func(kennel.Show) bool) []kennel.Span {
	var spans []kennel.Span
	for _, s := range shows {
		if s.Chance >= kennel.CountedOn && of(s) {
			spans = append(spans, s.AwayDays())
		}
	}
	return spans
}

func held(spans []kennel.Span, day kennel.Date) bool {
	for _, s := range spans {
		if s.Holds(day) {
			return true
		}
	}
	return false
}

// InHand reports whether the dog is in hand on the day, at the table or travelling.
func InHand(dog kennel.Dog, day kennel.Date) bool { return dog.InHand(day) }

// Days is how many days the season has.
func (d Diary) Days() int { return d.Weeks * kennel.DaysAWeek }

// Date is the day so many days after Week0.
func (d Diary) Date(day int) kennel.Date { return d.Week0.AddDays(day) }

// Monday is the first day of week t.
func (d Diary) Monday(t int) kennel.Date { return d.Week0.AddDays(t * kennel.DaysAWeek) }

// HandsIn are the minutes that each pair of hands has in week t.
func (d Diary) HandsIn(t int) []Hands {
	all := make([]Hands, len(d.kennel.Hands))
	for i, h := range d.kennel.Hands {
		var meals float64
		all[i] = Hands{Name: h.Name, Does: ClassesOf(h, d.SetUp)}
		for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
			all[i].There += float64(d.Presence[i][n])
			meals += float64(d.meal(i, n))
			all[i].Work += float64(d.usable(i, n))
			all[i].Strip += float64(d.Strip[i][n])
		}
		all[i].Free = all[i].There - meals
		if t == kennel.WeekOf(d.On, d.Week0) {
			all[i].Free = max(0, all[i].Free-d.Spent[i].Work)
			all[i].Work = max(0, all[i].Work-d.Spent[i].Work)
			all[i].Strip = max(0, all[i].Strip-d.Spent[i].Strip)
		}
	}
	return all
}

// Free is what a pair of hands' day has left in one piece.
func (d Diary) Free(hands, day int) (longest kennel.Minutes) {
	for _, s := range d.Stretches(hands, day) {
		longest = max(longest, kennel.Minutes(s.To-s.From))
	}
	return longest
}

// usable is what of a pair of hands' day is left for work when it is spent pulling and the hands are rested and fed: a break in
// each whole hour that pulling and breaks can fill.
func (d Diary) usable(hands, day int) kennel.Minutes {
	return d.rested(hands, day, d.Presence[hands][day]-d.meal(hands, day))
}

// rested is what breaks leave of so much of a day.
func (d Diary) rested(hands, day int, there kennel.Minutes) kennel.Minutes {
	return there - BreakFor*kennel.Minutes(int(min(there-leastSetUp, d.Strip[hands][day]+BreakFor)/(BreakAfter+BreakFor)))
}

// leastSetUp is the part of a day that is never pulling: a session has a set-up. Common practice, minutes.
const leastSetUp = 5

// Longest is the longest usable piece of a day of week t on which the dog is at the table, of the hands that of picks.
func (d Diary) Longest(dog, t int, of func(hands int) bool) (longest kennel.Minutes) {
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		for h := range d.Presence {
			if d.Table[dog][n] && of(h) {
				there := d.Presence[h][n]
				if meal, ok := d.Meal(h, n); ok {
					there = kennel.Minutes(max(meal.From-d.Begins(h, n), d.Begins(h, n)+float64(there)-meal.To))
				}
				longest = max(longest, d.rested(h, n, there))
			}
		}
	}
	return longest
}

// daysAtTable counts the days of week t on which the dog is at the table.
func (d Diary) daysAtTable(dog, t int) int {
	count := 0
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		if d.Table[dog][n] {
			count++
		}
	}
	return count
}

// DayNotInHand is the first day of the show on which the dog is not in hand, zero when it is there throughout.
func DayNotInHand(dog kennel.Dog, show kennel.Show) kennel.Date {
	for day := show.On; day <= show.Last(); day++ {
		if !InHand(dog, day) {
			return day
		}
	}
	return 0
}

// InSpell reports whether the dog is in a spell on a day of the show: nobody counts on its coat then (C16).
func InSpell(dog kennel.Dog, show kennel.Show) bool {
	_, in := dog.AtShow(show)
	return in
}

// Goes reports whether a plan counts on the dog at the show: it is named for it, in hand on all its days and in no spell.
func Goes(dog kennel.Dog, show kennel.Show) bool {
	return show.Has(dog.Name) && DayNotInHand(dog, show) == 0 && !InSpell(dog, show)
}

// TableDays counts the days of week t on which the dog is at the table and some hands that of picks work.
func (d Diary) TableDays(dog, t int, of func(hands int) bool) int {
	count := 0
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		if d.Table[dog][n] && d.works(n, of) {
			count++
		}
	}
	return count
}

// ApartDays is how many of them can have a session where so many days are left free between two, and after the days on which the
// dog was pulled already. In a week in which its jacket is left alone for a show, they are those on which it is not, if there are any.
func (d Diary) ApartDays(dog, t, free int, done []kennel.Date, of func(hands int) bool) (count int) {
	before := func(day kennel.Date) bool { _, near := d.BeforeShow(dog, day); return near }
	count = d.apart(dog, t, free, done, of, before)
	if count == 0 {
		count = d.apart(dog, t, free, done, of, func(kennel.Date) bool { return false })
	}
	return count
}

// apart are those days without the ones left out.
func (d Diary) apart(dog, t, free int, done []kennel.Date, of func(hands int) bool, but func(kennel.Date) bool) (count int) {
	last := done
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		day := d.Date(n)
		near := slices.ContainsFunc(last, func(x kennel.Date) bool { return max(day-x, x-day) <= kennel.Date(free) })
		if !near && !but(day) && d.Table[dog][n] && d.works(n, of) {
			count++
			last = append(slices.Clone(last), day)
		}
	}
	return count
}

// JacketDays counts those of them on which the dog's jacket need not be left alone for a show.
func (d Diary) JacketDays(dog, t int, of func(hands int) bool) int {
	count := 0
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		if _, near := d.BeforeShow(dog, d.Date(n)); !near && d.Table[dog][n] && d.works(n, of) {
			count++
		}
	}
	return count
}

func (d Diary) works(day int, of func(hands int) bool) bool {
	for h := range d.Presence {
		if d.Presence[h][day] > 0 && of(h) {
			return true
		}
	}
	return false
}
