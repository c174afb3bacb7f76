package kennel

import (
	"fmt"
	"strconv"
	"strings"
)

// Check returns the first of Problems as an error, nil when there is none.
func Check(k Kennel, pats Patterns) error {
	if all := Problems(k, pats); len(all) > 0 {
		return all[0]
	}
	return nil
}

// Problems are all things in the kennel that no plan could be made from: numbers out of range, names that are not
// known or stand there twice, dates the wrong way round. Fields are paths like dogs[2].pattern; files and lines are
// for the caller to add. Dates against today are not looked at.
func Problems(k Kennel, pats Patterns) []*InputError {
	c := checker{}
	c.number("weeks", float64(k.Weeks), k.Weeks == 0 || SeasonBounds.Has(float64(k.Weeks)), fmt.Sprintf("a whole number from %g to %g", SeasonBounds.Least, SeasonBounds.Most))
	c.among("units", string(k.Units), true, string(UnitsMillimetres), string(UnitsInches))
	c.among("dates", string(k.Dates), true, string(DayFirst), string(MonthFirst), string(ISODates))
	c.hands(k.Hands)
	c.dogs(k.Dogs, pats)
	c.shows(k.Shows, k.Dogs)
	return c.all
}

type checker struct{ all []*InputError }

func (c *checker) add(field, value, what, try string) {
	c.all = append(c.all, &InputError{Field: field, Value: value, What: what, Try: try})
}

// number notes a number that is not as it should be; NaN never is.
func (c *checker) number(field string, v float64, ok bool, try string) {
	if !ok || v != v {
		c.add(field, strconv.FormatFloat(v, 'g', -1, 64), "is out of range", try)
	}
}

// within notes a number that is out of its range.
func (c *checker) within(field string, v float64, b Bounds) { c.number(field, v, b.Has(v), b.try()) }

// part notes a number that is no part or chance; one up to 100 may have been meant as a percentage.
func (c *checker) part(field string, v float64, ok bool, b Bounds) {
	try := b.try()
	if v > 1 && v <= 100 {
		try = fmt.Sprintf("%g%%, or %g; %s", v, v/100, try)
	}
	c.number(field, v, ok, try)
}

func (c *checker) among(field, value string, mayBeEmpty bool, words ...string) {
	for _, w := range words {
		if value == w || value == "" && mayBeEmpty {
			return
		}
	}
	c.add(field, value, "is not known", "one of "+strings.Join(words, ", "))
}

// names are the names met so far, in small letters.
type names map[string]bool

// name notes a name that is missing or is there twice, whatever its capitals.
func (c *checker) name(seen names, field, name string) {
	key := strings.ToLower(strings.TrimSpace(name))
	switch {
	case key == "":
		c.add(field, name, "is missing", "give a name")
	case seen[key]:
		c.add(field, name, "appears twice", "give one of the two another name")
	}
	seen[key] = true
}

func (c *checker) span(field string, s Span) {
	if s.From != 0 && s.To != 0 && s.From > s.To {
		c.add(field+".to", s.To.String(), "is before from, "+s.From.String(), s.From.String()+" or later")
	}
}

func (c *checker) hands(all []Hands) {
	seen := names{}
	for i, h := range all {
		at := fmt.Sprintf("hands[%d]", i)
		c.name(seen, at+".name", h.Name)
		for w, hours := range h.Hours {
			c.within(at+".hours."+Weekday(w).Key(), float64(hours), HoursBounds)
		}
		c.within(at+".strip_hours_a_day", float64(h.StripHoursADay), HoursBounds)
		for j, s := range h.Does {
			c.among(fmt.Sprintf("%s.does[%d]", at, j), string(s), false, words(Skills())...)
		}
		for j, s := range h.Away {
			c.span(fmt.Sprintf("%s.away[%d]", at, j), s)
		}
	}
}
