package desk

import (
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	plans "tuckup/optimize/planned"
)

// handsSaveVerb saves who somebody is, the hours and the work, or adds another pair of hands.
func handsSaveVerb(f *form, was string) func(*book.State) (string, error) {
	hands := f.toHands()
	return func(s *book.State) (string, error) {
		what := "set the hours of " + hands.Name
		if was == "" {
			s.Begin()
			s.Kennel.Hands = append(slices.Clone(s.Kennel.Hands), hands)
			return what, nil
		}
		i := slices.Index(s.Kennel.HandsNames(), was)
		if i < 0 {
			return "", notInBook(was, "to add them as new hands")
		}
		if was != hands.Name {
			renameHands(s, was, hands.Name)
		}
		s.Kennel.Hands = slices.Clone(s.Kennel.Hands)
		hands.Away = s.Kennel.Hands[i].Away
		s.Kennel.Hands[i] = hands
		return what, nil
	}
}

// renameHands gives hands another name in the book and in its plan.
func renameHands(s *book.State, was, name string) {
	s.RenameHands(was, name)
	s.Plan.Result = plans.RenamedHands(s.Plan.Result, was, name)
}

// weekHours are the hours by weekday that a form says.
func (f *form) weekHours() (all [kennel.DaysAWeek]kennel.Hours) {
	for day := range kennel.DaysAWeek {
		key := kennel.Weekday(day).Key()
		words := f.get(key)
		if words == "" {
			continue
		}
		v, err := fields.HoursADay.Read(words)
		hours, _ := parsed(f, key, v, err).(float64)
		if all[day] = kennel.Hours(hours); !kennel.HoursBounds.Has(hours) {
			f.wrong(key, "must be "+kennel.HoursBounds.Words())
		}
	}
	return all
}

// weekdayFields are the fields of the hours by weekday.
func weekdayFields(f *form) (all []fieldView) {
	for day := range kennel.DaysAWeek {
		name := []string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}[day]
		all = append(all, newField(f, kennel.Weekday(day).Key(), name, "mode=decimal"))
	}
	return all
}

func (f *form) toHands() (h kennel.Hands) {
	readFields(f, formFields(fields.Hands), kennel.Hands{}, &h)
	h.Hours = f.weekHours()
	does := f.Values["does"]
	if len(does) == 0 {
		f.wrong("does", "is missing: which work these hands may do")
	}
	if len(does) < len(kennel.Skills()) {
		for _, s := range does {
			h.Does = append(h.Does, kennel.Skill(s))
		}
	}
	return h
}
