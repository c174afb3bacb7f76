package say

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Way says how a dog's jacket is worked, and why: what working it another way would have brought.
func Way(w optimize.Way, today kennel.Date) string {
	var parts []string
	for i, s := range w.Spells {
		parts = append(parts, spell(s, i == len(w.Spells)-1, today))
	}
	words := strings.Join(parts, "; ")
	switch {
	case w.LetGo:
		words = "let go: little or nothing of the jacket is pulled, and by the end of these weeks it is out of coat"
	case words == "":
		words = "nothing of the jacket to pull"
	}
	switch {
	case w.Held && (w.Kind == optimize.WayRolled || w.Kind == optimize.WayRested):
		words += " (held to rolling)"
	case w.Held:
		words += " (living hair held to rolling)"
	}
	return words + other(w, today)
}

// WaysOnDays are how the dogs that have a session on the days of the sheet are worked.
func WaysOnDays(r optimize.Result) (ways []optimize.Way) {
	for _, w := range r.Ways {
		if slices.ContainsFunc(r.Timetable.Days, func(d optimize.Day) bool {
			return slices.ContainsFunc(d.Sessions(), func(s optimize.SessionIn) bool { return s.Dog == w.Dog })
		}) {
			ways = append(ways, w)
		}
	}
	return ways
}

// spell says what to do in a run of weeks.
func spell(s optimize.Spell, last bool, today kennel.Date) string {
	begins := s.From <= today
	from, to := WithYear(s.From, today, "2 January"), WithYear(s.To, today, "2 January")
	if s.From.Time().Month() == s.To.Time().Month() && s.From.Time().Year() == s.To.Time().Year() {
		from = s.From.Time().Format("2")
	}
	when := " from " + from + " to " + to
	switch {
	case begins && last:
		when = " week after week"
	case begins:
		when = " to " + to
	case last:
		when = " from " + WithYear(s.From, today, "2 January")
	}
	switch s.Kind {
	case optimize.WayStripped:
		if begins {
			return "strip out now, to " + to
		}
		return "strip out from " + from + " to " + to
	case optimize.WayStaged:
		if begins {
			return "take down area by area now, to " + to
		}
		return "take down area by area from " + from + " to " + to
	case optimize.WayRested:
		if begins && last {
			return "rest"
		}
		return "rest" + when
	}
	return "roll" + when
}

// other says what the other way would bring.
func other(w optimize.Way, today kennel.Date) string {
	o := w.Other
	if o == nil {
		return ""
	}
	name := "rolling only"
	if o.Kind == optimize.WayStripped {
		name = "strip out now"
		if o.From > today {
			name = "strip out from " + WithYear(o.From, today, "2 January")
		}
	}
	var is, would []string
	for _, s := range o.Shows {
		is = append(is, kennel.ScoreWords(s.Score)+" at "+Plain(s.Show))
		would = append(would, kennel.ScoreWords(s.Other))
	}
	words := ". " + strings.Join(is, ", ") + "; " + name + ": " + strings.Join(would, " and ")
	if len(is) == 0 {
		words = ". " + FirstUpper(name) + ": as ready at its shows"
	}
	switch weeks := o.InCoat - o.OtherInCoat; {
	case weeks > 0:
		words += fmt.Sprintf(", %s fewer in coat", Plural(weeks, "week"))
	case weeks < 0:
		words += fmt.Sprintf(", %s more in coat", Plural(-weeks, "week"))
	}
	return words
}
