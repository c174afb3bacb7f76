package kennel

import (
	"math"
	"strconv"
	"strings"
)

// ParseShare reads a part of an area as it is said: 1/17, 0.06, 6%, half, all. The error is an *InputError.
func ParseShare(s string) (Share, error) {
	if v, ok := shareOf(s); ok && v > 0 && v <= 1 {
		return v, nil
	}
	return 0, &InputError{Field: "share", Value: s, What: "is not a part of an area", Try: "a part like 1/17, 0.06 or 6%, or all"}
}

func shareOf(s string) (Share, bool) {
	w := folded(s)
	switch w {
	case "all":
		return 1, true
	case "half":
		return 0.5, true
	}
	if top, bottom, ok := strings.Cut(w, "/"); ok {
		a, okA := decimal(top)
		b, okB := decimal(bottom)
		return Share(a / b), okA && okB && b > 0
	}
	if p, ok := strings.CutSuffix(w, "%"); ok {
		v, ok := decimal(p)
		return Share(v / 100), ok
	}
	v, ok := decimal(w)
	return Share(v), ok
}

// decimal is a plain number without a sign or another base.
func decimal(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// ParseMinutes reads a stretch of time in minutes: 50, 50m, 50min, 1h, 1h30, 1:30. The error is an *InputError.
func ParseMinutes(s string) (Minutes, error) {
	w := strings.TrimSuffix(strings.TrimSuffix(folded(s), "in"), "m")
	for _, sign := range []string{"h", ":"} {
		hours, rest, cut := strings.Cut(w, sign)
		if !cut {
			continue
		}
		h, ok := decimal(hours)
		m := 0.0
		if rest != "" || sign == ":" {
			var okM bool
			m, okM = decimal(rest)
			ok = ok && okM && m < MinutesAnHour
		}
		if ok {
			return Minutes(h*MinutesAnHour + m), nil
		}
	}
	if v, ok := decimal(w); ok {
		return Minutes(v), nil
	}
	return 0, &InputError{Field: "minutes", Value: s, What: "is not a stretch of time", Try: "minutes like 50, or 1h30"}
}

// ParsePulled reads what was pulled, as pairs of area and share: back 1/17 skirt line 1/12. Names of areas match
// without case and by unique beginning. The error is an *InputError.
func ParsePulled(said []string) (all []Pulled, err error) {
	var area []string
	for _, w := range said {
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
				return nil, &InputError{Field: "area", Value: string(name), What: "stands there twice", Try: "name each area once"}
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

// ParseLayers reads what is on an area, as pairs of share and day of the last pull: 0.6 2026-09-20 0.4 2026-12-01; a
// day alone is the whole area. The error is an *InputError.
func ParseLayers(said []string) (all []Layer, err error) {
	const try = "a share and a day for each layer, like 0.6 2026-09-20 0.4 2026-12-01"
	share, told := Share(1), false
	for _, w := range said {
		d, e := ParseDate(w)
		if e == nil {
			all = append(all, Layer{Share: share, Pulled: d})
			share, told = 1, false
			continue
		}
		if told {
			return nil, &InputError{Field: "layer", Value: w, What: "is not a day like 2027-03-20", Try: try}
		}
		if share, err = ParseShare(w); err != nil {
			return nil, &InputError{Field: "layer", Value: w, What: "is neither a share nor a day", Try: try}
		}
		told = true
	}
	if told || len(all) == 0 {
		return nil, &InputError{Field: "layer", Value: strings.Join(said, " "), What: "has no day behind it", Try: try}
	}
	return all, nil
}

// ParseHours reads grooming hours by weekday: mon=5 tue=5 fri=3, or one number for Monday to Friday. Days that are not
// named have none. The error is an *InputError.
func ParseHours(said []string) (hours [DaysAWeek]Hours, err error) {
	const try = "hours by weekday like mon=5 tue=4 fri=3, or one number for Monday to Friday"
	wrong := func(w, what string) ([DaysAWeek]Hours, error) {
		return hours, &InputError{Field: "hours", Value: w, What: what, Try: try}
	}
	if len(said) == 0 {
		return wrong("", "names no day")
	}
	if len(said) == 1 {
		if h, ok := decimal(said[0]); ok {
			for d := Monday; d <= Friday; d++ {
				hours[d] = Hours(h)
			}
			return hours, nil
		}
	}
	named := map[Weekday]bool{}
	for _, w := range said {
		key, value, ok := strings.Cut(w, "=")
		day, known := weekday(key)
		switch h, number := decimal(value); {
		case !ok || !number:
			return wrong(w, "is not a weekday with its hours")
		case !known:
			return wrong(w, "is not a weekday")
		case named[day]:
			return wrong(w, "names a day twice")
		default:
			hours[day], named[day] = Hours(h), true
		}
	}
	return hours, nil
}

// weekday is the day that a word of three letters or more names.
func weekday(s string) (Weekday, bool) {
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

// ParseLength reads a length of hair in the unit behind it, else in the kennel's: 32, 32mm, 1.25in. The error is an
// *InputError.
func ParseLength(said string, units Units) (Millimetres, error) {
	number, unit := folded(said), units
	for _, u := range []Units{UnitsMillimetres, UnitsInches} {
		if n, ok := strings.CutSuffix(number, string(u)); ok {
			number, unit = n, u
			break
		}
	}
	v, ok := decimal(strings.TrimSpace(number))
	if !ok || v <= 0 {
		return 0, &InputError{Field: "length", Value: said, What: "is not a length", Try: "a length like 32, 32mm or 1.25in"}
	}
	if unit == UnitsInches {
		v *= millimetresAnInch
	}
	return Millimetres(v), nil
}
