package kennel

import (
	"slices"
	"strings"
	"unicode"
)

// NoBathDays is within how many days of a show a coat is not bathed to lift it: it needs two to three weeks to lie flat. Common practice
// (C15).
const NoBathDays = 14

// Lifts reports whether the duty is a bath that lifts the coat: one that says so, or one that by its days is so long before a show that
// the coat lies flat again. Any other bath is as the handler wants it.
func (d Duty) Lifts() bool {
	words := strings.FieldsFunc(folded(d.Name), func(c rune) bool { return !unicode.IsLetter(c) })
	if !slices.Contains(words, "bath") || d.Skill() != SkillDuties {
		return false
	}
	return slices.Contains(words, "lifting") || d.Before != nil && d.Before.To > NoBathDays
}

// BarsBath reports whether a show that a dog goes to bars baths that lift its coat on the day.
func (s Show) BarsBath(day Date) bool { return s.On.AddDays(-NoBathDays) <= day && day <= s.Last() }
