package kennel

import (
	"fmt"
	"slices"
)

// UsualDog is a dog of which nothing is said yet but what most dogs are: 12 minutes of set-up, sessions of 75 minutes
// twice a week, and 1 for priority, growth and pace. Common practice, no source.
func UsualDog() Dog {
	const setUp, session, aWeek = 12, 75, 2
	return Dog{Coat: Coat{Growth: 1, Pace: 1}, Table: Table{SetUp: setUp, Minutes: session, AWeek: aWeek}, Priority: 1}
}

// UsualShow is a show of which nothing is said yet: one day that is entered and matters as much as any.
func UsualShow() Show { return Show{Days: 1, Weight: 1, Chance: 1} }

// Retire ends a dog's time in hand with the day, and takes it off the shows after it. Its records stay. It returns the
// shows that it was taken off.
func (k *Kennel) Retire(dog string, last Date) (off []Show, err error) {
	i, err := k.FindDog(dog)
	if err != nil {
		return nil, err
	}
	d := &k.Dogs[i]
	var here []Span
	for _, s := range d.Here {
		if s.From <= last {
			if s.To == 0 || s.To > last {
				s.To = last
			}
			here = append(here, s)
		}
	}
	switch {
	case len(here) > 0:
		d.Here = here
	case len(d.Here) > 0:
		return nil, &InputError{
			Field: "dog", Value: d.Name, What: fmt.Sprintf("is not in hand before %s", d.Here[0].From), Try: "a later day",
		}
	default:
		d.Here = []Span{{To: last}}
	}
	k.Shows = slices.Clone(k.Shows)
	for j := range k.Shows {
		if s := &k.Shows[j]; s.On > last && s.Has(d.Name) {
			s.Dogs = slices.DeleteFunc(slices.Clone(s.Dogs), func(n string) bool { return n == d.Name })
			off = append(off, *s)
		}
	}
	return off, nil
}

// Gone reports whether the dog is out of hand for good before the day.
func (d Dog) Gone(on Date) bool {
	for _, s := range d.Here {
		if s.To == 0 || s.To >= on {
			return false
		}
	}
	return len(d.Here) > 0
}

// InHand is the kennel without the dogs that are gone by the day and without shows that are over.
func (k Kennel) InHand(on Date) Kennel {
	k = k.Clone()
	gone := map[string]bool{}
	k.Dogs = slices.DeleteFunc(k.Dogs, func(d Dog) bool {
		gone[d.Name] = d.Gone(on)
		return gone[d.Name]
	})
	k.Shows = slices.DeleteFunc(k.Shows, func(s Show) bool { return s.Last() < on })
	for i := range k.Shows {
		k.Shows[i].Dogs = slices.DeleteFunc(k.Shows[i].Dogs, func(d string) bool { return gone[d] })
	}
	return k
}

// Rename gives a dog another name, on its shows too.
func (k *Kennel) Rename(dog, name string) {
	k.Dogs = slices.Clone(k.Dogs)
	for i := range k.Dogs {
		if k.Dogs[i].Name == dog {
			k.Dogs[i].Name = name
		}
	}
	k.Shows = slices.Clone(k.Shows)
	for i := range k.Shows {
		s := &k.Shows[i]
		s.Dogs = slices.Clone(s.Dogs)
		for j := range s.Dogs {
			if s.Dogs[j] == dog {
				s.Dogs[j] = name
			}
		}
	}
}

// SetLayers tells what is on an area of the dog; "" is every area that has no layers of its own, and takes those away
// that areas have. No layers take the area's own away.
func (d *Dog) SetLayers(a AreaName, layers []Layer) {
	if a == "" {
		d.All, d.Areas = layers, nil
		return
	}
	d.Areas = slices.Clone(d.Areas)
	if len(layers) == 0 {
		d.Areas = slices.DeleteFunc(d.Areas, func(c AreaCoat) bool { return c.Area == a })
		return
	}
	d.setLayers(a, layers)
}

// DropDuty takes a duty off the dog, whatever its capitals.
func (d *Dog) DropDuty(name string) {
	d.Duties, _ = without(d.Duties, func(x Duty) bool { return folded(x.Name) == folded(name) })
}

// SetSpell gives the dog a spell, in place of one of its kind that begins on the same day.
func (d *Dog) SetSpell(s Spell) {
	d.Spells = slices.DeleteFunc(slices.Clone(d.Spells), func(o Spell) bool { return o.From == s.From && o.What == s.What })
	d.Spells = append(d.Spells, s)
}

// DropSpells takes the spells off the dog that begin on the day, and reports whether there was one.
func (d *Dog) DropSpells(from Date) (dropped bool) {
	d.Spells, dropped = without(d.Spells, func(s Spell) bool { return s.From == from })
	return dropped
}

// without is a list without some of what is in it, nil where nothing is left, and whether there was any of it.
func without[T any](all []T, gone func(T) bool) (left []T, dropped bool) {
	left = slices.DeleteFunc(slices.Clone(all), gone)
	if dropped = len(left) < len(all); len(left) == 0 {
		return nil, dropped
	}
	return left, dropped
}

// DutyDone notes that a duty was done on the day: on the dog's own of that name, or, where its pattern brings what was done, in a line
// that says no more than that. It keeps the last.
func (d *Dog) DutyDone(p Pattern, name string, on Date) {
	d.Duties = slices.Clone(d.Duties)
	for i := range d.Duties {
		if x := &d.Duties[i]; folded(x.Name) == folded(name) {
			x.Done = max(x.Done, on)
			return
		}
	}
	if p.Brings(name) {
		d.Duties = append(d.Duties, Duty{Name: name, Done: on})
	}
}

// DutyNames are the names of the dog's duties in their order.
func (d Dog) DutyNames() []string { return namesOf(d.Duties, func(x Duty) string { return x.Name }) }

// DutyMinutes is how long a duty takes, 0 for one that the dog does not have.
func (d Dog) DutyMinutes(name string) Minutes {
	for _, x := range d.Duties {
		if x.Name == name {
			return x.Minutes
		}
	}
	return 0
}
