package kennel

import (
	"slices"
	"strings"
	"unicode"
)

// careWords are what a duty's name speaks of when it is the care of kept hair.
var careWords = []string{"furnishing", "furnishings", "leg", "legs", "beard", "whiskers", "eyebrows"}

// Care reports whether the duty is the care of kept hair: it is for hands that do furnishings, or, where it does not say for whom
// it is, its name speaks of furnishings, legs, beard, whiskers or eyebrows.
func (d Duty) Care() bool {
	if d.Work != "" {
		return d.Work == SkillFurnishings
	}
	name := strings.FieldsFunc(folded(d.Name), func(c rune) bool { return !unicode.IsLetter(c) })
	return slices.ContainsFunc(name, func(w string) bool { return slices.Contains(careWords, w) })
}

// Skill is the kind of work that the duty is: furnishings for the care of kept hair, close for what only hands that do close work
// may do, else duties. Hands that do furnishings or duties may do the care of kept hair; those that do no jackets come first.
func (d Duty) Skill() Skill {
	switch {
	case d.Care():
		return SkillFurnishings
	case d.Work == SkillClose:
		return SkillClose
	}
	return SkillDuties
}

// WithCare is the kennel in which each dog has among its duties what its pattern brings. It is for planning: k stays as it is, and
// what it adds is the pattern's and belongs in no book or file.
func WithCare(k Kennel, pats Patterns) Kennel {
	k.Dogs = slices.Clone(k.Dogs)
	for i := range k.Dogs {
		k.Dogs[i] = k.Dogs[i].WithCare(pats[k.Dogs[i].Pattern])
	}
	return k
}

// WithCare is the dog with its own duties and, behind them, what its pattern brings: the care of kept hair, its undercoat and the
// lines to finish it before a show. A line that the dog has a duty of its own for is left out. Lines that are due together and for
// the same hands are one duty, so that the dog is put on the table once for all of them.
func (d Dog) WithCare(p Pattern) Dog {
	lines := d.lines(p)
	var all []Duty
	for _, x := range d.Duties {
		if x.Timed() && !x.LeaveOut {
			all = append(all, x)
		}
	}
	all = append(all, inOneGo(lines, d.Table.Minutes)...)
	d.Duties = all
	return d
}

// inOneGo puts lines together that are due in the same weeks or days and for the same hands, none of them longer than the dog is
// on the table in one go, if it says how long that is.
func inOneGo(lines []Duty, longest Minutes) (all []Duty) {
	for _, x := range lines {
		i := slices.IndexFunc(all, func(y Duty) bool {
			return x.Every == y.Every && x.Work == y.Work && sameDays(x.Before, y.Before) && (longest <= 0 || x.Minutes+y.Minutes <= longest)
		})
		if i < 0 {
			all = append(all, x)
			continue
		}
		all[i].Name += partsApart + x.Name
		all[i].Minutes += x.Minutes
		all[i].Done = min(all[i].Done, x.Done)
	}
	return all
}

func sameDays(a, b *BeforeShow) bool { return a == b || a != nil && b != nil && *a == *b }

// partsApart is what stands between the lines of a duty.
const partsApart = ", "

// DutyParts are the lines that a duty's name is made of.
func DutyParts(name string) []string {
	var parts []string
	for _, x := range strings.Split(name, ",") {
		if x = folded(strings.TrimSpace(x)); x != "" {
			parts = append(parts, x)
		}
	}
	return parts
}

// LastDone is the last day up to today on which all of the duty was done: as the dog says, or as the records of work say; zero when
// nothing does.
func (d Dog) LastDone(duty Duty, done []Work, today Date) Date {
	last := func(part string) (last Date) {
		if duty.Done <= today {
			last = duty.Done
		}
		for _, w := range done {
			if w.Dog == d.Name && w.Duty != "" && w.On <= today && w.On > last && slices.Contains(DutyParts(w.Duty), part) {
				last = w.On
			}
		}
		return last
	}
	var all Date
	for i, part := range DutyParts(duty.Name) {
		if on := last(part); i == 0 || on < all {
			all = on
		}
	}
	return all
}
