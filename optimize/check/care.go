package check

import (
	"math"
	"slices"
	"strings"

	"tuckup/kennel"
)

// What a pattern brings that comes round is called so.
const (
	careOfKept = "legs and beard"
	undercoat  = "undercoat"
)

// broughtLine is a line of a pattern: something to do on the dog beside its jacket.
type broughtLine struct {
	name    string
	minutes float64
	every   int // weeks; 0 = before shows
	from    int // days before a show ..
	to      int // .. to days before it
	lasts   int
	work    kennel.Skill
	done    kennel.Date
}

// brought are all lines of a pattern but those that are done at the show itself.
func brought(p kennel.Pattern) (all []broughtLine) {
	round := func(x float64) int { return int(math.Floor(x + 0.5)) }
	for _, c := range []struct {
		name string
		care kennel.Care
	}{{careOfKept, p.Care}, {undercoat, p.Undercoat}} {
		if c.care.Minutes.Value > 0 && c.care.Every.Value > 0 {
			all = append(all, broughtLine{name: c.name, minutes: c.care.Minutes.Value, every: max(1, round(c.care.Every.Value)), work: kennel.SkillFurnishings})
		}
	}
	for _, f := range p.Finish {
		if f.From.Value >= 1 {
			all = append(all, broughtLine{
				name: f.Name, minutes: f.Minutes.Value, from: round(f.From.Value), to: round(f.To.Value), lasts: round(f.Lasts.Value), work: f.Work,
			})
		}
	}
	return all
}

// split are the lines that a duty's name is made of, in small letters.
func split(name string) (parts []string) {
	for _, x := range strings.Split(strings.ToLower(name), ",") {
		if x = strings.TrimSpace(x); x != "" {
			parts = append(parts, x)
		}
	}
	return parts
}

// withCare are a dog's duties: its own that say when they are due, and the lines of its pattern that it has no duty of its own for
// and that it does not leave out, as many of them in one as are due together, for the same hands, and no longer than it stands.
func withCare(dog kennel.Dog, p kennel.Pattern) (all []kennel.Duty) {
	lines := brought(p)
	isLine := func(part string) bool {
		return slices.ContainsFunc(p.Finish, func(f kennel.FinishLine) bool { return strings.ToLower(f.Name) == part }) ||
			slices.ContainsFunc(lines, func(b broughtLine) bool { return strings.ToLower(b.name) == part })
	}
	gone := map[string]bool{}
	for _, own := range dog.Duties {
		parts := split(own.Name)
		timed := own.Every > 0 || own.Before != nil
		if timed && !own.LeaveOut {
			all = append(all, own)
		}
		foreign := !slices.ContainsFunc(parts, isLine)
		if timed && own.Care() && foreign {
			gone[careOfKept] = true
		}
		for i := range lines {
			b := &lines[i]
			switch {
			case !slices.Contains(parts, strings.ToLower(b.name)):
			case timed || own.LeaveOut:
				gone[b.name] = true
			default:
				if own.Minutes > 0 {
					b.minutes = float64(own.Minutes) / float64(len(parts))
				}
				b.done = max(b.done, own.Done)
			}
		}
	}
	type together struct {
		every, from, to int
		work            kennel.Skill
	}
	var made []kennel.Duty
	var of []together
	for _, b := range lines {
		if gone[b.name] {
			continue
		}
		key := together{b.every, b.from, b.to, b.work}
		at := -1
		for i := range made {
			if at < 0 && of[i] == key && (dog.Table.Minutes <= 0 || float64(made[i].Minutes)+b.minutes <= float64(dog.Table.Minutes)) {
				at = i
			}
		}
		if at >= 0 {
			made[at].Name += ", " + b.name
			made[at].Minutes += kennel.Minutes(b.minutes)
			made[at].Done = min(made[at].Done, b.done)
			continue
		}
		duty := kennel.Duty{Name: b.name, Minutes: kennel.Minutes(b.minutes), Every: kennel.Weeks(b.every), Work: b.work, Done: b.done}
		if b.every == 0 {
			duty.Before = &kennel.BeforeShow{From: b.from, To: b.to}
		}
		made, of = append(made, duty), append(of, key)
	}
	return append(all, made...)
}

// lasts is how many days before a show a duty may have been done and is still right, and whether it is one that the pattern has done
// before shows.
func (c *checker) lasts(d int, duty kennel.Duty) (days int, listed bool) {
	if duty.Before == nil {
		return 0, false
	}
	parts := split(duty.Name)
	listed, days = len(parts) > 0, math.MaxInt32
	for _, part := range parts {
		at := slices.IndexFunc(c.dogs[d].pattern.Finish, func(f kennel.FinishLine) bool { return strings.ToLower(f.Name) == part })
		if at < 0 {
			return duty.Before.From, false
		}
		days = min(days, int(math.Floor(c.dogs[d].pattern.Finish[at].Lasts.Value+0.5)))
	}
	return max(days, duty.Before.From), listed
}
