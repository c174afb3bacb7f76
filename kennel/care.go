package kennel

import (
	"math"
	"slices"
	"strings"
	"unicode"
)

// careName is what the care of kept hair is called where a pattern brings it.
const careName = "legs and beard"

// careWords are what a duty's name speaks of when it is the care of kept hair.
var careWords = []string{"furnishing", "furnishings", "leg", "legs", "beard", "whiskers", "eyebrows"}

// Care reports whether the duty is the care of kept hair: its name speaks of furnishings, legs, beard, whiskers or eyebrows.
func (d Duty) Care() bool {
	name := strings.FieldsFunc(folded(d.Name), func(c rune) bool { return !unicode.IsLetter(c) })
	return slices.ContainsFunc(name, func(w string) bool { return slices.Contains(careWords, w) })
}

// Skill is the kind of work that the duty is: furnishings for the care of kept hair, else duties. Hands that do one of
// the two may do the care of kept hair; those that do furnishings and no jackets come first.
func (d Duty) Skill() Skill {
	if d.Care() {
		return SkillFurnishings
	}
	return SkillDuties
}

// WithCare is the kennel in which each dog whose pattern has kept hair to care for has a duty for it: its own, or else
// the pattern's. It is for planning: k stays as it is, and what it adds is the pattern's and belongs in no book or file.
func WithCare(k Kennel, pats Patterns) Kennel {
	k.Dogs = slices.Clone(k.Dogs)
	for i := range k.Dogs {
		k.Dogs[i] = k.Dogs[i].WithCare(pats[k.Dogs[i].Pattern])
	}
	return k
}

// WithCare is the dog with the care of its pattern among its duties, unless it has one of its own.
func (d Dog) WithCare(p Pattern) Dog {
	if p.Care.None() || slices.ContainsFunc(d.Duties, Duty.Care) {
		return d
	}
	d.Duties = append(slices.Clone(d.Duties), Duty{
		Name: careName, Minutes: Minutes(p.Care.Minutes.Value), Every: Weeks(max(1, math.Round(p.Care.Every.Value))),
	})
	return d
}
