package desk

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogMeasureVerb writes down a length that was taken.
func dogMeasureVerb(f *form, l look, dog kennel.Dog) dogChange {
	on := f.date("measured_on", true)
	if on > l.today {
		f.wrong("measured_on", "is after today")
	}
	m := f.toMeasure(l, kennel.Work{Dog: dog.Name, On: on})
	if m == nil {
		if !f.Bad() {
			f.wrong("length", "is missing: the length that was taken")
		}
		return nil
	}
	m.Note = f.get("note")
	measure := *m
	return func(s *book.State, _ *kennel.Dog) (string, error) {
		s.Measures = append(slices.Clone(s.Measures), book.Measure{Measure: measure})
		return fmt.Sprintf("measured the %s of %s on %s", measure.Area, dog.Name, on), nil
	}
}
