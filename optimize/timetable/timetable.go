// Package timetable lays the first weeks of a season's plan into days: which day and hands, by the clock, with breaks and lifting
// baths, and why what finds no time is left out. It also says where else a session could go.
package timetable

import (
	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
	"tuckup/optimize/week"
)

// Season is what the days are laid out from: the kennel with its hours, and the season's plan in numbers and in words.
type Season struct {
	Kennel   kennel.Kennel
	Patterns kennel.Patterns
	Options  planned.Options
	Diary    hours.Diary
	Duties   []hours.Duty // by week
	Problem  *season.Problem
	Solved   season.Result  // for what hours are worth
	Plan     season.Plan    // with crumbs gathered
	Weeks    []planned.Week // the same in words
	Slipped  []planned.Slipped
}

const minutesAnHour = 60

// LayOut lays the next days out, each week on its own, in order, with what the week before left. An error is a fault of
// the week's model.
func LayOut(s Season) (planned.Timetable, error) {
	l := &s
	var table planned.Timetable
	if l.Options.Days <= 0 {
		return table, nil
	}
	last := l.Diary.On.AddDays(l.Options.Days - 1).Monday()
	price := l.newPricer(s.Solved, s.Plan)
	before := past{l.pastJackets(), l.pastTouches(), make([]bool, len(l.Kennel.Dogs))}
	for t := 0; t < l.Diary.Weeks && l.Diary.Monday(t) <= last; t++ {
		k := l.weekWork(t, &s.Weeks[t], price, before, nil)
		r, err := k.solve()
		if err != nil {
			return planned.Timetable{}, err
		}
		if targets := k.retarget(&r); len(targets) > 0 {
			k2 := l.weekWork(t, &s.Weeks[t], price, before, targets)
			r2, err := k2.solve()
			if err != nil {
				return planned.Timetable{}, err
			}
			if r2.Objective > r.Objective {
				k, r = k2, r2
			}
		}
		k.read(&table, &r)
		k.remember(&r, before)
	}
	w := &table.Worth
	w.Gap = (w.Bound - w.Objective) / max(1, w.Bound, -w.Bound)
	return table, nil
}

// pastJackets are the days of the jacket sessions that were done lately, by dog.
func (l *Season) pastJackets() [][]kennel.Date {
	days := make([][]kennel.Date, len(l.Kennel.Dogs))
	for _, w := range l.Options.Done {
		d := l.dogIndex(w.Dog)
		if d < 0 || w.Duty != "" {
			continue
		}
		for _, a := range w.Areas {
			if i := l.areaIndex(d, a.Area); i >= 0 && l.pattern(d).Areas[i].Work == kennel.SkillJacket {
				days[d] = append(days[d], w.On)
				break
			}
		}
	}
	return days
}

// remember keeps what the next week must know of this one.
func (k *weekWork) remember(r *week.Result, before past) {
	for i, s := range r.Sessions {
		if !s.Placed {
			continue
		}
		d, on := k.sessions[i].dog, k.day(s.Day)
		var done []planned.AreaWork
		for a, x := range s.Minutes {
			if x > 0 {
				done = append(done, k.sessions[i].areas[a])
			}
		}
		before.touched[d].add(done, on)
		if jacket(done) {
			before.jackets[d] = append(before.jackets[d], on)
		}
	}
	for _, p := range k.pinned {
		before.touched[p.dog].add(p.areas, p.On)
		if jacket(p.areas) {
			before.jackets[p.dog] = append(before.jackets[p.dog], p.On)
		}
	}
	for i, d := range r.Duties {
		if d.Placed && k.duties[i].bath != "" {
			before.bathed[k.duties[i].dog] = true
		}
	}
}

func (l *Season) pattern(d int) kennel.Pattern { return l.Patterns[l.Kennel.Dogs[d].Pattern] }
