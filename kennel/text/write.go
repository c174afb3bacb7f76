package text

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Write is the kennel as a kennel file: the keys in their usual order, one form for every value, so that the same
// kennel gives the same bytes. Read gives the kennel back. Areas are written in the order of kennel.AreaNames, and
// a kennel without units in mm. A kennel that Read would refuse is refused with the same *kennel.InputError, without
// a place.
func Write(k kennel.Kennel) ([]byte, error) {
	data := write(k)
	back, _, err := Read("", data)
	var in *kennel.InputError
	switch {
	case errors.As(err, &in):
		in.Line, in.Column = 0, 0
		return nil, in
	case err != nil:
		return nil, err
	case !bytes.Equal(write(back), data):
		return nil, &kennel.InputError{
			Field: "kennel", Value: k.Name, What: "can't be written so that it reads back alike", Try: "plainer names",
		}
	}
	return data, nil
}

// lines is a YAML text being written.
type lines struct{ bytes.Buffer }

// line writes one indented line; values that are "" are left out with their line.
func (l *lines) line(indent int, key, value string) {
	if value != "" {
		fmt.Fprintf(l, "%s%s: %s\n", strings.Repeat("  ", indent), key, value)
	}
}

// item writes the first line of a list item; the others are indented by one more.
func (l *lines) item(indent int, key, value string) {
	fmt.Fprintf(l, "%s- %s: %s\n", strings.Repeat("  ", indent), key, value)
}

// head writes a key with lines to follow.
func (l *lines) head(indent int, key string, n int) {
	if n > 0 {
		fmt.Fprintf(l, "%s%s:\n", strings.Repeat("  ", indent), key)
	}
}

func write(k kennel.Kennel) []byte {
	var l lines
	l.line(0, "kennel", quote(k.Name))
	l.line(0, "plan_from", k.PlanFrom.String())
	l.line(0, "weeks", above0(float64(k.Weeks)))
	l.line(0, "time_zone", optional(k.TimeZone))
	units := k.Units
	if units == "" {
		units = kennel.UnitsMillimetres
	}
	l.line(0, "units", quote(string(units)))
	l.head(0, "hands", len(k.Hands))
	for _, h := range k.Hands {
		l.hands(h)
	}
	l.head(0, "dogs", len(k.Dogs))
	for _, d := range k.Dogs {
		l.dog(d)
	}
	l.head(0, "shows", len(k.Shows))
	for _, s := range k.Shows {
		l.show(s)
	}
	return l.Bytes()
}

func (l *lines) hands(h kennel.Hands) {
	l.item(1, "name", quote(h.Name))
	var hours pairs
	for d, key := range kennel.Weekdays() {
		hours.add(key, above0(float64(h.Hours[d])))
	}
	if hours != nil {
		l.line(2, "hours", hours.String())
	}
	l.line(2, "strip_hours_a_day", above0(float64(h.StripHoursADay)))
	l.line(2, "does", list(h.Does, func(s kennel.Skill) string { return quote(string(s)) }))
	l.line(2, "away", list(h.Away, spanPairs))
}

func (l *lines) dog(d kennel.Dog) {
	l.item(1, "name", quote(d.Name))
	l.line(2, "pattern", quote(d.Pattern))
	l.line(2, "born", d.Born.String())
	l.line(2, "owner", optional(d.Owner))
	var coat pairs
	coat.add("texture", optional(string(d.Coat.Texture)))
	coat.add("growth", number(d.Coat.Growth))
	coat.add("pace", number(d.Coat.Pace))
	if d.Coat.RollOnly {
		coat.add("roll_only", "true")
	}
	l.line(2, "coat", coat.String())
	var table pairs
	table.add("set_up", number(float64(d.Table.SetUp)))
	table.add("minutes", number(float64(d.Table.Minutes)))
	table.add("a_week", strconv.Itoa(d.Table.AWeek))
	l.line(2, "table", table.String())
	l.line(2, "priority", number(d.Priority))
	l.line(2, "here", list(d.Here, spanPairs))
	l.areas(d)
	l.head(2, "duties", len(d.Duties))
	for _, duty := range d.Duties {
		fmt.Fprintf(l, "      - %s\n", dutyPairs(duty))
	}
}

func (l *lines) areas(d kennel.Dog) {
	if len(d.All) == 0 && len(d.Areas) == 0 {
		return
	}
	l.head(2, "areas", 1)
	l.line(3, "all", list(d.All, layerPairs))
	order := kennel.AreaNames()
	sorted := slices.Clone(d.Areas)
	slices.SortStableFunc(sorted, func(a, b kennel.AreaCoat) int {
		return slices.Index(order, a.Area) - slices.Index(order, b.Area)
	})
	for _, a := range sorted {
		layers := list(a.Layers, layerPairs)
		if layers == "" {
			layers = "[]"
		}
		l.line(3, quote(string(a.Area)), layers)
	}
}

func (l *lines) show(s kennel.Show) {
	l.item(1, "name", quote(s.Name))
	l.line(2, "on", s.On.String())
	l.line(2, "days", strconv.Itoa(s.Days))
	l.line(2, "entries_close", s.EntriesClose.String())
	l.line(2, "weight", number(s.Weight))
	l.line(2, "chance", number(s.Chance))
	if s.Away != nil {
		l.line(2, "away", spanPairs(*s.Away))
	}
	l.line(2, "dogs", list(s.Dogs, quote))
}

func layerPairs(a kennel.Layer) string {
	var p pairs
	p.add("share", number(float64(a.Share)))
	p.add("pulled", a.Pulled.String())
	return p.String()
}

func spanPairs(s kennel.Span) string {
	var p pairs
	p.add("from", s.From.String())
	p.add("to", s.To.String())
	p.add("why", optional(s.Why))
	return p.String()
}

func dutyPairs(d kennel.Duty) string {
	var p pairs
	p.add("name", quote(d.Name))
	p.add("minutes", number(float64(d.Minutes)))
	if d.Every != 0 {
		p.add("every", fmt.Sprintf("%dw", d.Every))
	}
	if d.Before != nil {
		p.add("before_show", fmt.Sprintf("{from: %dd, to: %dd}", d.Before.From, d.Before.To))
	}
	return p.String()
}

// pairs are keys with values on one line.
type pairs []string

// add adds a key unless its value is "".
func (p *pairs) add(key, value string) {
	if value != "" {
		*p = append(*p, key+": "+value)
	}
}

func (p pairs) String() string { return "{" + strings.Join(p, ", ") + "}" }

// list is items on one line, "" for none.
func list[T any](all []T, item func(T) string) string {
	if len(all) == 0 {
		return ""
	}
	items := make([]string, len(all))
	for i, a := range all {
		items[i] = item(a)
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// number is the shortest decimal that reads back as v.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// above0 is a number, "" for 0.
func above0(v float64) string {
	if v == 0 {
		return ""
	}
	return number(v)
}
