package kennel

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// ParsePulled reads what was pulled, as pairs of area and share: back 1/17 skirt line 1 in 12. Names of areas match
// without case and by unique beginning. A share of 0 says that nothing was. The error is an *InputError.
func ParsePulled(said []string) (all []Pulled, err error) {
	var area []string
	for _, w := range phrases(said) {
		if _, ok := shareOf(w); !ok || folded(w) == "all" && len(area) == 0 {
			area = append(area, w)
			continue
		}
		share, err := ParseShare(w)
		if err != nil {
			return nil, err
		}
		if len(area) == 0 {
			return nil, &InputError{Field: "share", Value: w, What: "has no area before it", Try: "an area before each share, like back 1/17"}
		}
		name, err := MatchArea(strings.Join(area, " "))
		if err != nil {
			return nil, err
		}
		for _, p := range all {
			if p.Area == name {
				return nil, &InputError{Field: "area", Value: string(name), What: "appears twice", Try: "name each area once"}
			}
		}
		all, area = append(all, Pulled{name, share}), nil
	}
	if len(area) > 0 {
		if _, err := MatchArea(strings.Join(area, " ")); err != nil {
			return nil, err
		}
		return nil, &InputError{Field: "area", Value: strings.Join(area, " "), What: "has no share behind it", Try: strings.Join(area, " ") + " 1/17"}
	}
	return all, nil
}

// PulledOnly are those of which more than nothing was pulled.
func PulledOnly(all []Pulled) []Pulled {
	return slices.DeleteFunc(slices.Clone(all), func(p Pulled) bool { return p.Share == 0 })
}

// ParseLayers reads what is on an area, as pairs of share and day of the last pull: 0.6 2026-09-20 0.4 2026-12-01; a
// day alone is the whole area. The error is an *InputError.
func ParseLayers(said []string) (all []Layer, err error) {
	const try = "2026-09-20 for all of it, or a share and a day for each layer, like 0.6 2026-09-20 0.4 2026-12-01"
	share, told := Share(1), false
	words := phrases(said)
	for len(words) > 0 {
		d, n, e := dayAhead(words)
		if e == nil {
			all = append(all, Layer{Share: share, Pulled: d})
			share, told, words = 1, false, words[n:]
			continue
		}
		w := words[0]
		s, err := ParseShare(w)
		switch {
		case told || err != nil && n > 0:
			return nil, e
		case err != nil:
			return nil, &InputError{Field: "layer", Value: w, What: "is neither a share nor a day", Try: try}
		case s == 0:
			return nil, &InputError{Field: "layer", Value: w, What: "is no hair at all", Try: "a share above 0, or leave the layer out"}
		}
		share, told, words = s, true, words[1:]
	}
	if told || len(all) == 0 {
		return nil, &InputError{Field: "layer", Value: strings.Join(said, " "), What: "has no day behind it", Try: try}
	}
	return all, nil
}

// wholeCoat is the word for furnishings of which nothing is missing.
const wholeCoat = "whole"

// ParseCoat reads what is on an area as it was seen: its layers as ParseLayers has them, of furnishings what was lost and
// on which day; whole of furnishings that miss nothing, which is no layer. The error is an *InputError.
func ParseCoat(a AreaName, said []string) ([]Layer, error) {
	if a == AreaFurnishings && folded(strings.Join(said, " ")) == wholeCoat {
		return nil, nil
	}
	return ParseLayers(said)
}

// longestDay is how many words a date may have: Saturday the 20th of March 2027.
const longestDay = 6

// dayAhead is the date that the first n words write. The error says what is wrong with them; n is 0 when they do not look
// like a date.
func dayAhead(words []string) (d Date, n int, wrong error) {
	for n = min(longestDay, len(words)); n > 0; n-- {
		d, err := ParseDay(strings.Join(words[:n], " "))
		if err == nil {
			return d, n, nil
		}
		var in *InputError
		if wrong == nil && errors.As(err, &in) && in.What != notADate {
			wrong = err
		}
	}
	if wrong != nil {
		return 0, 1, wrong
	}
	return 0, 0, &InputError{Field: "layer", Value: words[0], What: "is not a day", Try: tryDate}
}

