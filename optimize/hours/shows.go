package hours

import (
	"fmt"
	"math"

	"tuckup/kennel"
)

// NextShow is the dog's first show on or after the Monday of week t, also one after the season planned.
func (d Diary) NextShow(dog, t int) (next kennel.Show, ok bool) { return d.nextShow(dog, d.Monday(t)) }

func (d Diary) nextShow(dog int, from kennel.Date) (next kennel.Show, ok bool) {
	for _, s := range d.kennel.Shows {
		if s.On >= max(d.On, from) && Goes(d.kennel.Dogs[dog], s) && (!ok || s.On < next.On) {
			next, ok = s, true
		}
	}
	return next, ok
}

// WeekFor says in a few words what a dog's work of week t is for: its next show, called as it is to be named, or rolling.
func (d Diary) WeekFor(dog, t int, named func(kennel.Show) string) string {
	from := max(d.On, d.Monday(t))
	s, ok := d.nextShow(dog, from)
	if ok && from > d.On && s.On.Monday() == from {
		return called(s, named) + " that week"
	}
	return d.DayFor(dog, from, named)
}

// DayFor says the same of a dog's work on a day.
func (d Diary) DayFor(dog int, day kennel.Date, named func(kennel.Show) string) string {
	s, ok := d.nextShow(dog, day)
	if !ok {
		return "keep rolling"
	}
	return called(s, named) + " " + Until(day, s.On)
}

func called(s kennel.Show, named func(kennel.Show) string) string {
	if s.Entered() {
		return named(s)
	}
	return named(s) + " (hoped for)"
}

// inDays is up to how many days are counted as days: about a month. From there on whole weeks are near enough.
const inDays = 30

// Until says how far off a day is: "today", "tomorrow", "in 19 days", "in 5 weeks" to the nearest week.
func Until(today, day kennel.Date) string {
	switch days := int(day - today); {
	case days <= 0:
		return "today"
	case days == 1:
		return "tomorrow"
	case days <= inDays:
		return fmt.Sprintf("in %d days", days)
	default:
		return fmt.Sprintf("in %.0f weeks", math.Round(float64(days)/kennel.DaysAWeek))
	}
}

// BeforeShow is the show of the dog for which its jacket is left alone on the day: one of the last days before it, or of its own.
func (d Diary) BeforeShow(dog int, day kennel.Date) (show kennel.Show, ok bool) {
	for _, s := range d.kennel.Shows {
		if s.On >= d.On && day >= s.On.AddDays(-kennel.RestDays) && day <= s.Last() && Goes(d.kennel.Dogs[dog], s) {
			return s, true
		}
	}
	return kennel.Show{}, false
}
