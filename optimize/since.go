package optimize

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"tuckup/kennel"
)

// since says in words what has changed since a plan was made, in the order in which people look for it: shows, dogs, coats, work, hours,
// settings. Work that was done as planned, days gone by and shows that are over are no change.
func since(r Result, now Now) (all []string) {
	on := max(now.On, r.On)
	was, is := r.Kennel.InHand(on), now.Kennel
	all = append(all, showsSince(was, is, on)...)
	all = append(all, dogsSince(r, was, now)...)
	for _, h := range is.Hands {
		i := slices.IndexFunc(was.Hands, func(o kennel.Hands) bool { return o.Name == h.Name })
		switch {
		case i < 0:
			all = append(all, h.Name+" is new")
		case !same(h, was.Hands[i]):
			all = append(all, "hours or days away of "+h.Name)
		}
	}
	for _, h := range was.Hands {
		if !slices.ContainsFunc(is.Hands, func(o kennel.Hands) bool { return o.Name == h.Name }) {
			all = append(all, h.Name+" is gone")
		}
	}
	if was.Weeks != is.Weeks {
		all = append(all, "the length of the season")
	}
	if !same(settingsOf(r.Options), settingsOf(now.Options)) {
		all = append(all, "settings")
	}
	return all
}

func showsSince(was, is kennel.Kennel, on kennel.Date) (all []string) {
	named := func(s kennel.Show) string { return fmt.Sprintf("%s on %s", s.Name, s.On.Time().Format("2 January")) }
	left := slices.Clone(was.Shows)
	for _, s := range is.Shows {
		if s.Last() < on {
			continue
		}
		i := slices.IndexFunc(left, func(o kennel.Show) bool { return o.Name == s.Name && o.On == s.On })
		if i < 0 {
			if i = slices.IndexFunc(left, func(o kennel.Show) bool {
				return o.Name == s.Name && !slices.ContainsFunc(is.Shows, func(x kennel.Show) bool { return x.Name == o.Name && x.On == o.On })
			}); i >= 0 {
				all = append(all, fmt.Sprintf("%s moved to %s", s.Name, s.On.Time().Format("2 January")))
				left = slices.Delete(left, i, i+1)
				continue
			}
			all = append(all, named(s)+" is new")
			continue
		}
		if !same(s, left[i]) {
			all = append(all, named(s)+" was changed")
		}
		left = slices.Delete(left, i, i+1)
	}
	for _, s := range left {
		if s.Last() >= on {
			all = append(all, named(s)+" was dropped")
		}
	}
	return all
}

func dogsSince(r Result, was kennel.Kennel, now Now) (all []string) {
	on := max(now.On, r.On)
	work := r.WorkSince(now.Done, on)
	type pair struct{ was, is string }
	patterns := map[pair]bool{} // whether they are the same: many dogs have one pattern
	samePattern := func(was, is string) bool {
		so, known := patterns[pair{was, is}]
		if !known {
			so = same(now.Patterns[is], r.Patterns[was])
			patterns[pair{was, is}] = so
		}
		return so
	}
	for _, d := range now.Kennel.Dogs {
		i := slices.IndexFunc(was.Dogs, func(o kennel.Dog) bool { return o.Name == d.Name })
		if i < 0 {
			all = append(all, d.Name+" is new")
			continue
		}
		o := was.Dogs[i]
		p := now.Patterns[d.Pattern]
		if !same(factsOf(d), factsOf(o)) || !samePattern(o.Pattern, d.Pattern) {
			all = append(all, d.Name+" was changed")
			continue
		}
		for _, w := range work {
			w.Looks = nil // what was seen otherwise than the book had it is a change
			o = o.Worked(p, w)
		}
		if !sameCoat(d, o, p) {
			all = append(all, "the coat of "+d.Name)
		} else if doneOtherwise(r, d, p, work, on) {
			all = append(all, "work on "+d.Name+" that was not planned")
		}
	}
	for _, d := range was.Dogs {
		if !slices.ContainsFunc(now.Kennel.Dogs, func(o kennel.Dog) bool { return o.Name == d.Name }) {
			all = append(all, d.Name+" is gone")
		}
	}
	return all
}

// factsOf is what a plan is made from of a dog, without its coat and what only people read.
func factsOf(d kennel.Dog) kennel.Dog {
	d.All, d.Areas, d.Owner, d.RingName = nil, nil, "", ""
	d.Outlines = slices.Clone(d.Outlines)
	for i := range d.Outlines {
		d.Outlines[i].Note = ""
	}
	d.Outlines = slices.DeleteFunc(d.Outlines, func(o kennel.Outline) bool { return o.Least == 0 })
	return d
}

// sameShare is how far two shares may be apart and be the same to a coat.
const sameShare = 1e-6

func sameCoat(a, b kennel.Dog, p kennel.Pattern) bool {
	for _, area := range p.Areas {
		x, y := a.LayersOf(area), b.LayersOf(area)
		if !slices.EqualFunc(x, y, func(x, y kennel.Layer) bool {
			return x.Pulled == y.Pulled && math.Abs(float64(x.Share-y.Share)) <= sameShare
		}) {
			return false
		}
	}
	return true
}

// doneOtherwise reports whether more than a crumb was pulled of the dog than the plan had up to the day.
func doneOtherwise(r Result, d kennel.Dog, p kennel.Pattern, work []kennel.Work, on kennel.Date) bool {
	more := map[kennel.AreaName]kennel.Share{}
	for _, w := range work {
		if w.Dog == d.Name {
			for _, a := range w.Areas {
				more[a.Area] += a.Share
			}
		}
	}
	for _, s := range r.SessionsUpTo(on) {
		if s.Dog == d.Name {
			for _, a := range s.Areas {
				more[a.Area] -= a.Share
			}
		}
	}
	var minutes kennel.Minutes
	for name, share := range more {
		if area, ok := p.Area(name); ok && share > 0 {
			minutes += kennel.Minutes(float64(share) * area.Minutes.Value * factor(d.Coat.Pace))
		}
	}
	return minutes >= max(r.Options.CrumbTime, 1)
}

// settingsOf are the settings that a person sets and that change a plan.
func settingsOf(o Options) Options {
	o = o.Still()
	o.On, o.Accepted, o.Over, o.Done, o.GrowthSDs, o.Seed, o.TimeLimit = 0, nil, nil, nil, nil, 0, 0
	o.Missed = 0 // learned from the records as they come
	return o
}

// same compares as a person does: a list of nothing is no list.
func same[T any](a, b T) bool { return sameValue(reflect.ValueOf(a), reflect.ValueOf(b)) }

func sameValue(a, b reflect.Value) bool {
	switch a.Kind() {
	case reflect.Slice:
		if a.Len() != b.Len() {
			return false
		}
		for i := range a.Len() {
			if !sameValue(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	case reflect.Struct:
		for i := range a.NumField() {
			if !sameValue(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Pointer:
		if a.IsNil() || b.IsNil() {
			return a.IsNil() == b.IsNil()
		}
		return sameValue(a.Elem(), b.Elem())
	case reflect.Func:
		return a.IsNil() == b.IsNil()
	}
	return reflect.DeepEqual(a.Interface(), b.Interface())
}
