package optimize

import "tuckup/kennel"

const minutesAnHour = 60

// diary is the season day by day: which hands work when and which days each dog is at the table. Days count
// from week0, the Monday of week 0; days before today are empty.
type diary struct {
	on, week0 kennel.Date
	weeks     int
	presence  [][]kennel.Minutes // hands, day: minutes of work of any kind
	strip     [][]kennel.Minutes // hands, day: minutes of pulling, never above presence
	table     [][]bool           // dog, day: in hand and not travelling
	spent     []spent            // by hands: of today
}

// spent is what a pair of hands has worked today already, minutes.
type spent struct{ work, strip float64 }

func newDiary(k kennel.Kennel, opt Options, weeks int) diary {
	d := diary{on: opt.On, week0: opt.On.Monday(), weeks: weeks}
	for i, h := range k.Hands {
		away := h.Away
		if i == 0 {
			away = append(append([]kennel.Span(nil), away...), travels(k.Shows, func(kennel.Show) bool { return true })...)
		}
		limit := h.StripHoursADay
		if limit <= 0 {
			limit = opt.StripHours
		}
		presence := make([]kennel.Minutes, d.days())
		strip := make([]kennel.Minutes, d.days())
		for n := range presence {
			day := d.date(n)
			if day < d.on || held(away, day) {
				continue
			}
			hours := max(0, h.Hours[day.Weekday()])
			presence[n] = kennel.Minutes(hours * minutesAnHour)
			strip[n] = kennel.Minutes(min(hours, limit) * minutesAnHour)
		}
		var today spent
		for _, w := range opt.Done {
			if w.On == d.on && w.Hands == h.Name {
				today.work += float64(w.Minutes)
				if w.Duty == "" {
					today.strip += float64(w.Minutes)
				}
			}
		}
		d.spent = append(d.spent, today)
		d.presence = append(d.presence, presence)
		d.strip = append(d.strip, strip)
	}
	for _, dog := range k.Dogs {
		away := travels(k.Shows, func(s kennel.Show) bool { return s.Has(dog.Name) })
		table := make([]bool, d.days())
		for n := range table {
			day := d.date(n)
			table[n] = day >= d.on && inHand(dog, day) && !held(away, day)
		}
		d.table = append(d.table, table)
	}
	return d
}

// travels are the days away at the shows that are counted on and that of picks.
func travels(shows []kennel.Show, of func(kennel.Show) bool) []kennel.Span {
	var spans []kennel.Span
	for _, s := range shows {
		if s.Chance >= countedOn && of(s) {
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

// inHand reports whether the dog is in hand on the day, at the table or travelling.
func inHand(dog kennel.Dog, day kennel.Date) bool { return len(dog.Here) == 0 || held(dog.Here, day) }

func (d diary) days() int { return d.weeks * kennel.DaysAWeek }

func (d diary) date(day int) kennel.Date { return d.week0.AddDays(day) }

// monday is the first day of week t.
func (d diary) monday(t int) kennel.Date { return d.week0.AddDays(t * kennel.DaysAWeek) }

// handsIn are the minutes that each pair of hands has in week t.
func (d diary) handsIn(k kennel.Kennel, setUp kennel.Skill, t int) []hands {
	all := make([]hands, len(k.Hands))
	for i, h := range k.Hands {
		all[i] = hands{name: h.Name, does: classesOf(h, setUp)}
		for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
			all[i].there += float64(d.presence[i][n])
			all[i].work += float64(d.usable(i, n))
			all[i].strip += float64(d.strip[i][n])
		}
		all[i].free = all[i].there
		if t == kennel.WeekOf(d.on, d.week0) {
			all[i].free = max(0, all[i].free-d.spent[i].work)
			all[i].work = max(0, all[i].work-d.spent[i].work)
			all[i].strip = max(0, all[i].strip-d.spent[i].strip)
		}
	}
	return all
}

// free is what a pair of hands' day has left.
func (d diary) free(hands, day int) kennel.Minutes {
	left := d.presence[hands][day]
	if d.date(day) == d.on {
		left -= kennel.Minutes(d.spent[hands].work)
	}
	return max(0, left)
}

// usable is what of a pair of hands' day is left for work when it is spent pulling and the hands are rested: a break in
// each whole hour that pulling and breaks can fill.
func (d diary) usable(hands, day int) kennel.Minutes {
	there := d.presence[hands][day]
	return there - breakFor*kennel.Minutes(int(min(there-leastSetUp, d.strip[hands][day]+breakFor)/(breakAfter+breakFor)))
}

// leastSetUp is the part of a day that is never pulling: a session has a set-up. Common practice, minutes.
const leastSetUp = 5

// longest is the longest usable day of week t on which the dog is at the table, of the hands that of picks.
func (d diary) longest(dog, t int, of func(hands int) bool) (longest kennel.Minutes) {
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		for h := range d.presence {
			if d.table[dog][n] && of(h) {
				longest = max(longest, d.usable(h, n))
			}
		}
	}
	return longest
}

// daysAtTable counts the days of week t on which the dog is at the table.
func (d diary) daysAtTable(dog, t int) int {
	count := 0
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		if d.table[dog][n] {
			count++
		}
	}
	return count
}

// dayNotInHand is the first day of the show on which the dog is not in hand, zero when it is there throughout.
func dayNotInHand(dog kennel.Dog, show kennel.Show) kennel.Date {
	for day := show.On; day <= show.Last(); day++ {
		if !inHand(dog, day) {
			return day
		}
	}
	return 0
}

// tableDays counts the days of week t on which the dog is at the table and some hands that of picks work.
func (d diary) tableDays(dog, t int, of func(hands int) bool) int {
	count := 0
	for n := t * kennel.DaysAWeek; n < (t+1)*kennel.DaysAWeek; n++ {
		if d.table[dog][n] && d.works(n, of) {
			count++
		}
	}
	return count
}

func (d diary) works(day int, of func(hands int) bool) bool {
	for h := range d.presence {
		if d.presence[h][day] > 0 && of(h) {
			return true
		}
	}
	return false
}
