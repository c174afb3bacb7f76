package text

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// TableLook is how a table is written where that does not show by itself.
type TableLook struct {
	Separator rune // between the cells; 0 = the one of comma, semicolon and tab that the first line has most often
	// Dates is which number of a date like 09/11/2026 is first; "" = such dates are refused, for they could be two days.
	Dates DateOrder
}

// DateOrder is the order of day and month in a date of three numbers that ends with the year.
type DateOrder string

// The orders.
const (
	DayFirst   DateOrder = "day"
	MonthFirst DateOrder = "month"
)

var numbersOnly = regexp.MustCompile(`\b(\d{1,2})([/.-])(\d{1,2})([/.-])(\d{4}|\d{2})\b`)

// dated are the columns that hold days.
var dated = append(append(dayColumns(fields.Dog), dayColumns(fields.Show)...), "on", "away_from", "away_to", "coat", "spells")

func dayColumns[T any](t fields.Thing[T]) (names []string) {
	for _, f := range t.Single() {
		if f.Kind() == fields.Day {
			names = append(names, f.Name())
		}
	}
	return names
}

// ordered writes the dates of a cell in the one way that has one meaning; what is no day in that order stays as it is.
func (o DateOrder) ordered(column, cell string) string {
	if o != DayFirst && o != MonthFirst || !slices.Contains(dated, column) {
		return cell
	}
	return numbersOnly.ReplaceAllStringFunc(cell, func(said string) string {
		m := numbersOnly.FindStringSubmatch(said)
		day, _ := strconv.Atoi(m[1]) // at most four digits each
		month, _ := strconv.Atoi(m[3])
		year, _ := strconv.Atoi(m[5])
		if o == MonthFirst {
			day, month = month, day
		}
		const century = 100
		if year < century {
			year += 2000
		}
		d := kennel.NewDate(year, time.Month(month), day)
		if m[2] != m[4] || d.Time().Day() != day || int(d.Time().Month()) != month {
			return said
		}
		return fmt.Sprintf("%04d-%02d-%02d", year, month, day)
	})
}
