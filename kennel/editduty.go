package kennel

import (
	"slices"
	"strings"
)

// ParseDuty reads a duty as it is said: nails 10 every 2w, or close trim 30 before 10d 7d; either with done 2027-01-04, its last day,
// behind it. The error is an *InputError.
func ParseDuty(said string) (Duty, error) {
	const try = "a duty like nails 10 every 2w, or close trim 30 before 10d 7d"
	wrong := func(what string) (Duty, error) {
		return Duty{}, &InputError{Field: "duty", Value: said, What: what, Try: try}
	}
	w := phrases([]string{said})
	var done Date
	if n := len(w) - 2; n > 0 && w[n] == "done" {
		var err error
		if done, err = ParseDate(w[n+1]); err != nil {
			return wrong("says done " + w[n+1] + " where a date like 2027-01-04 belongs")
		}
		w = w[:n]
	}
	at := slices.IndexFunc(w, func(x string) bool { return x == "every" || x == "before" })
	if at < 2 {
		return wrong("does not say its name, its minutes and when")
	}
	minutes, err := ParseMinutes(w[at-1])
	if err != nil {
		return wrong("does not say its minutes before " + w[at])
	}
	d := Duty{Name: strings.Join(w[:at-1], " "), Minutes: minutes, Done: done}
	var days []int
	for _, x := range w[at+1:] {
		n, err := ParseDays(x)
		if err != nil {
			return wrong("says " + x + " where days like 10d or weeks like 2w belong")
		}
		days = append(days, n)
	}
	switch {
	case w[at] == "every" && len(days) == 1 && days[0]%DaysAWeek == 0:
		d.Every = Weeks(days[0] / DaysAWeek)
	case w[at] == "before" && len(days) == 2:
		d.Before = &BeforeShow{From: days[0], To: days[1]}
	default:
		return wrong("does not say when it is due")
	}
	return d, nil
}
