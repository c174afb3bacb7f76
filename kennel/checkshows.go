package kennel

import (
	"fmt"
	"strings"
)

func (c *checker) shows(all []Show, dogs []Dog) {
	var known []string
	is := map[string]bool{}
	for _, d := range dogs {
		if strings.TrimSpace(d.Name) != "" {
			known = append(known, d.Name)
			is[d.Name] = true
		}
	}
	seen := names{}
	for i, s := range all {
		at := fmt.Sprintf("shows[%d]", i)
		switch {
		case strings.TrimSpace(s.Name) == "":
			c.add(at+".name", s.Name, "is missing", "give a name")
		case seen[s.Name+" "+s.On.String()]:
			c.add(at+".name", s.Name, "appears twice on the same day", "leave one of the two out")
		}
		seen[s.Name+" "+s.On.String()] = true
		if s.On == 0 {
			c.add(at+".on", "", "is missing", "a date like 2027-03-20")
		}
		c.within(at+".days", float64(s.Days), ShowDaysBounds)
		if s.EntriesClose > s.On {
			c.add(at+".entries_close", s.EntriesClose.String(), "is after the show", "a day before "+s.On.String())
		}
		c.within(at+".weight", s.Weight, WeightBounds)
		c.part(at+".chance", s.Chance, ChanceBounds.Has(s.Chance), ChanceBounds)
		if s.Away != nil {
			c.span(at+".away", *s.Away)
		}
		named := map[string]bool{}
		for j, d := range s.Dogs {
			field := fmt.Sprintf("%s.dogs[%d]", at, j)
			switch {
			case !is[d]:
				c.add(field, d, "is not a dog of the kennel", c.oneOf(d, known, "the dog under dogs: first, with - name: "+d))
			case named[d]:
				c.add(field, d, "appears twice", "name each dog once")
			}
			named[d] = true
		}
	}
}

// mostSought is for how many of the troubles names alike are looked for; few people read on.
const mostSought = 20

// oneOf names the known names that are most like a name.
func (c *checker) oneOf(name string, known []string, otherwise string) string {
	if len(known) == 0 {
		return otherwise
	}
	if len(c.all) >= mostSought {
		return "one that is listed"
	}
	return "one of " + strings.Join(Nearest(name, known, mostNear), ", ")
}
