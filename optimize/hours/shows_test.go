package hours

import (
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

func TestAShowUnderAMonthOffIsCountedInDays(t *testing.T) {
	today := kennel.NewDate(2027, 3, 1)
	for days, want := range map[int]string{
		-1: "today", 0: "today", 1: "tomorrow", 2: "in 2 days", 9: "in 9 days", 19: "in 19 days", 20: "in 20 days", 30: "in 30 days",
		31: "in 4 weeks", 34: "in 5 weeks", 77: "in 11 weeks",
	} {
		if got := Until(today, today.AddDays(days)); got != want {
			t.Errorf("%d days: %q, want %q", days, got, want)
		}
	}
}

func TestWorkIsForTheNextShowFromItsOwnDay(t *testing.T) {
	monday := kennel.NewDate(2027, 3, 1)
	k := kennel.Kennel{
		Dogs: []kennel.Dog{{Name: "Moss"}},
		Shows: []kennel.Show{
			{Name: "Fallowgate", On: monday.AddDays(12), Days: 1, Chance: 1, Dogs: []string{"Moss"}},
			{Name: "Brackenmere", On: monday.AddDays(40), Days: 1, Chance: 0.5, Dogs: []string{"Moss"}},
		},
	}
	d := Diary{On: monday.AddDays(2), Week0: monday, Weeks: 9, kennel: k}
	name := func(s kennel.Show) string { return s.Name }
	for week, want := range map[int]string{0: "Fallowgate in 10 days", 1: "Fallowgate that week", 2: "Brackenmere (hoped for) in 26 days", 6: "keep rolling"} {
		if got := d.WeekFor(0, week, name); got != want {
			t.Errorf("week %d: %q, want %q", week, got, want)
		}
	}
	for day, want := range map[int]string{3: "Fallowgate in 9 days", 11: "Fallowgate tomorrow", 13: "Brackenmere (hoped for) in 27 days"} {
		if got := d.DayFor(0, monday.AddDays(day), name); got != want {
			t.Errorf("day %d: %q, want %q", day, got, want)
		}
	}
}

// A dog's sessions of a week are apart, and before a show they are those on days on which its jacket may still be worked.
func TestSessionsOfAWeekAreOnDaysThatCanHaveThem(t *testing.T) {
	monday := kennel.NewDate(2027, 3, 1)
	week := func(show int, done ...kennel.Date) int {
		k := kennel.Kennel{
			Dogs:  []kennel.Dog{{Name: "Moss"}},
			Hands: []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{4, 4, 4, 4, 4}}},
		}
		if show >= 0 {
			k.Shows = []kennel.Show{{Name: "Fallowgate", On: monday.AddDays(show), Days: 1, Chance: 1, Dogs: []string{"Moss"}}}
		}
		d := NewDiary(k, planned.Options{On: monday, StripHours: 4}, 2)
		return d.ApartDays(0, 0, 1, done, func(int) bool { return true })
	}
	for name, c := range map[string]struct{ got, want int }{
		"no show":          {week(-1), 3},
		"pulled on Monday": {week(-1, monday), 2},
		"a show on Saturday: Monday and Wednesday": {week(5), 2},
		"a show on Friday: Monday":                 {week(4), 1},
		"a show on Tuesday: Wednesday and Friday":  {week(1), 2},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d days, want %d", name, c.got, c.want)
		}
	}
}
