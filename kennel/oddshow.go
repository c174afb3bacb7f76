package kennel

import (
	"cmp"
	"fmt"
	"slices"
)

// Odd is what is odd about a show: no dog is prepared for it, and hardly anybody writes such a show down on purpose. The
// zero value is a show that nothing is odd about.
type Odd struct {
	Past   bool // its last day was before today
	NoDogs bool // it names no dog
	Loose  bool // it is only hoped for, so that naming no dog may be meant: advice then looks at all of them
	Over   int  // days from its last day to today; 0 unless Past
	// Likely is the first day that was probably meant of a show in the past: the same day of the next year in which it is
	// still ahead. Zero where the show is not past, or was over at most RecentDays ago.
	Likely Date
}

// RecentDays is how long after its last day a show is taken for one that was held: who writes down last week's show does
// not mean the next year. Common practice, no source.
const RecentDays = 30

// Odd is what is odd about the show on the day.
func (s Show) Odd(today Date) Odd {
	o := Odd{Past: s.Last() < today, NoDogs: len(s.Dogs) == 0, Loose: !s.Entered()}
	if !o.Past {
		return o
	}
	if o.Over = int(today - s.Last()); o.Over > RecentDays {
		o.Likely = sameDayAhead(s.On, today)
	}
	return o
}

// sameDayAhead is the first day from today on that has the day and month of another one, zero where dates end before.
func sameDayAhead(d, today Date) Date {
	was := d.Time()
	for year := max(was.Year()+1, today.Time().Year()); year <= lastYear; year++ {
		on := NewDate(year, was.Month(), was.Day())
		if on >= today && on.Time().Day() == was.Day() { // 29 February is not in every year
			return on
		}
	}
	return 0
}

// Ignored reports whether a plan prepares no dog for the show.
func (o Odd) Ignored() bool { return o.Past || o.NoDogs }

// Asked reports whether somebody who writes the show down should be asked if it is meant so.
func (o Odd) Asked() bool { return o.Past || o.NoDogs && !o.Loose }

// AskedAfter is Asked of a show that was there before: only what was not odd in that way is asked about.
func (o Odd) AskedAfter(was Odd) bool {
	return o.Past && o.Over != was.Over || o.NoDogs && !o.Loose && (!was.NoDogs || was.Loose)
}

// Slip reports whether the year of a show on the day is likely a slip: in the next year it would be ahead.
func (o Odd) Slip(on Date) bool { return o.Likely != 0 && o.Likely.Time().Year() == on.Time().Year()+1 }

// Why says what is odd in the words that come behind a show's name, "" where nothing is.
func (o Odd) Why() string {
	switch {
	case o.Past && o.NoDogs:
		return "was " + o.Ago() + ", and names no dog"
	case o.Past:
		return "was " + o.Ago()
	case o.NoDogs && o.Loose:
		return "names no dog yet, so no dog is prepared for it"
	case o.NoDogs:
		return "names no dog, so no dog is prepared for it"
	}
	return ""
}

// The bounds of the units in which people say how long ago something was, in days.
const (
	twoWeeks  = 14
	twoMonths = 61
	twoYears  = 730
	aMonth    = 30.44 // mean, Gregorian
	aYear     = 365.25
)

// Ago says how long ago a show in the past was, in the largest unit of which there are two.
func (o Odd) Ago() string {
	switch days := o.Over; {
	case days == 1:
		return "yesterday"
	case days < twoWeeks:
		return fmt.Sprintf("%d days ago", days)
	case days < twoMonths:
		return fmt.Sprintf("%d weeks ago", days/DaysAWeek)
	case days < twoYears:
		return fmt.Sprintf("%.0f months ago", float64(days)/aMonth)
	}
	return fmt.Sprintf("%.0f years ago", float64(o.Over)/aYear)
}

// ByDate are the shows in the order of their first days, those of one day as they are.
func ByDate(shows []Show) []Show {
	sorted := slices.Clone(shows)
	slices.SortStableFunc(sorted, func(a, b Show) int { return cmp.Compare(a.On, b.On) })
	return sorted
}
