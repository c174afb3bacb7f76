package book

import (
	"fmt"
	"slices"

	"tuckup/kennel"
)

// Record writes down work that was done, and spends the session that was agreed for it: the dog's of the same day, else
// its only one of the days of that week up to it. It returns the session, nil when none was agreed.
func (s *State) Record(w kennel.Work) *Session {
	id := s.lastWork() + 1
	s.Work = append(s.Work, Work{ID: id, Work: w})
	if w.Duty != "" {
		return nil
	}
	i, _ := s.agreedFor(w.Dog, w.On)
	if i < 0 {
		return nil
	}
	s.Sessions = slices.Clone(s.Sessions)
	s.Sessions[i].Work = id
	return &s.Sessions[i]
}

// AgreedFor is the session of the dog that is agreed and not done yet for the day, else for an earlier day of its week.
// The error is a *kennel.InputError when there is none, or more than one of another day.
func (s *State) AgreedFor(dog string, on kennel.Date) (Session, error) {
	i, n := s.agreedFor(dog, on)
	switch {
	case i >= 0:
		return s.Sessions[i], nil
	case n > 1:
		return Session{}, &kennel.InputError{
			Field: "dog", Value: dog, What: fmt.Sprintf("has %d agreed sessions before %s that are not done", n, on), Try: "--on with the day of one of them",
		}
	}
	return Session{}, &kennel.InputError{
		Field: "dog", Value: dog, What: fmt.Sprintf("has no agreed session on %s or before it in that week", on),
		Try: "tuckup work add with what was pulled, or tuckup plan --accept first",
	}
}

// agreedFor is the place of the session, -1 for none, and how many of other days there are.
func (s *State) agreedFor(dog string, on kennel.Date) (place, others int) {
	place = -1
	for i, x := range s.Sessions {
		switch {
		case x.Dog != dog || x.Work != 0:
		case x.On == on:
			return i, 0
		case x.On < on && x.On >= on.Monday():
			place = i
			others++
		}
	}
	if others > 1 {
		return -1, others
	}
	return place, others
}

// agree takes sessions instead of those from the day on that were agreed and are neither done nor pinned.
func (s *State) agree(sessions []kennel.Session, on kennel.Date) {
	s.Sessions = kept(s.Sessions, func(x Session) bool { return x.On < on || x.Work != 0 || x.Pinned })
	for _, x := range sessions {
		pinned := slices.ContainsFunc(s.Sessions, func(o Session) bool {
			return o.Pinned && o.Work == 0 && o.Dog == x.Dog && o.On == x.On && o.Start == x.Start
		})
		if !pinned {
			s.Sessions = append(s.Sessions, Session{Session: x})
		}
	}
}

// DropSessions takes out the dog's sessions from the day on that were agreed and are not done.
func (s *State) DropSessions(dog string, from kennel.Date) {
	s.Sessions = kept(s.Sessions, func(x Session) bool { return x.Dog != dog || x.On < from || x.Work != 0 })
}

// LongHair is the long layer of each area of a dog's pattern that is pulled, as the dog comes to the table on a day; nil where the dog or its
// pattern is not known.
func (s State) LongHair(pats kennel.Patterns, dog string, on kennel.Date) map[kennel.AreaName]kennel.LongHair {
	one := s
	one.Kennel.Dogs = kept(s.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == dog })
	one.onlyOf(func(name string) bool { return name == dog })
	all := map[kennel.AreaName]kennel.LongHair{}
	for _, d := range one.Now(pats, on).Dogs {
		p := pats[d.Pattern]
		for _, a := range p.Areas {
			if !a.Kept {
				all[a.Name] = one.Kennel.LongHair(d, p, a, one.Done(on.Monday(), on), on)
			}
		}
	}
	return all
}
