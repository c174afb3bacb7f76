package desk

import (
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
)

// handsVerb reads what a form asks to be done with a pair of hands, those of the name was, and notes what is wrong in it. What it
// returns does it.
type handsVerb func(f *form, was string) func(*book.State) (what string, err error)

// handsVerbs are what forms can do with a pair of hands: one small file each.
var handsVerbs = map[string]handsVerb{"save": handsSaveVerb, "drop": handsDropVerb, "away": handsAwayVerb, "back": handsBackVerb}

// hoursFields are the names that forms have for what the book says of a pair of hands.
var hoursFields = named(fields.Hands, map[string]string{
	"does": "does", "to": "to", "from": "from", "mon": "mon", "tue": "tue", "wed": "wed", "thu": "thu", "fri": "fri", "sat": "sat", "sun": "sun", "why": "why",
})

// hoursEdit is the change that the form asks for; what is wrong is noted in it.
func (f *form) hoursEdit(do string) edit {
	was := f.get("was")
	e := edit{version: f.Version, about: func(s book.State) []fact { return handsFacts(s.Kennel, was) }}
	if verb := handsVerbs[do]; verb != nil {
		e.do = verb(f, was)
	}
	return e
}

// handsFacts are what is told of a pair of hands.
func handsFacts(k kennel.Kennel, name string) (all []fact) {
	if name == "" {
		return nil
	}
	for _, h := range k.Hands {
		if h.Name != name {
			continue
		}
		all = factsOf(fields.Hands, h)
		for day, hours := range h.Hours {
			all = append(all, fact{kennel.Weekday(day).Key(), kennel.Number(float64(hours))})
		}
		does := []string{}
		for _, s := range h.Does {
			does = append(does, string(s))
		}
		all = append(all, fact{"does", strings.Join(does, ", ")})
		for _, a := range h.Away {
			all = append(all, fact{"away from " + a.From.String(), "to " + a.To.String() + " " + a.Why})
		}
		return all
	}
	return []fact{{name, "is not in the book"}}
}
