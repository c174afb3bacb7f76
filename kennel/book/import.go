package book

import (
	"reflect"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/text"
)

// Merge lays a kennel over what the book holds: its settings take the place of the book's, hands, dogs and shows take
// the place of those of the same name (a show of the same name and day) or are added; nothing goes. Coats that differ
// from what was told before were looked at on the day.
func (s *State) Merge(k kennel.Kennel, on kennel.Date) {
	b := &s.Kennel
	b.Name, b.PlanFrom, b.Weeks, b.TimeZone, b.Units, b.Dates = k.Name, k.PlanFrom, k.Weeks, k.TimeZone, k.Units, k.Dates
	b.Hands = laid(b.Hands, k.Hands, func(a, b kennel.Hands) bool { return same(a.Name, b.Name) })
	for _, d := range k.Dogs {
		s.putDog(d, on)
	}
	b.Shows = laid(b.Shows, k.Shows, func(a, b kennel.Show) bool { return a.On == b.On && same(a.Name, b.Name) })
	for i := range b.Shows { // dogs may be written with other capitals
		show := &b.Shows[i]
		show.Dogs = slices.Clone(show.Dogs)
		for j, d := range show.Dogs {
			for _, dog := range b.Dogs {
				if same(dog.Name, d) {
					show.Dogs[j] = dog.Name
				}
			}
		}
	}
}

// Replace takes the kennel instead of the book's own. Records of dogs that the kennel does not have go; a coat that
// differs from what was told before was looked at on the day.
func (s *State) Replace(k kennel.Kennel, on kennel.Date) {
	s.onlyOf(func(dog string) bool {
		return slices.ContainsFunc(k.Dogs, func(d kennel.Dog) bool { return d.Name == dog })
	})
	was := s.Kennel
	s.Kennel = k.Clone()
	for _, d := range s.Kennel.Dogs {
		i := slices.IndexFunc(was.Dogs, func(o kennel.Dog) bool { return o.Name == d.Name })
		if i < 0 || !sameCoat(was.Dogs[i], d) {
			s.Looked(d.Name, AllAreas, on)
		}
	}
}

// putDog puts a dog over the one of its name, or behind all others. A dog of other capitals keeps its name.
func (s *State) putDog(d kennel.Dog, on kennel.Date) {
	i := slices.IndexFunc(s.Kennel.Dogs, func(o kennel.Dog) bool { return same(o.Name, d.Name) })
	if i < 0 {
		s.Kennel.Dogs = append(s.Kennel.Dogs, d)
		s.Looked(d.Name, AllAreas, on)
		return
	}
	d.Name = s.Kennel.Dogs[i].Name
	if !sameCoat(s.Kennel.Dogs[i], d) {
		s.Looked(d.Name, AllAreas, on)
	}
	s.Kennel.Dogs[i] = d
}

// sameCoat reports whether two dogs are told to have the same on them.
func sameCoat(a, b kennel.Dog) bool {
	return slices.Equal(a.All, b.All) && (len(a.Areas)+len(b.Areas) == 0 || reflect.DeepEqual(a.Areas, b.Areas))
}

// laid is b laid over a: each of b takes the place of what is the same in a, or is added.
func laid[T any](a, b []T, same func(T, T) bool) []T {
	all := slices.Clone(a)
	for _, x := range b {
		if i := slices.IndexFunc(all, func(o T) bool { return same(o, x) }); i >= 0 {
			all[i] = x
		} else {
			all = append(all, x)
		}
	}
	return all
}

func same(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// Rows lays the rows of a table or a calendar over what the book holds; what a row does not tell stays as it is, or as
// it usually is. fresh completes a show that the book did not have; nil leaves it as it is. The error names the row.
func (s *State) Rows(rows text.Rows, file string, on kennel.Date, fresh func(*kennel.Show)) error {
	for _, r := range rows.Dogs {
		d := kennel.UsualDog()
		if i := slices.IndexFunc(s.Kennel.Dogs, func(o kennel.Dog) bool { return same(o.Name, r.Name) }); i >= 0 {
			d = s.Kennel.Dogs[i]
		} else {
			d.Name = r.Name
		}
		r.Set(&d)
		s.putDog(d, on)
	}
	for _, r := range rows.Shows {
		show := kennel.UsualShow()
		show.Name, show.On = r.Name, r.On
		i := slices.IndexFunc(s.Kennel.Shows, func(o kennel.Show) bool { return o.On == r.On && same(o.Name, r.Name) })
		if i >= 0 {
			show = s.Kennel.Shows[i]
		}
		r.Set(&show)
		if i < 0 && fresh != nil {
			fresh(&show)
		}
		dogs, err := s.Kennel.FindDogs(show.Dogs)
		if err != nil {
			return placed(err, file, r.Line)
		}
		show.Dogs = dogs
		if i >= 0 {
			s.Kennel.Shows[i] = show
		} else {
			s.Kennel.Shows = append(s.Kennel.Shows, show)
		}
	}
	return nil
}
