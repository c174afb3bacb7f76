package kennel

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// ParseMinutes reads a stretch of time in minutes: 50, 50m, 50 min, 1h, 1h30, 1 h 30 min, 1:30. The error is an
// *InputError.
func ParseMinutes(said string) (Minutes, error) {
	w := spoken(said)
	if h, m, ok := hoursAndMinutes(w); ok {
		return Minutes(h*MinutesAnHour + m), nil
	}
	if v, ok := decimal(minuteUnit.ReplaceAllString(w, "")); ok {
		return Minutes(v), nil
	}
	return 0, &InputError{Field: "minutes", Value: said, What: "is not a stretch of time", Try: "minutes like 50, or 1h30"}
}

var (
	minuteUnit = regexp.MustCompile(` ?(m|min|mins|minute|minutes)\.?$`)
	hourUnit   = regexp.MustCompile(` ?(hours|hour|hrs|hr|h)\.? ?`)
)

// hoursAndMinutes are the two parts of 1h, 1h30 and 1:30.
func hoursAndMinutes(w string) (hours, minutes float64, ok bool) {
	h, m, clock := strings.Cut(w, ":")
	if !clock {
		at := hourUnit.FindStringIndex(w)
		if at == nil {
			return 0, 0, false
		}
		h, m = w[:at[0]], w[at[1]:]
	}
	if hours, ok = decimal(h); !ok || m == "" && !clock {
		return hours, 0, ok
	}
	minutes, ok = decimal(minuteUnit.ReplaceAllString(m, ""))
	return hours, minutes, ok && minutes < MinutesAnHour
}

// ParseHourCount reads how many hours there are on a day: 2, 2.5, 2,5, 2h, 2 hours, 1h30, 1:30, 90 min. The error is an
// *InputError.
func ParseHourCount(said string) (Hours, error) {
	w := spoken(said)
	if h, m, ok := hoursAndMinutes(w); ok {
		return Hours(h + m/MinutesAnHour), nil
	}
	if m := minuteUnit.ReplaceAllString(w, ""); m != w {
		if v, ok := decimal(m); ok {
			return Hours(v / MinutesAnHour), nil
		}
	}
	if v, ok := decimal(w); ok {
		return Hours(v), nil
	}
	in := &InputError{Field: "hours", Value: said, What: "is not a number of hours", Try: "hours like 2, 2.5 or 1h30"}
	if from, to, ok := strings.Cut(w, "-"); ok {
		a, b := clockHours(from), clockHours(to)
		if a >= 0 && b > a {
			in.What, in.Try = "says from when to when, not how many hours", strconv.FormatFloat(b-a, 'g', 4, 64)
		}
	}
	return 0, in
}

// clockHours is a time of day in hours, like 9 or 9:30; -1 when it is none.
func clockHours(w string) float64 {
	h, m, clock := strings.Cut(strings.TrimSpace(w), ":")
	hours, ok := decimal(h)
	minutes := 0.0
	if clock && ok {
		minutes, ok = decimal(m)
	}
	if !ok || hours > 24 || minutes >= MinutesAnHour {
		return -1
	}
	return hours + minutes/MinutesAnHour
}

// dayForm is a count of days or weeks.
var dayForm = regexp.MustCompile(`^(0|[1-9][0-9]{0,3}) ?(d|day|days|w|wk|wks|week|weeks)$`)

// ParseDays reads a stretch of days: 10d, 10 days, 2w, 2 weeks. The error is an *InputError.
func ParseDays(said string) (int, error) {
	w := spoken(said)
	m := dayForm.FindStringSubmatch(w)
	if m == nil {
		in := &InputError{Field: "days", Value: said, What: "is not a stretch of days or weeks", Try: "days like 10d or weeks like 2w"}
		if dayForm.MatchString(w + "d") {
			in.What, in.Try = "says neither days nor weeks", fmt.Sprintf("%sw for weeks, or %sd for days", w, w)
		}
		return 0, in
	}
	n, _ := strconv.Atoi(m[1]) // at most four digits
	if m[2][0] == 'w' {
		n *= DaysAWeek
	}
	return n, nil
}
