package fields

import (
	"regexp"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Reading is how the words that people write for a field become its value.
type Reading struct {
	Want, Try string // what is wanted, like "a number of minutes", and what to write
	// Read gives a value as Field.Get does. A number may be out of range: a kennel is checked as a whole. The error is a
	// *kennel.InputError.
	Read func(words string) (any, error)
}

// Reading is how the field's words are read; it has no Read where the field is many.
func (f Field[T]) Reading() Reading {
	if f.Reads != nil {
		return *f.Reads
	}
	switch f.At(new(T)).(type) {
	case *kennel.Date:
		return Reading{"a date", "a date like 2027-03-20", reads(kennel.ParseDay, func(d kennel.Date) any { return d })}
	case *kennel.Minutes:
		return Reading{"a number of minutes", "minutes like 50, or 1h30", numbers(kennel.ParseMinutes)}
	case *kennel.Hours:
		return HoursADay
	case *kennel.Share:
		return Reading{"a part of an area", "a part like 0.5, 50% or 1/2", numbers(kennel.ParseShare)}
	case *kennel.Weeks:
		return Reading{wantWhole, tryWhole, reads(parseWeeks, whole)}
	case *kennel.Units:
		return Reading{"text", tryWords, reads(parseUnits, func(u kennel.Units) any { return string(u) })}
	}
	switch f.Kind() {
	case Words:
		return Reading{"text", tryWords, func(words string) (any, error) { return kennel.Unquoted(words), nil }}
	case Number:
		return Reading{"a number", "a number without a unit, like 0.5 or 2", numbers(kennel.ParseNumber)}
	case Whole:
		return Reading{wantWhole, tryWhole, reads(parseWhole, whole)}
	case Yes:
		return Reading{"true or false", "true or yes, or leave it out", reads(parseYes, func(yes bool) any { return yes })}
	}
	return Reading{}
}

// HoursADay is how hours of a day are read.
var HoursADay = Reading{"a number of hours", "hours like 2, 2.5 or 1h30", numbers(kennel.ParseHourCount)}

// chances are read with percentages too.
var chances = Reading{"a chance", "a chance like 0.6 or 60%; 1 = entered", numbers(kennel.ParseChance)}

// answers are yes, no, or nothing said.
var answers = Reading{"yes or no", "yes or no, or leave it out", reads(kennel.ParseAnswer, func(a kennel.Answer) any { return string(a) })}

// areaNames are those of the coat, whatever their capitals.
var areaNames = Reading{"an area", "an area of the coat, like neck", reads(kennel.MatchArea, func(a kennel.AreaName) any { return string(a) })}

// lengths are millimetres where no unit is said.
var lengths = Reading{"a length", "a length like 32, 32mm or 1.25in", numbers(func(words string) (kennel.Millimetres, error) {
	return kennel.ParseLength(words, kennel.UnitsMillimetres)
})}

// everies are weeks that are said as such: 2w, or 14d.
var everies = Reading{"a stretch of days or weeks", "days like 10d or weeks like 2w", reads(parseEvery, whole)}

func parseEvery(said string) (int, error) {
	days, err := kennel.ParseDays(said)
	if err == nil && days%kennel.DaysAWeek != 0 {
		err = &kennel.InputError{Field: "every", Value: said, What: "is not a number of whole weeks", Try: "weeks like 2w"}
	}
	return days / kennel.DaysAWeek, err
}

const (
	tryWords  = "words on one line; leave it out if there is nothing to say"
	wantWhole = "a whole number"
	tryWhole  = "a whole number like 2"
)

func whole(n int) any { return n }

func reads[V any](parse func(string) (V, error), value func(V) any) func(string) (any, error) {
	return func(words string) (any, error) {
		v, err := parse(words)
		return value(v), err
	}
}

// numbers reads a plain number, which may be out of range, or else a number as parse knows it, with its unit.
func numbers[V ~float64](parse func(string) (V, error)) func(string) (any, error) {
	return func(words string) (any, error) {
		if x, err := kennel.ParseNumber(words); err == nil {
			return x, nil
		}
		x, err := parse(words)
		return float64(x), err
	}
}

// wholeForm is a whole number without leading zeros, which some read as octal.
var wholeForm = regexp.MustCompile(`^-?(0|[1-9][0-9]*)$`)

// parseWhole reads a whole number of 32 bits.
func parseWhole(said string) (int, error) {
	words := kennel.Unquoted(said)
	n, err := strconv.ParseInt(words, 10, 32)
	if err != nil || !wholeForm.MatchString(words) {
		return 0, &kennel.InputError{Field: "number", Value: said, What: "is not " + wantWhole, Try: tryWhole}
	}
	return int(n), nil
}

// parseWeeks reads a number of whole weeks, with or without the word.
func parseWeeks(said string) (int, error) {
	n, err := parseWhole(said)
	if days, e := kennel.ParseDays(said); err != nil && e == nil && days%kennel.DaysAWeek == 0 {
		return days / kennel.DaysAWeek, nil
	}
	return n, err
}

// parseYes reads true or false in words.
func parseYes(said string) (bool, error) {
	switch strings.ToLower(kennel.Unquoted(said)) {
	case "true", "yes":
		return true, nil
	case "false", "no":
		return false, nil
	}
	return false, &kennel.InputError{Field: "answer", Value: said, What: "is not true or false", Try: "true or yes, or leave it out"}
}

// parseUnits reads the units of lengths by their short or their long name.
func parseUnits(said string) (kennel.Units, error) {
	switch name := kennel.Unquoted(said); strings.ToLower(name) {
	case "in", "inch", "inches":
		return kennel.UnitsInches, nil
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return kennel.UnitsMillimetres, nil
	default:
		return kennel.Units(name), nil
	}
}
