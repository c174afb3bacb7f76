package kennel

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// What is said of what is no date.
const (
	tryDate  = "a date like 2027-03-20"
	notADate = "is not a date"
)

// ParseDay reads a date as people write it, where it has one meaning: 2027-03-20, 2027-3-20, 20.3.2027, 20/03/2027,
// 20 March 2027, Sat 20 Mar 2027, of the years 1971 to 2199. What could be two days, like 09/11/2026, is refused with
// both. The error is an *InputError.
func ParseDay(said string) (Date, error) {
	w := strings.NewReplacer(",", " ", "\t", " ", ". ", ".").Replace(spoken(said))
	if d, err := ParseDate(w); err == nil {
		return d, nil
	}
	r := dayReader{said: said}
	if part, sign := dayParts(w); part != nil {
		return r.numbers(part, sign)
	}
	if strings.HasPrefix(w, ".") {
		return r.wrong(notADate, tryDate)
	}
	return r.words(strings.FieldsFunc(w, func(c rune) bool { return strings.ContainsRune(" -./", c) }))
}

// dayReader reads one date.
type dayReader struct{ said string }

func (r dayReader) wrong(what, try string) (Date, error) {
	return 0, &InputError{Field: "date", Value: r.said, What: what, Try: try}
}

// dayParts are the three numbers of a date and the sign between them; nil when it is not made of three numbers.
func dayParts(w string) (part []string, sign string) {
	if len(w) == len("20270320") && digits(w) {
		return []string{w[:4], w[4:6], w[6:]}, "-"
	}
	for _, sign := range []string{"-", "/", "."} {
		part := strings.Split(w, sign)
		if len(part) == 3 && digits(part[0]) && digits(part[1]) && digits(part[2]) {
			return part, sign
		}
	}
	return nil, ""
}

// digits reports whether a word is one to four digits.
func digits(s string) bool {
	return s != "" && len(s) <= 4 && strings.Trim(s, "0123456789") == "" || len(s) == len("20270320") && strings.Trim(s, "0123456789") == ""
}

func (r dayReader) numbers(part []string, sign string) (Date, error) {
	n := [3]int{}
	for i, p := range part {
		n[i], _ = strconv.Atoi(p) // at most eight digits
	}
	const year = 4 // digits
	switch {
	case len(part[0]) == year && len(part[1]) < 3 && len(part[2]) < 3:
		if n[1] > 12 && n[2] <= 12 {
			return r.wrong("has no month of that number", r.either(reading{n[0], n[2], n[1]}))
		}
		return r.day(reading{n[0], n[1], n[2]})
	case len(part[0]) < 3 && len(part[1]) < 3 && len(part[2]) == year:
		dayFirst, monthFirst := reading{n[2], n[1], n[0]}, reading{n[2], n[0], n[1]}
		if sign == "." || n[0] == n[1] || !monthFirst.is() {
			return r.day(dayFirst)
		}
		if !dayFirst.is() {
			return r.day(monthFirst)
		}
		return r.wrong("could be two days", r.either(dayFirst, monthFirst))
	case len(part[0]) < 3 && len(part[1]) < 3 && len(part[2]) < 3:
		const century = 2000
		return r.wrong("has a year of two digits", r.either(reading{century + n[2], n[1], n[0]}, reading{century + n[2], n[0], n[1]}))
	}
	return r.wrong(notADate, tryDate)
}

// reading is one way to understand a date.
type reading struct{ year, month, day int }

func (x reading) date() Date { return NewDate(x.year, time.Month(x.month), x.day) }

// is reports whether there is such a day.
func (x reading) is() bool {
	return x.year >= firstYear && x.year <= lastYear && x.month >= 1 && x.month <= 12 && x.day >= 1 && x.day <= x.days()
}

// days is how many days the month has.
func (x reading) days() int {
	return time.Date(x.year, time.Month(x.month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// either are the dates that can be meant, each with the day in words where there are several.
func (dayReader) either(all ...reading) string {
	all = slices.DeleteFunc(all, func(x reading) bool { return !x.is() })
	var words []string
	for _, x := range slices.Compact(all) {
		words = append(words, x.date().String()+x.date().Time().Format(" for 2 January 2006"))
	}
	switch len(words) {
	case 0:
		return tryDate
	case 1:
		return words[0][:len(time.DateOnly)]
	}
	return strings.Join(words, ", or ")
}

// day is the day of a reading, if there is one.
func (r dayReader) day(x reading) (Date, error) {
	switch {
	case x.is():
		return x.date(), nil
	case x.year < firstYear || x.year > lastYear:
		return r.wrong(fmt.Sprintf("is no day of the years %d to %d", firstYear, lastYear), tryDate)
	case x.month >= 1 && x.month <= 12 && x.day > 0:
		last := reading{x.year, x.month, x.days()}
		return r.wrong(fmt.Sprintf("is not a day: %s has %d", last.date().Time().Format("January 2006"), last.day), last.date().String())
	}
	return r.wrong("is not a day of any month", tryDate)
}

// words reads a date whose month is a word.
func (r dayReader) words(all []string) (Date, error) {
	var (
		x     = reading{day: -1}
		named []Weekday
	)
	for _, w := range all {
		number, end := w, strings.TrimLeft(w, "0123456789")
		if end == "st" || end == "nd" || end == "rd" || end == "th" {
			number = strings.TrimSuffix(w, end)
		}
		n, err := strconv.Atoi(number)
		month, isMonth := monthNamed(w)
		day, isDay := WeekdayNamed(w)
		switch {
		case err == nil && digits(number) && len(number) == 4 && x.year == 0:
			x.year = n
		case err == nil && digits(number) && len(number) < 3 && x.day < 0:
			x.day = n
		case isMonth && x.month == 0:
			x.month = int(month)
		case isDay && len(named) == 0:
			named = append(named, day)
		case w == "of" || w == "the":
		default:
			return r.wrong(notADate, tryDate)
		}
	}
	switch {
	case x.day < 0 || x.month == 0:
		return r.wrong(notADate, tryDate)
	case x.year == 0:
		return r.wrong("has no year", fmt.Sprintf("the year too, like %d %s 2027", x.day, time.Month(x.month)))
	}
	d, err := r.day(x)
	if err == nil && len(named) > 0 && d.Weekday() != named[0] {
		return r.wrong("is a "+d.Time().Weekday().String(), d.String()+", if the date is right")
	}
	return d, err
}

// monthNamed is the month that a word of three letters or more names.
func monthNamed(w string) (time.Month, bool) {
	for m := time.January; m <= time.December; m++ {
		if name := strings.ToLower(m.String()); len(w) >= 3 && strings.HasPrefix(name, w) || w == "sept" && m == time.September {
			return m, true
		}
	}
	return 0, false
}
