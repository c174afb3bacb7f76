package kennel

import (
	"slices"
	"strings"
)

// ParseDuty reads a duty as it is said: nails 10 every 2w, or close trim 30 before 10d 7d; either with by close, the work that its
// hands have to do, and done 2027-01-04, its last day, behind it. What the dog's pattern brings is said by its name alone: feet 15 for
// other minutes, feet out where the dog has none of it, feet done 2027-01-04. The error is an *InputError.
func ParseDuty(said string) (Duty, error) {
	const try = "a duty like nails 10 every 2w, or close trim 30 before 10d 7d; for what the pattern brings feet 15, or feet out"
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
	var work Skill
	if n := len(w) - 2; n > 0 && w[n] == "by" {
		does, err := Match("work", w[n+1], words([]Skill{SkillClose, SkillFurnishings, SkillDuties}))
		if err != nil {
			return wrong("says by " + w[n+1] + " where close, furnishings or duties belongs")
		}
		work, w = Skill(does), w[:n]
	}
	if d, ok := ofPattern(w, done); ok {
		d.Work = work
		return d, nil
	}
	out := len(w) > 0 && w[len(w)-1] == "out"
	if out {
		w = w[:len(w)-1]
	}
	at := slices.IndexFunc(w, func(x string) bool { return x == "every" || x == "before" })
	if at < 2 {
		return wrong("does not say its name, its minutes and when")
	}
	minutes, err := ParseMinutes(w[at-1])
	if err != nil {
		return wrong("does not say its minutes before " + w[at])
	}
	d := Duty{Name: strings.Join(w[:at-1], " "), Minutes: minutes, Work: work, LeaveOut: out, Done: done}
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

// ofPattern reads what is said of a line that the dog's pattern brings: its name with other minutes, out, or the day on which it was
// done.
func ofPattern(w []string, done Date) (d Duty, ok bool) {
	if len(w) == 0 || slices.Contains(w, "every") || slices.Contains(w, "before") {
		return d, false
	}
	d.Done, ok = done, done != 0
	if n := len(w) - 1; n > 0 && w[n] == "out" {
		d.LeaveOut, ok, w = true, true, w[:n]
	}
	if n := len(w) - 1; n > 0 {
		if m, err := ParseMinutes(w[n]); err == nil {
			d.Minutes, ok, w = m, true, w[:n]
		}
	}
	d.Name = strings.ReplaceAll(strings.Join(w, " "), " ,", ",")
	return d, ok
}
