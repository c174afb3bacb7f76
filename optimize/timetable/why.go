package timetable

import (
	"strings"

	"tuckup/kennel"
)

// leastName is how many letters a word needs to stand for a show's name.
const leastName = 4

// shortShow is the start of a show's name that no other show has: one word where that will do.
func shortShow(k kennel.Kennel, s kennel.Show) string {
	words := strings.Fields(s.Name)
	for n := 1; n < len(words); n++ {
		short := strings.Join(words[:n], " ")
		if len([]rune(short)) < leastName {
			continue
		}
		alone := true
		for _, o := range k.Shows {
			alone = alone && (o.Name == s.Name || !strings.HasPrefix(o.Name+" ", short+" "))
		}
		if alone {
			return short
		}
	}
	return s.Name
}

// sessionWhy says in about five words what a session of the day is for.
func (l *Season) sessionWhy(d int, day kennel.Date) string {
	return l.Diary.DayFor(d, day, func(s kennel.Show) string { return shortShow(l.Kennel, s) })
}

// dayName is a day as a short note says it: "Wed 6 Jan".
func dayName(d kennel.Date) string { return d.Time().Format("Mon 2 Jan") }
