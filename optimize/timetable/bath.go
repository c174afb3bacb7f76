package timetable

import (
	"fmt"

	"tuckup/kennel"
)

// liftingBath is the name of a bath that is left to dry so that the long layer stands up.
const liftingBath = "lifting bath"

// When a lifting bath is worth its time: common practice, no source.
const (
	oneLength   = 0.8 // from this share of a coat in one layer its long hair is hard to see
	longSession = 45  // minutes of pulling from which seeing the long hair saves time
	bathsApart  = 14  // days between two such baths: washing softens a hard coat
)

// warnBathDays are the days before a show on which a coat is lifted by a bath only with a warning. Common practice (C15): it needs two to
// three weeks to lie flat.
const warnBathDays = 21

// bathWorth says why a session in week t of so many minutes is worth a lifting bath, empty when it is not: dead hair comes
// without, and is all that is seen of a blown coat.
func (l *Season) bathWorth(d, t int, pull kennel.Minutes) string {
	dog := l.Kennel.Dogs[d]
	switch {
	case dog.TextureOf(l.pattern(d)) != kennel.TextureHard || l.mostlyDead(d, t):
		return ""
	case l.oneLength(d):
		return "coat of one length"
	case pull >= longSession:
		return fmt.Sprintf("%.0f minutes to pull", float64(pull))
	}
	return ""
}

// mostlyDead reports whether more than half of the hair that the dog's week pulls is dead already.
func (l *Season) mostlyDead(d, t int) bool {
	var all, dead float64
	for a := range l.Problem.Dogs[d].Areas {
		area, shares := &l.Problem.Dogs[d].Areas[a], l.Plan.Shares[d][a]
		all += shares[t] * area.Loose
		dead += min(shares[t], area.DeadLeft(t, shares)) * area.Loose
	}
	return 2*dead > all
}

// oneLength reports whether most of what is on the dog was pulled at one time, or never.
func (l *Season) oneLength(d int) bool {
	var sum kennel.Share
	for _, layer := range l.Kennel.Dogs[d].All {
		if layer.Share >= oneLength {
			return true
		}
		sum += layer.Share
	}
	return 1-sum >= oneLength
}

// bathDays are the days of week t on which a lifting bath leaves the dog's coat time to lie flat.
func (l *Season) bathDays(d, t int) (days []bool) {
	for n := range kennel.DaysAWeek {
		day := l.Diary.Monday(t).AddDays(n)
		ok := day >= l.Diary.On
		if next, shown := l.showAfter(d, day); shown {
			ok = ok && int(next.On-day) > kennel.NoBathDays
		}
		for _, w := range l.Options.Done {
			if w.Dog == l.Kennel.Dogs[d].Name && w.Duty == liftingBath && int(day-w.On) < bathsApart {
				ok = false
			}
		}
		days = append(days, ok)
	}
	return days
}

// showAfter is the dog's first show on the day or after.
func (l *Season) showAfter(d int, day kennel.Date) (next kennel.Show, ok bool) {
	for _, s := range l.Kennel.Shows {
		if s.Has(l.Kennel.Dogs[d].Name) && s.Last() >= day && (!ok || s.On < next.On) {
			next, ok = s, true
		}
	}
	return next, ok
}

// bathWhy says why a bath is planned for a day, and by when the dog is to be pulled.
func (l *Season) bathWhy(d int, day, session kennel.Date, worth string) string {
	why := fmt.Sprintf("%s: left to dry it lifts the long hair, pull on %s", worth, dayName(session))
	if next, ok := l.showAfter(d, day); ok && int(next.On-day) <= warnBathDays {
		why += fmt.Sprintf("; %s is in %d days, it may not lie flat", shortShow(l.Kennel, next), int(next.On-day))
	}
	return why
}
