package desk

import (
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	plans "tuckup/optimize/planned"
)

var dogThing = fields.Dog

func (f *form) fillDog(dog kennel.Dog) {
	fillFields(f, dogThing, dog)
	if n := len(dog.Here); n > 0 {
		f.set("from", dog.Here[n-1].From.String())
		f.set("to", dog.Here[n-1].To.String())
	}
}

// dogFactsVerb saves what is given of the dog and its table, and its last run of days in hand.
func dogFactsVerb(f *form, _ look, dog kennel.Dog) dogChange {
	var said kennel.Dog
	readFields(f, formFields(dogThing), kennel.UsualDog(), &said)
	here := f.lastDays(dog.Here)
	return func(s *book.State, x *kennel.Dog) (string, error) {
		for _, a := range formFields(dogThing) {
			if a.Name() != "name" {
				a.Set(x, a.Get(&said))
			}
		}
		x.Here = here
		if said.Name != dog.Name {
			s.RenameDog(dog.Name, said.Name)
			s.Plan.Result = plans.Renamed(s.Plan.Result, dog.Name, said.Name)
		}
		return "changed the dog " + dog.Name, nil
	}
}

// lastDays are the days in hand with the last run as the form has it; the note on them stays.
func (f *form) lastDays(was []kennel.Span) []kennel.Span {
	from, to := f.date("from", false), f.date("to", false)
	n := len(was)
	if from == 0 && to == 0 {
		if n == 1 {
			return nil
		}
		return was
	}
	last := kennel.Span{}
	if n > 0 {
		last = was[n-1]
	}
	last.From, last.To = from, to
	return append(slices.Clone(was[:max(0, n-1)]), last)
}

// dogFacts are what is told of a dog.
func dogFacts(s book.State, name string) (all []fact) {
	for _, d := range s.Kennel.Dogs {
		if d.Name != name {
			continue
		}
		all = factsOf(dogThing, d)
		f := newForm("", 0)
		f.fillDog(d)
		all = append(all, fact{"from", f.get("from")}, fact{"to", f.get("to")}, fact{"coat", layersWords(d.All)})
		for _, a := range d.Areas {
			all = append(all, fact{"coat: " + string(a.Area), layersWords(a.Layers)})
		}
		for _, x := range d.Outlines {
			all = append(all, fact{"outline: " + string(x.Area), x.String()})
		}
		for _, x := range d.Spells {
			all = append(all, fact{"spell", x.String()})
		}
		for _, x := range d.Duties {
			all = append(all, fact{"duty " + x.Name, dutyWords(x)})
		}
		return all
	}
	return []fact{{strings.TrimSpace(name), "is not in the book"}}
}
