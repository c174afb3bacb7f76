package reports

import (
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// sessionDays are the days of a week on which the timetable has sessions of a dog, one for each session.
func sessionDays(t optimize.Timetable, monday kennel.Date, dog string) []kennel.Date {
	return itemDays(t, monday, func(i optimize.Item) bool { return i.Kind == optimize.ItemSession && i.Dog == dog })
}

// dutyDays are the days of a week on which the timetable has a duty of a dog.
func dutyDays(t optimize.Timetable, monday kennel.Date, dog, duty string) []kennel.Date {
	return itemDays(t, monday, func(i optimize.Item) bool {
		return i.Kind == optimize.ItemDuty && i.Dog == dog && i.What == duty
	})
}

func itemDays(t optimize.Timetable, monday kennel.Date, is func(optimize.Item) bool) (days []kennel.Date) {
	for _, d := range t.Days {
		if d.On.Monday() != monday {
			continue
		}
		for _, h := range d.Hands {
			for _, i := range h.Whole() {
				if is(i) {
					days = append(days, d.On)
				}
			}
		}
	}
	return days
}

// onDays names days behind a comma, ", Mon and Thu"; nothing where there are none.
func onDays(days []kennel.Date) string {
	if len(days) == 0 {
		return ""
	}
	names := make([]string, len(days))
	for i, d := range days {
		names[i] = d.Time().Format("Mon")
	}
	last := len(names) - 1
	if last == 0 {
		return ", " + names[0]
	}
	return ", " + strings.Join(names[:last], ", ") + " and " + names[last]
}
