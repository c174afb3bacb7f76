package planned

import (
	"regexp"
	"slices"
	"strings"
)

// Renamed is the record of a plan in which a dog has another name, and nothing else is changed. A record that can't be read stays as it is.
func Renamed(record []byte, dog, name string) []byte {
	return changed(record, func(r *Result) { r.rename(dog, name) })
}

// RenamedHands is Renamed for a pair of hands. Work that they did keeps the name that it was written down with.
func RenamedHands(record []byte, hands, name string) []byte {
	return changed(record, func(r *Result) { r.renameHands(hands, name) })
}

// changed is the record of a plan with a change, or as it is where it can't be read.
func changed(record []byte, change func(*Result)) []byte {
	if record == nil {
		return nil
	}
	r, err := Unpack(record)
	if err != nil {
		return record
	}
	change(&r)
	renamed, err := r.Pack()
	if err != nil {
		return record
	}
	return renamed
}

// rename gives a dog another name, in a result that nobody shares.
func (r *Result) rename(dog, name string) {
	to := func(s *string) {
		if *s == dog {
			*s = name
		}
	}
	r.Kennel.Rename(dog, name)
	for i := range r.Weeks {
		w := &r.Weeks[i]
		for d := range w.Dogs {
			to(&w.Dogs[d].Dog)
		}
		for d := range w.Duties {
			to(&w.Duties[d].Dog)
		}
	}
	for i := range r.Timetable.Days {
		for _, h := range r.Timetable.Days[i].Hands {
			for n := range h.Items {
				to(&h.Items[n].Dog)
			}
		}
	}
	for i := range r.Timetable.LeftOut {
		to(&r.Timetable.LeftOut[i].Dog)
	}
	for i := range r.Slipped {
		to(&r.Slipped[i].Dog)
	}
	for i := range r.Agreed {
		to(&r.Agreed[i].Dog)
	}
	for i := range r.Readiness {
		to(&r.Readiness[i].Dog)
	}
	for i := range r.Outlooks {
		to(&r.Outlooks[i].Dog)
	}
	for i := range r.Ways {
		to(&r.Ways[i].Dog)
	}
	for i := range r.Points {
		to(&r.Points[i].Dog)
	}
	if r.Tight != nil {
		to(&r.Tight.Dog)
	}
	r.Options.rename(dog, name)
	if r.Solved != nil {
		for d := range r.Solved.Problem.Dogs {
			to(&r.Solved.Problem.Dogs[d].Name)
		}
	}
	word := regexp.MustCompile(`(^|[^\pL\pN])` + regexp.QuoteMeta(dog) + `($|[^\pL\pN])`)
	for i := range r.Cannot {
		c := &r.Cannot[i]
		for _, s := range []*string{&c.What, &c.Why} {
			*s = word.ReplaceAllString(*s, "${1}"+strings.ReplaceAll(name, "$", "$$")+"${2}")
		}
	}
}

// renameHands gives a pair of hands another name, in a result that nobody shares.
func (r *Result) renameHands(hands, name string) {
	to := func(s *string) {
		all := strings.Split(*s, handsTogether)
		for i := range all {
			if all[i] == hands {
				all[i] = name
			}
		}
		*s = strings.Join(all, handsTogether)
	}
	for i := range r.Kennel.Hands {
		to(&r.Kennel.Hands[i].Name)
	}
	for _, w := range r.Weeks {
		for i := range w.Hands {
			to(&w.Hands[i].Hands)
		}
	}
	for _, d := range r.Timetable.Days {
		for i := range d.Hands {
			to(&d.Hands[i].Hands)
		}
	}
	for i := range r.Season.HourPrice {
		to(&r.Season.HourPrice[i].Hands)
	}
	if r.Tight != nil {
		to(&r.Tight.Hands)
	}
	for i := range r.Options.Accepted {
		to(&r.Options.Accepted[i].Hands)
	}
}

// handsTogether is between the names of hands that are counted together.
const handsTogether = " and "

func (o *Options) rename(dog, name string) {
	for i := range o.Accepted {
		if o.Accepted[i].Dog == dog {
			o.Accepted[i].Dog = name
		}
	}
	for i := range o.Done {
		if o.Done[i].Dog == dog {
			o.Done[i].Dog = name
		}
	}
	for i := range o.Over {
		if n := slices.Index(o.Over[i].Dogs, dog); n >= 0 {
			o.Over[i].Dogs[n] = name
		}
	}
	if sd, ok := o.GrowthSDs[dog]; ok {
		delete(o.GrowthSDs, dog)
		o.GrowthSDs[name] = sd
	}
}
