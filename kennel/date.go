package kennel

import (
	"fmt"
	"time"
)

// Date is a civil date: the number of days since 1970-01-01. It has no time of day and no zone. The zero
// value means "no date given". Dates compare with <, == and >.
type Date int32

// NewDate returns the date of a year, month (1-12) and day (1-31). A day past the month's end runs on into
// the next month, as in package time.
func NewDate(year int, month time.Month, day int) Date {
	return Date(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / secondsADay)
}

const secondsADay = 24 * 60 * 60

// DateOf returns the civil date that a clock in t's zone shows.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return NewDate(y, m, d)
}

// ParseDate reads an ISO 8601 calendar date (2027-03-20) of the years 1971 to 2199. The error names the value
// and never the file; callers add where it stood.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, fmt.Errorf("%q is not a date like 2027-03-20", s)
	}
	if t.Year() < firstYear || t.Year() > lastYear {
		return 0, fmt.Errorf("%q is outside the years %d to %d", s, firstYear, lastYear)
	}
	return DateOf(t), nil
}

const (
	firstYear = 1971
	lastYear  = 2199
)

// Time is midnight UTC at the start of the date.
func (d Date) Time() time.Time { return time.Unix(int64(d)*secondsADay, 0).UTC() }

// String is the ISO 8601 form, or "" for the zero date.
func (d Date) String() string {
	if d == 0 {
		return ""
	}
	return d.Time().Format(time.DateOnly)
}

// Weekday counts from Monday = 0 to Sunday = 6.
func (d Date) Weekday() Weekday { return Weekday((int(d)%7 + 10) % 7) }

// Monday is the first day of the week (Monday to Sunday, ISO 8601) that holds d.
func (d Date) Monday() Date { return d - Date(d.Weekday()) }

// AddDays moves the date by n days, n of any sign.
func (d Date) AddDays(n int) Date { return d + Date(n) }

// Weekday is a day of the week, Monday = 0 to Sunday = 6.
type Weekday int

// The days of the week in ISO 8601 order.
const (
	Monday Weekday = iota
	Tuesday
	Wednesday
	Thursday
	Friday
	Saturday
	Sunday
	DaysAWeek = 7
)

var weekdayKeys = [DaysAWeek]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// Key is the short name that the kennel file uses: mon, tue, wed, thu, fri, sat, sun.
func (w Weekday) Key() string { return weekdayKeys[w] }

// Weekdays lists the short names from Monday to Sunday.
func Weekdays() [DaysAWeek]string { return weekdayKeys }

// Span is a run of days, both ends included. A zero From has no beginning, a zero To no end.
type Span struct {
	From, To Date
	Why      string // the reader's own note, may be empty
}

// Holds reports whether d lies in the span.
func (s Span) Holds(d Date) bool {
	return (s.From == 0 || d >= s.From) && (s.To == 0 || d <= s.To)
}
