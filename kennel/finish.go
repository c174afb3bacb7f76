package kennel

import (
	"math"
	"slices"
	"strings"
)

// What the care that comes round is called where a pattern brings it.
const (
	careName      = "legs and beard"
	undercoatName = "undercoat"
)

// LineNames are the names of all that the pattern brings beside the jacket: care, undercoat, and the lines before and at a show.
func (p Pattern) LineNames() (names []string) {
	if !p.Care.None() {
		names = append(names, careName)
	}
	if !p.Undercoat.None() {
		names = append(names, undercoatName)
	}
	for _, f := range p.Finish {
		names = append(names, f.Name)
	}
	return names
}

// Brings reports whether the duty's name is one line of the pattern or several of them.
func (p Pattern) Brings(duty string) bool {
	names := p.LineNames()
	for i := range names {
		names[i] = folded(names[i])
	}
	parts := DutyParts(duty)
	return len(parts) > 0 && !slices.ContainsFunc(parts, func(x string) bool { return !slices.Contains(names, x) })
}

// finishLine is the line before a show of that name.
func (p Pattern) finishLine(part string) (FinishLine, bool) {
	i := slices.IndexFunc(p.Finish, func(f FinishLine) bool { return folded(f.Name) == part })
	if i < 0 {
		return FinishLine{}, false
	}
	return p.Finish[i], true
}

// Finishes reports whether the duty is a line of what the pattern has done before a show, or several of them. Such duties are for
// shows that count.
func (p Pattern) Finishes(duty Duty) bool {
	parts := DutyParts(duty.Name)
	return duty.Before != nil && len(parts) > 0 && !slices.ContainsFunc(parts, func(x string) bool { _, is := p.finishLine(x); return !is })
}

// Lasts is how many days before a show a duty may have been done and need not be done again: the first of its days, or for a line of
// the pattern as long as that says.
func (p Pattern) Lasts(duty Duty) (days int) {
	if duty.Before == nil {
		return 0
	}
	if !p.Finishes(duty) {
		return duty.Before.From
	}
	for i, part := range DutyParts(duty.Name) {
		f, _ := p.finishLine(part)
		if l := whole(f.Lasts); i == 0 || l < days {
			days = l
		}
	}
	return max(days, duty.Before.From)
}

func whole(f Figure) int { return int(math.Round(f.Value)) }

// lines are what the pattern brings for the dog beside its jacket, but at the show itself, as duties of their own.
func (d Dog) lines(p Pattern) (all []Duty) {
	all = d.round(all, careName, SkillFurnishings, p.Care)
	all = d.round(all, undercoatName, SkillFurnishings, p.Undercoat)
	if i := slices.IndexFunc(all, func(x Duty) bool { return x.Name == careName }); i >= 0 && d.caresFor(p) {
		all = slices.Delete(all, i, i+1)
	}
	for _, f := range p.Finish {
		if f.AtShow() {
			continue
		}
		all = d.line(all, Duty{
			Name: f.Name, Minutes: Minutes(f.Minutes.Value), Work: f.Work, Before: &BeforeShow{From: whole(f.From), To: whole(f.To)},
		})
	}
	return all
}

// AtRing is what is done on the dog on each day of a show, before the ring.
func (d Dog) AtRing(p Pattern) (all []Duty) {
	for _, f := range p.Finish {
		if f.AtShow() {
			all = d.line(all, Duty{Name: f.Name, Minutes: Minutes(f.Minutes.Value), Work: f.Work, Before: &BeforeShow{}})
		}
	}
	return all
}

// Recordable is the dog with the duties that can be written down as done: those that are planned, each line of them by itself, and
// what is done at shows.
func (d Dog) Recordable(p Pattern) Dog {
	all := d.WithCare(p)
	for _, x := range append(d.lines(p), d.AtRing(p)...) {
		if !slices.Contains(all.DutyNames(), x.Name) {
			all.Duties = append(all.Duties, x)
		}
	}
	return all
}

// MatchDuty finds the duty that is meant, like Match, or several of them with commas between, and how long it takes.
func (d Dog) MatchDuty(said string) (name string, minutes Minutes, err error) {
	parts := DutyParts(said)
	name, err = Match("duty", said, d.DutyNames())
	switch {
	case err == nil && (len(parts) < 2 || folded(name) == folded(said)): // the beginning of several lines means no more than those
		return name, d.DutyMinutes(name), nil
	case len(parts) < 2:
		return "", 0, err
	}
	var names []string
	for _, part := range parts {
		one, err := Match("duty", part, d.DutyNames())
		if err != nil {
			return "", 0, err
		}
		names = append(names, one)
		minutes += d.DutyMinutes(one)
	}
	return strings.Join(names, partsApart), minutes, nil
}

// caresFor reports whether the dog has a duty of its own for its kept hair, whatever it is called.
func (d Dog) caresFor(p Pattern) bool {
	return slices.ContainsFunc(d.Duties, func(x Duty) bool { return x.Timed() && x.Care() && !p.Brings(x.Name) })
}

func (d Dog) round(all []Duty, name string, work Skill, c Care) []Duty {
	if c.None() {
		return all
	}
	return d.line(all, Duty{Name: name, Minutes: Minutes(c.Minutes.Value), Work: work, Every: Weeks(max(1, math.Round(c.Every.Value)))})
}

// line adds a line of the pattern as the dog has it: not where it has a duty of its own of that name, or leaves it out; with its own
// minutes and the last day on which it was done, where it says so.
func (d Dog) line(all []Duty, x Duty) []Duty {
	for _, own := range d.Duties {
		parts := DutyParts(own.Name)
		switch {
		case !slices.Contains(parts, folded(x.Name)):
		case own.LeaveOut || own.Timed():
			return all
		default:
			if own.Minutes > 0 {
				x.Minutes = own.Minutes / Minutes(len(parts))
			}
			x.Done = max(x.Done, own.Done)
		}
	}
	return append(all, x)
}
