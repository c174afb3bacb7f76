package book

import (
	"fmt"
	"slices"

	"tuckup/kennel"
)

// UsualName is what a kennel is called until somebody names it.
const UsualName = "Kennel"

// Begin gives a book that holds nothing yet what every kennel has.
func (s *State) Begin() {
	if s.Nothing() && s.Kennel.Units == "" {
		s.Kennel.Name, s.Kennel.Units = UsualName, kennel.UnitsMillimetres
	}
}

// AddDog adds a dog whose coat was looked at on the day. Like the other operations it returns what was done, for the history.
func (s *State) AddDog(d kennel.Dog, on kennel.Date) (what string) {
	s.Kennel.Dogs = append(slices.Clone(s.Kennel.Dogs), d)
	s.Looked(d.Name, AllAreas, on)
	return "added the dog " + d.Name
}

// RetireDog ends a dog's time in hand with the day: it comes off the shows after it, and what was agreed for later goes. Its records
// stay. The error is a *kennel.InputError.
func (s *State) RetireDog(dog string, last kennel.Date) (what string, err error) {
	if _, err := s.Kennel.Retire(dog, last); err != nil {
		return "", err
	}
	s.DropSessions(dog, last.AddDays(1))
	return "retired the dog " + dog, nil
}

// RenameDog gives a dog another name wherever it is written.
func (s *State) RenameDog(dog, name string) {
	s.Kennel.Rename(dog, name)
	s.Seen = renamed(s.Seen, dog, name, func(x *Seen) *string { return &x.Dog })
	s.Work = renamed(s.Work, dog, name, func(x *Work) *string { return &x.Dog })
	s.Measures = renamed(s.Measures, dog, name, func(x *Measure) *string { return &x.Dog })
	s.Showables = renamed(s.Showables, dog, name, func(x *Showable) *string { return &x.Dog })
	s.Sessions = renamed(s.Sessions, dog, name, func(x *Session) *string { return &x.Dog })
	s.Photos = renamed(s.Photos, dog, name, func(x *Photo) *string { return &x.Dog })
}

// RenameHands gives a pair of hands another name, with the sessions that were agreed for them. Work that they did keeps the
// name that it was written down with.
func (s *State) RenameHands(hands, name string) {
	s.Kennel.Hands = renamed(s.Kennel.Hands, hands, name, func(x *kennel.Hands) *string { return &x.Name })
	s.Sessions = renamed(s.Sessions, hands, name, func(x *Session) *string { return &x.Hands })
}

// renamed is the list with another name wherever the one stands.
func renamed[T any](list []T, from, to string, at func(*T) *string) []T {
	list = slices.Clone(list)
	for i := range list {
		if name := at(&list[i]); *name == from {
			*name = to
		}
	}
	return list
}

// DropHands takes out a pair of hands. What was agreed for them stays until it is planned again. The error is a *kennel.InputError.
func (s *State) DropHands(name string) (what string, err error) {
	i := slices.Index(s.Kennel.HandsNames(), name)
	if i < 0 {
		return "", gone("hands", name)
	}
	s.Kennel.Hands = slices.Delete(slices.Clone(s.Kennel.Hands), i, i+1)
	return "dropped the hands " + name, nil
}

// GoAway keeps days of a pair of hands free of work. The error is a *kennel.InputError.
func (s *State) GoAway(name string, days kennel.Span) (what string, err error) {
	h, err := s.handsNamed(name)
	if err != nil {
		return "", err
	}
	h.Away = append(slices.Clone(h.Away), days)
	return fmt.Sprintf("%s is away from %s to %s", name, days.From, days.To), nil
}

// ComeBack takes back the days away that begin on the day. The error is a *kennel.InputError.
func (s *State) ComeBack(name string, from kennel.Date) (what string, err error) {
	h, err := s.handsNamed(name)
	if err != nil {
		return "", err
	}
	n := len(h.Away)
	h.Away = slices.DeleteFunc(slices.Clone(h.Away), func(x kennel.Span) bool { return x.From == from })
	if len(h.Away) == n {
		return "", &kennel.InputError{
			What: fmt.Sprintf("%s has no days away that begin on %s", name, from), Try: "tuckup hours list for the days away",
		}
	}
	return fmt.Sprintf("%s is not away from %s", name, from), nil
}

func (s *State) handsNamed(name string) (*kennel.Hands, error) {
	i := slices.Index(s.Kennel.HandsNames(), name)
	if i < 0 {
		return nil, gone("hands", name)
	}
	s.Kennel.Hands = slices.Clone(s.Kennel.Hands)
	return &s.Kennel.Hands[i], nil
}

// AddShow adds a show.
func (s *State) AddShow(show kennel.Show) (what string) {
	s.Kennel.Shows = append(slices.Clone(s.Kennel.Shows), show)
	return fmt.Sprintf("added the show %s on %s", show.Name, show.On)
}

// DropShow takes out a show with its days of travelling. The error is a *kennel.InputError.
func (s *State) DropShow(name string, on kennel.Date) (what string, err error) {
	i := slices.IndexFunc(s.Kennel.Shows, func(x kennel.Show) bool { return x.Name == name && x.On == on })
	if i < 0 {
		return "", gone("show", name)
	}
	s.Kennel.Shows = slices.Delete(slices.Clone(s.Kennel.Shows), i, i+1)
	return fmt.Sprintf("dropped the show %s on %s", name, on), nil
}

// gone says that a thing is not in the book.
func gone(what, name string) error {
	return &kennel.InputError{Field: what, Value: name, What: "is not in the book any more", Try: "the list of what there is"}
}
