package reports

import (
	"tuckup/kennel"
	"tuckup/optimize"
)

// What follows says in the words of the reports what other pages show too.

// PlainWords is a text without characters that would move or turn what stands beside it.
func PlainWords(s string) string { return plain(s) }

// DayWords is a date as people say it, with its year only where that is not the year of today.
func DayWords(d, today kennel.Date) string { return dayWords(d, today) }

// LongDayWords is a date in full.
func LongDayWords(d kennel.Date) string { return longDay(d) }

// WeekWords names a week by its Monday.
func WeekWords(d, today kennel.Date) string { return weekWords(d, today) }

// ChanceWords says whether a show is entered or only hoped for.
func ChanceWords(chance float64) string { return chanceWords(chance) }

// MinutesWords are whole minutes.
func MinutesWords(m kennel.Minutes) string { return minutesWords(m) }

// PluralWords is a number of things.
func PluralWords(n int, one string) string { return plural(n, one) }

// RangeWords is the range of a readiness, as a dog may grow slower or faster than thought; empty when there is none.
func RangeWords(x optimize.ShowReadiness) string {
	if x.High <= 0 {
		return ""
	}
	return bandWords(x)
}

// HowWords is how a session's hair is made to stand up and what it is pulled with.
func HowWords(i optimize.Item) string { return howWords(i) }

// ClockWords is when a stretch of a day is.
func ClockWords(i optimize.Item) string { return clockWords(i) }

// WorkWords says what was done in one stretch of work.
func WorkWords(w kennel.Work) string { return workWords(w) }

// WorthWords is how good a plan is and how good any plan could be, in one sentence.
func WorthWords(r optimize.Result) string { return worthWords(r.Season, r.Gathered) }

// ChangeWords is what a change from one plan to another is worth, in one sentence.
func ChangeWords(c optimize.Changes) string { return changeWorth(c) }

// SessionWords says when a session is: to the minute where it is known, else its week.
func SessionWords(s optimize.SessionAt, today kennel.Date) string { return sessionAt(s, today) }

// LeftOutWords says what a day could not hold, and why.
func LeftOutWords(l optimize.LeftOut) string { return leftOutWords(l) }

// WholeItems are a day's items without its breaks, and with sessions that breaks cut into parts put together again.
func WholeItems(items []optimize.Item) []optimize.Item { return wholeItems(items) }

// CautionWords is the caution that stands at the foot of every page.
func CautionWords() string { return cautionWords }
