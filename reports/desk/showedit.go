package desk

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
)

// showFields are the names that the form has for what the book says of a show.
var showFields = named(fields.Show, map[string]string{"away": "away_to", "to": "away_to", "dogs": "dogs"})

func (f *form) fillShow(s kennel.Show) {
	fillFields(f, fields.Show, s)
	if s.Away != nil {
		f.set("away_from", s.Away.From.String())
		f.set("away_to", s.Away.To.String())
	}
	f.Values["dogs"] = slices.Clone(s.Dogs)
}

// leaving is the form of a show without one of its dogs, which the form that was sent asks for.
func (f *form) leaving(l look) (*form, error) {
	i, ok := showByKey(l.state.Kennel, f.get("was"))
	if !ok {
		return nil, notFound("show")
	}
	s := l.state.Kennel.Shows[i]
	if !s.Has(f.get("dog")) {
		return nil, notFound("dog at that show")
	}
	s.Dogs = slices.DeleteFunc(slices.Clone(s.Dogs), func(dog string) bool { return dog == f.get("dog") })
	n := newForm(f.ID, f.Version)
	n.Key = f.Key
	n.fillShow(s)
	n.set("was", f.get("was"))
	n.set("do", doBare) // its last dog may leave, too: the show stays without dogs
	return n, nil
}

// showEdit is the change that the form asks for; false when something is wrong in it.
func (f *form) showEdit(l look) (e edit, ok bool) {
	was := f.get("was")
	e = edit{version: f.Version, about: func(s book.State) []fact { return showFacts(s.Kennel, was) }}
	if strings.HasSuffix(f.get("do"), "drop") {
		e.do = func(s *book.State) (string, error) {
			i, ok := showByKey(s.Kennel, was)
			if !ok {
				return "", notFound("show")
			}
			return s.DropShow(s.Kennel.Shows[i].Name, s.Kennel.Shows[i].On)
		}
		return e, true
	}
	show := f.toShow()
	ask := f.question(show, showWas(l.state.Kennel, was), l.today)
	if dayAsked := ask != nil && show.Odd(l.today).Past; !dayAsked { // else its days are held against the one that is the answer
		f.checkShow(show, l.state.Kennel.Dogs)
	}
	e.do = func(s *book.State) (string, error) {
		if was == "" {
			return s.AddShow(show), nil
		}
		i, ok := showByKey(s.Kennel, was)
		if !ok {
			return "", notInBook(show.Name, "to add it as a new show")
		}
		if before := s.Kennel.Shows[i].Away; show.Away != nil && before != nil {
			show.Away.Why = before.Why
		}
		s.Kennel.Shows = slices.Clone(s.Kennel.Shows)
		s.Kennel.Shows[i] = show
		return fmt.Sprintf("changed the show %s on %s", show.Name, show.On), nil
	}
	if !f.Bad() {
		f.Question = ask
	}
	return e, !f.Bad()
}

// checkShow notes what the kennel's own checks say of a show, before anything is asked about it.
func (f *form) checkShow(s kennel.Show, dogs []kennel.Dog) {
	if f.Bad() {
		return
	}
	for _, p := range kennel.Problems(kennel.Kennel{Dogs: dogs, Shows: []kennel.Show{s}}, nil) {
		if strings.HasPrefix(p.Field, "shows") {
			_ = f.take(p, showFields) // it is about what was typed, so it stands in the form now
		}
	}
}

// toShow is the show that the form says.
func (f *form) toShow() (s kennel.Show) {
	readFields(f, formFields(fields.Show), kennel.UsualShow(), &s)
	s.Dogs = slices.Clone(f.Values["dogs"])
	from, to := f.date("away_from", false), f.date("away_to", false)
	if from == 0 && to == 0 {
		return s
	}
	away := s.AwayDays()
	away.Why = ""
	if from != 0 {
		away.From = from
	}
	if to != 0 {
		away.To = to
	}
	s.Away = &away
	return s
}

// showWas is the show with the key, nothing where there is none.
func showWas(k kennel.Kennel, key string) kennel.Show {
	if i, ok := showByKey(k, key); ok {
		return k.Shows[i]
	}
	return kennel.Show{}
}

// showFacts are what is told of the show with the key.
func showFacts(k kennel.Kennel, key string) []fact {
	if key == "" {
		return nil // a new show is nobody else's
	}
	i, ok := showByKey(k, key)
	if !ok {
		return []fact{{key, "is not in the book"}}
	}
	s := k.Shows[i]
	away := s.AwayDays()
	return append(factsOf(fields.Show, s), fact{"away", away.From.String() + " to " + away.To.String()}, fact{"dogs", strings.Join(s.Dogs, ", ")})
}
