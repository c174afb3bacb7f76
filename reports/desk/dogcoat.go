package desk

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogCoatVerb saves what is on an area, or on all of the dog, as it was seen.
func dogCoatVerb(f *form, l look, dog kennel.Dog) dogChange {
	area := kennel.AreaName(f.get("area"))
	if area != book.AllAreas && !slices.Contains(kennel.AreaNames(), area) {
		f.wrong("area", "is not an area of the coat")
	}
	seen := f.date("seen", true)
	if seen > l.today {
		f.wrong("seen", "is after today")
	}
	words, at := f.coatWords()
	if len(words) == 0 {
		f.wrong("coat", "is missing: shares with the days of their last pull, like 0.6 2026-09-20 0.4 2026-12-01")
	}
	if f.Bad() {
		return nil
	}
	layers, err := kennel.ParseCoat(area, words)
	layers = parsed(f, at, layers, err)
	notAfter(f, at, layers, seen)
	return func(s *book.State, x *kennel.Dog) (string, error) {
		what := string(area)
		if area == book.AllAreas {
			what = "all"
		}
		x.SetLayers(area, layers)
		s.Looked(dog.Name, area, seen)
		return fmt.Sprintf("looked at the coat of %s on %s: %s", dog.Name, seen, what), nil
	}
}

// notAfter notes layers that were pulled after the day on which they are seen.
func notAfter(f *form, name string, layers []kennel.Layer, seen kennel.Date) {
	for _, x := range layers {
		if x.Pulled > seen {
			f.wrong(name, fmt.Sprintf("hair pulled on %s can't be seen on %s", x.Pulled, seen))
		}
	}
}
