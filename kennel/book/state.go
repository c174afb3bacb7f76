package book

import (
	"cmp"
	"slices"

	"tuckup/kennel"
)

// State is all that a book holds: the kennel as it was told, and the records of the table.
type State struct {
	// Kennel holds the coats as they were last looked at; Now gives them moved by the work since.
	Kennel    kennel.Kennel
	Seen      []Seen
	Work      []Work
	Measures  []Measure
	Showables []Showable
	Sessions  []Session
	Photos    []Photo
	Plan      PlanInUse
}

// Work is one stretch of work with its number in the book. The number 0 is given by the book when it is written.
type Work struct {
	ID int64
	kennel.Work
}

// Measure is one length that was taken, with its number in the book.
type Measure struct {
	ID int64
	kennel.Measure
}

// Photo is one picture with its number in the book.
type Photo struct {
	ID int64
	kennel.Photo
}

// Showable is one note of hair that was long enough, with its number in the book.
type Showable struct {
	ID int64
	kennel.Showable
}

// Session is one session that was agreed, with its number in the book.
type Session struct {
	ID int64
	kennel.Session
	Work int64 // the number of the work that was done of it; 0 = not done
}

// Seen says when a coat was last looked at: the layers that the book holds were on the dog on that day.
type Seen struct {
	Dog  string
	Area kennel.AreaName // "" = the whole dog, but for areas with a line of their own
	On   kennel.Date
	Work int64 // work of the same day up to this number is in the layers already
}

// AllAreas stands for every area of a dog in Seen.
const AllAreas kennel.AreaName = ""

// Nothing reports whether the book holds nothing at all.
func (s State) Nothing() bool {
	k := s.Kennel
	return k.Name == "" && len(k.Hands)+len(k.Dogs)+len(k.Shows) == 0
}

// Looked notes that a coat was looked at on a day: the layers in s.Kennel are what was on the area then, and only
// work told from now on, or done on a later day, moves them. AllAreas is the whole dog.
func (s *State) Looked(dog string, area kennel.AreaName, on kennel.Date) {
	s.Seen = kept(s.Seen, func(x Seen) bool { return x.Dog != dog || x.Area != area && area != AllAreas })
	s.Seen = append(s.Seen, Seen{Dog: dog, Area: area, On: on, Work: s.lastWork()})
}

// lastWork is the highest number that work has in the book, or had when a coat was looked at.
func (s State) lastWork() (last int64) {
	for _, w := range s.Work {
		last = max(last, w.ID)
	}
	for _, x := range s.Seen {
		last = max(last, x.Work)
	}
	return last
}

// seenOn is when an area of a dog was last looked at.
func (s State) seenOn(dog string, area kennel.AreaName) (seen Seen) {
	for _, x := range s.Seen {
		if x.Dog == dog && (x.Area == area || x.Area == AllAreas && seen.Area == AllAreas) {
			seen = x
		}
	}
	return seen
}

// after reports whether work came after the coat was looked at.
func (x Seen) after(w Work) bool { return w.On > x.On || w.On == x.On && w.ID > x.Work }

// Now is the kennel with every coat moved by the work that was done since it was looked at, up to the day. Work on a
// dog whose pattern is not known moves nothing.
func (s State) Now(pats kennel.Patterns, on kennel.Date) kennel.Kennel {
	return s.moved(pats, on, true)
}

// AsPulled is the kennel with every coat as the days of its pulls alone make it: like Now, but what was seen of long layers corrects
// nothing. It is what records are held against to learn from them.
func (s State) AsPulled(pats kennel.Patterns, on kennel.Date) kennel.Kennel {
	return s.moved(pats, on, false)
}

// moved is the kennel with its coats moved by the work up to the day, and by what was seen before it if so wished.
func (s State) moved(pats kennel.Patterns, on kennel.Date, looks bool) kennel.Kennel {
	k := s.Kennel
	k.Dogs = slices.Clone(k.Dogs)
	s.moves(k.Dogs, pats, on, looks, func(kennel.Work, kennel.Dog, kennel.Work) {})
	return k
}

// EachWork calls visit for all work on dogs of the string up to the day (0 = all of it), in the order of its days: with the dog
// as it came to the table for it, as the days of its pulls make it, and what of the work is on areas of which the coat is known as it was
// then. Of the others, because they were looked at since, it is not.
func (s State) EachWork(pats kennel.Patterns, on kennel.Date, visit func(w kennel.Work, before kennel.Dog, known kennel.Work)) {
	s.moves(slices.Clone(s.Kennel.Dogs), pats, on, false, visit)
}

