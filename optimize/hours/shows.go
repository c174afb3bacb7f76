package hours

import (
	"fmt"

	"tuckup/kennel"
)

// NextShow is the dog's first show on or after the Monday of week t, also one after the season planned.
func (d Diary) NextShow(dog, t int) (next kennel.Show, ok bool) {
	for _, s := range d.kennel.Shows {
		if s.Has(d.kennel.Dogs[dog].Name) && s.On >= max(d.On, d.Monday(t)) && DayNotInHand(d.kennel.Dogs[dog], s) == 0 &&
			(!ok || s.On < next.On) {
			next, ok = s, true
		}
	}
	return next, ok
}

// WorkFor says in a few words what a dog's work of week t is for: its next show, called as it is to be named, or rolling.
func (d Diary) WorkFor(dog, t int, named func(kennel.Show) string) string {
	s, ok := d.NextShow(dog, t)
	if !ok {
		return "keep rolling"
	}
	name := named(s)
	if !s.Entered() {
		name += " (hoped for)"
	}
	switch n := kennel.WeekOf(s.On, d.Week0) - t; n {
	case 0:
		return name + " this week"
	case 1:
		return name + " in 1 week"
	default:
		return fmt.Sprintf("%s in %d weeks", name, n)
	}
}
