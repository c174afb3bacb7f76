package say

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"tuckup/kennel"
)

// Dates as all words of this program have them: a weekday perhaps, the day, the month, a year perhaps; two with the month behind the
// second only; or as they are kept, 2027-01-04.
const (
	weekdayForm = `(?:(?:Mon|Tues?|Wed(?:nes)?|Thu(?:rs)?|Fri|Sat(?:ur)?|Sun)(?:day)? )?`
	monthForm   = `(?:Jan(?:uary)?|Feb(?:ruary)?|Mar(?:ch)?|Apr(?:il)?|May|June?|July?|Aug(?:ust)?|Sep(?:tember)?|Oct(?:ober)?|Nov(?:ember)?|Dec(?:ember)?)`
)

var (
	dayAndMonth = regexp.MustCompile(`\b(?:(` + weekdayForm + `)(\d{1,2}) (to|and|or) )?(` + weekdayForm + `)(\d{1,2}) (` + monthForm + `)\b(?: (\d{4})\b)?`)
	monthNumber = map[string]int{}
)

func init() { //nolint:gochecknoinits // a table of the months' names
	for m := time.January; m <= time.December; m++ {
		monthNumber[m.String()[:3]] = int(m)
	}
}

// InOrder is a text with its dates in somebody's order. Names that hold what looks like a date are left as they are.
func InOrder(text string, order kennel.DateOrder, names []string) string {
	if order == "" {
		return text
	}
	for _, name := range names {
		if before, after, found := strings.Cut(text, name); found {
			return InOrder(before, order, names) + name + InOrder(after, order, names)
		}
	}
	if order != kennel.ISODates {
		text = isoDate.ReplaceAllStringFunc(text, func(iso string) string {
			d, err := kennel.ParseDate(iso)
			if err != nil {
				return iso
			}
			return d.Time().Format("2 Jan 2006")
		})
	}
	if order == kennel.DayFirst {
		return text
	}
	return dayAndMonth.ReplaceAllStringFunc(text, func(found string) string {
		m := dayAndMonth.FindStringSubmatch(found)
		weekday1, day1, between, weekday, day, month, year := m[1], m[2], m[3], m[4], m[5], m[6], m[7]
		first := ""
		if day1 != "" {
			first = ordered(weekday1, day1, month, "", order) + " " + between + " "
		}
		return first + ordered(weekday, day, month, year, order)
	})
}

// HasDate reports whether a name holds what looks like a date.
func HasDate(name string) bool { return dayAndMonth.MatchString(name) || isoDate.MatchString(name) }

// ordered is a date in an order other than day first. weekday has a space behind it, or is empty, as the year can be.
func ordered(weekday, day, month, year string, order kennel.DateOrder) string {
	if order == kennel.MonthFirst {
		if year != "" {
			year = ", " + year
		}
		return weekday + month + " " + day + year
	}
	words := fmt.Sprintf("%02d-%02s", monthNumber[month[:3]], day)
	if year != "" {
		words = year + "-" + words
	}
	return weekday + words
}