// ParseHours reads grooming hours by weekday: mon=5 tue=5 fri=3, mon 2h tue 1:30, or one number for Monday to Friday.
// Days that are not named have none. The error is an *InputError.
func ParseHours(said []string) (hours [DaysAWeek]Hours, err error) {
	const try = "hours by weekday like mon=5 tue=4 fri=3, or one number for Monday to Friday"
	wrong := func(w, what string) ([DaysAWeek]Hours, error) {
		return hours, &InputError{Field: "hours", Value: w, What: what, Try: try}
	}
	words := phrases(said)
	if len(words) == 0 {
		return wrong("", "names no day")
	}
	if len(words) == 1 {
		if h, err := ParseHourCount(words[0]); err == nil {
			for d := Monday; d <= Friday; d++ {
				hours[d] = h
			}
			return hours, nil
		}
	}
	named := map[Weekday]bool{}
	for i := 0; i < len(words); i++ {
		key, value, paired := strings.Cut(words[i], "=")
		if !paired {
			key = strings.TrimSuffix(key, ":")
		}
		day, known := WeekdayNamed(key)
		if !paired && known && i+1 < len(words) {
			i++
			value, paired = words[i], true
		}
		switch h, err := ParseHourCount(value); {
		case !paired && !known, !paired && value == "":
			return wrong(words[i], "is not a weekday with its hours")
		case !known:
			return wrong(words[i], "is not a weekday")
		case err != nil:
			return hours, err
		case named[day]:
			return wrong(words[i], "names a day twice")
		default:
			hours[day], named[day] = h, true
		}
	}
	return hours, nil
}

// HoursAhead reports whether the words begin with hours, and not with a name: 5, mon=5, or mon 5.
func HoursAhead(words []string) bool {
	if len(words) == 0 {
		return false
	}
	number := func(w string) bool { return strings.IndexAny(w, "0123456789.,-") == 0 }
	_, day := WeekdayNamed(strings.TrimSuffix(words[0], ":"))
	return number(words[0]) || strings.Contains(words[0], "=") || day && len(words) > 1 && number(words[1])
}

// WeekdayNamed is the day that a word of three letters or more names.
func WeekdayNamed(s string) (Weekday, bool) {
	full := [DaysAWeek]string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}
	w := folded(s)
	for d, name := range full {
		if len(w) >= 3 && strings.HasPrefix(name, w) {
			return Weekday(d), true
		}
	}
	return 0, false
}

// SplitNames are the names in a list with commas between.
func SplitNames(s string) (names []string) {
	for _, n := range strings.Split(s, ",") {
		if n = strings.TrimSpace(n); n != "" {
			names = append(names, n)
		}
	}
	return names
}

// millimetresAnInch is exact (international inch, 1959; memory).
const millimetresAnInch = 25.4

// longestHair is the length up to which a number without a unit is taken as it is: half as much again as the longest
// hair that a handler of these breeds meets. Common practice, no source.
const longestHair = 150 // millimetres

// lengthUnits are the units that may be behind a length, in millimetres.
var lengthUnits = []struct {
	word string
	of   float64
}{
	{"millimetres", 1},
	{"mm", 1},
	{"cm", 10},
	{"inches", millimetresAnInch},
	{"inch", millimetresAnInch},
	{"in", millimetresAnInch},
	{`"`, millimetresAnInch},
}

// ParseLength reads a length of hair in the unit behind it, else in the kennel's: 32, 32mm, 3.2 cm, 1.25in. A number
// without a unit that would be longer than hair gets is asked about: with its unit it is taken. The error is an
// *InputError.
func ParseLength(said string, units Units) (Millimetres, error) {
	number, of, named := strings.ToLower(strings.TrimSpace(said)), 1.0, false
	if units == UnitsInches {
		of = millimetresAnInch
	} else {
		units = UnitsMillimetres
	}
	for _, u := range lengthUnits {
		if n, ok := strings.CutSuffix(number, u.word); ok {
			number, of, named = n, u.of, true
			break
		}
	}
	v, ok := decimal(spoken(number))
	if !ok || v <= 0 {
		return 0, &InputError{Field: "length", Value: said, What: "is not a length", Try: "a length like 32, 32mm or 1.25in"}
	}
	if length := v * of; named || length <= longestHair {
		return Millimetres(length), nil
	}
	likely := strconv.FormatFloat(v/10, 'g', 4, 64) + string(units)
	if units == UnitsInches {
		likely = spoken(number) + string(UnitsMillimetres)
	}
	return 0, &InputError{
		Field: "length", Value: said, What: fmt.Sprintf("would be %.0f cm, and no hair of these coats is as long", v*of/10),
		Try: likely + " if that was meant, or " + spoken(number) + string(units) + " if it is right",
	}
}
