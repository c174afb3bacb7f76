package kennel

import "strings"

// DateOrder is the order in which somebody reads and types the parts of a date.
type DateOrder string

// The orders; the empty one is day, month, year in words, and year, month, day where a date is typed.
const (
	DayFirst   DateOrder = "day-first"
	MonthFirst DateOrder = "month-first"
	ISODates   DateOrder = "iso" // year, month, day
)

// ParseDay reads a date like the function of that name; one of three numbers that could be two days is read in the order, if it says which.
func (o DateOrder) ParseDay(said string) (Date, error) {
	d, err := ParseDay(said)
	if err == nil || o != DayFirst && o != MonthFirst {
		return d, err
	}
	part, sign := dayParts(strings.NewReplacer("\t", " ", ". ", ".").Replace(spoken(said)))
	const year = 4 // digits
	if part == nil || sign == "-" && len(part[0]) == year || len(part[2]) != year {
		return 0, err
	}
	if o == MonthFirst {
		part[0], part[1] = part[1], part[0]
	}
	if ordered, e := ParseDay(part[2] + "-" + part[1] + "-" + part[0]); e == nil {
		return ordered, nil
	}
	return 0, err
}
