package timetable

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// touched are the days on which each area of a dog was or is worked: the same area is never worked on two days running.
type touched map[kennel.AreaName][]kennel.Date

func (t touched) add(areas []planned.AreaWork, on kennel.Date) {
	for _, a := range areas {
		t[a.Area] = append(t[a.Area], on)
	}
}

// beside reports whether the area is worked on the day, the day before or the day after.
func (t touched) beside(area kennel.AreaName, day kennel.Date) bool {
	for _, on := range t[area] {
		if max(day-on, on-day) <= 1 {
			return true
		}
	}
	return false
}

// pastTouches are the areas that were worked lately, by dog.
func (l *Season) pastTouches() []touched {
	all := make([]touched, len(l.Kennel.Dogs))
	for d := range all {
		all[d] = touched{}
	}
	for _, w := range l.Options.Done {
		if d := l.dogIndex(w.Dog); d >= 0 {
			for _, a := range w.Areas {
				all[d][a.Area] = append(all[d][a.Area], w.On)
			}
		}
	}
	return all
}

// barred are the days of the week on which an area of a dog must be left alone, and why; nil where there are none.
func (k *weekWork) barred(d int, a planned.AreaWork) (days []bool, why string) {
	for n := range kennel.DaysAWeek {
		day := k.day(n)
		reason := ""
		if show, near := k.l.Diary.BeforeShow(d, day); near && a.Work == kennel.SkillJacket {
			reason = leftAlone(k.l.Kennel, show)
		} else if k.touched[d].beside(a.Area, day) {
			reason = "the same area is not worked on two days running"
		}
		if reason == "" {
			continue
		}
		if days == nil {
			days = make([]bool, kennel.DaysAWeek)
		}
		days[n] = true
		if day >= k.l.Diary.On && k.p.Dogs[d].Days[n].There {
			why = reason
		}
	}
	return days, why
}

// leftAlone says why the jacket is not worked any more before a show.
func leftAlone(k kennel.Kennel, show kennel.Show) string {
	return fmt.Sprintf("the jacket is left alone on the last %d days before %s", kennel.RestDays, shortShow(k, show))
}

// showNear reports whether a show bars the dog's jacket on a day of the week.
func (k *weekWork) showNear(d int) bool {
	for n := range kennel.DaysAWeek {
		if _, near := k.l.Diary.BeforeShow(d, k.day(n)); near {
			return true
		}
	}
	return false
}