// inOrder is the work in the order of its days.
func (s State) inOrder() []Work {
	work := slices.Clone(s.Work)
	slices.SortStableFunc(work, func(x, y Work) int { return cmp.Or(cmp.Compare(x.On, y.On), cmp.Compare(x.ID, y.ID)) })
	return work
}

// moves moves the coats of the dogs by the work, and by what was seen before it if so wished, and calls visit before each.
func (s State) moves(dogs []kennel.Dog, pats kennel.Patterns, on kennel.Date, looks bool, visit func(w kennel.Work, before kennel.Dog, known kennel.Work)) {
	place := map[string]int{}
	for i, d := range dogs {
		place[d.Name] = i
	}
	type spot struct {
		dog  string
		area kennel.AreaName
	}
	seen := map[spot]Seen{}
	known := func(w Work, area kennel.AreaName) bool {
		at := spot{w.Dog, area}
		x, looked := seen[at]
		if !looked {
			x = s.seenOn(w.Dog, area)
			seen[at] = x
		}
		return x.after(w)
	}
	for _, w := range s.inOrder() {
		i, there := place[w.Dog]
		if !there || w.On > on && on != 0 {
			continue
		}
		counted := w.Work
		counted.Areas = kept(w.Areas, func(a kennel.Pulled) bool { return known(w, a.Area) })
		counted.Looks = kept(w.Looks, func(x kennel.Look) bool { return known(w, x.Area) })
		visit(w.Work, dogs[i], counted)
		if !looks {
			counted.Looks = nil
		}
		if len(counted.Areas)+len(counted.Looks) > 0 {
			dogs[i] = dogs[i].Worked(pats[dogs[i].Pattern], counted)
		}
	}
}

// Accepted are the sessions from the day on that were agreed and are not done yet.
func (s State) Accepted(from kennel.Date) (all []kennel.Session) {
	for _, x := range s.Sessions {
		if x.On >= from && x.Work == 0 {
			all = append(all, x.Session)
		}
	}
	return all
}

// Done is the work from the day on, up to another.
func (s State) Done(from, to kennel.Date) (all []kennel.Work) {
	for _, w := range s.Work {
		if w.On >= from && w.On <= to {
			all = append(all, w.Work)
		}
	}
	return all
}

// onlyOf keeps the records of some dogs.
func (s *State) onlyOf(keep func(dog string) bool) {
	s.Seen = kept(s.Seen, func(x Seen) bool { return keep(x.Dog) })
	s.Work = kept(s.Work, func(w Work) bool { return keep(w.Dog) })
	s.Measures = kept(s.Measures, func(m Measure) bool { return keep(m.Dog) })
	s.Showables = kept(s.Showables, func(x Showable) bool { return keep(x.Dog) })
	s.Sessions = kept(s.Sessions, func(x Session) bool { return keep(x.Dog) })
	s.Photos = kept(s.Photos, func(x Photo) bool { return keep(x.Dog) })
}

// kept is those that are to be kept, nil for none.
func kept[T any](all []T, keep func(T) bool) (some []T) {
	for _, x := range all {
		if keep(x) {
			some = append(some, x)
		}
	}
	return some
}

// DropWork takes one stretch of work out; what was agreed of it is to be done again. It reports whether there is work
// of that number.
func (s *State) DropWork(id int64) bool {
	n := len(s.Work)
	s.Work = kept(s.Work, func(w Work) bool { return w.ID != id })
	s.Sessions = slices.Clone(s.Sessions)
	for i := range s.Sessions {
		if s.Sessions[i].Work == id {
			s.Sessions[i].Work = 0
		}
	}
	return len(s.Work) < n
}

// Export is the kennel as a kennel file tells it: coats moved by all work in the book, duties with the day on which each was done last,
// and a first day to plan that is not before the work which moved the coats.
func (s State) Export(pats kennel.Patterns) kennel.Kennel {
	k := s.Now(pats, 0)
	for _, w := range s.Work {
		if len(w.Areas)+len(w.Looks) > 0 && k.PlanFrom != 0 {
			k.PlanFrom = max(k.PlanFrom, w.On)
		}
		if d := slices.IndexFunc(k.Dogs, func(d kennel.Dog) bool { return d.Name == w.Dog }); d >= 0 && w.Duty != "" {
			k.Dogs[d].DutyDone(pats[k.Dogs[d].Pattern], w.Duty, w.On)
		}
	}
	return k
}
