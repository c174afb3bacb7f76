package text

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
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
	if k.Units == "" {
		k.Units = kennel.UnitsMillimetres
	}
	var l lines
	writeThing(&l, fields.Kennel, k, 0, false)
	return l.Bytes()
}

// writeThing writes a thing field by field, each key on its own line but for those of a group. An item of a list begins with a
// hyphen.
func writeThing[T any](l *lines, t fields.Thing[T], x T, indent int, item bool) {
	usual := t.Usual()
	for i, f := range t.Fields {
		g := f.Group()
		switch many := f.Get(&x).(type) {
		case *[]kennel.Hands:
			writeList(l, f.Key, fields.Hands, *many)
		case *[]kennel.Dog:
			writeList(l, f.Key, fields.Dog, *many)
		case *[]kennel.Show:
			writeList(l, f.Key, fields.Show, *many)
		case *[]kennel.Duty:
			l.head(indent, f.Key, len(*many))
			for _, d := range *many {
				fmt.Fprintf(l, "%s- %s\n", strings.Repeat("  ", indent+1), pairsOf(fields.Duty, d))
			}
		case *[]kennel.Outline:
			l.head(indent, f.Key, len(*many))
			for _, o := range *many {
				fmt.Fprintf(l, "%s- %s\n", strings.Repeat("  ", indent+1), pairsOf(fields.Outline, o))
			}
		case *[]kennel.Spell:
			l.head(indent, f.Key, len(*many))
			for _, s := range *many {
				fmt.Fprintf(l, "%s- %s\n", strings.Repeat("  ", indent+1), pairsOf(fields.Spell, s))
			}
		case *fields.Areas:
			l.areas(indent, *many.All, *many.Named)
		default:
			switch {
			case item && i == 0:
				l.item(indent-1, f.Key, inline(f, &x, &usual))
			case g == "":
				l.line(indent, f.Key, inline(f, &x, &usual))
			case i == 0 || t.Fields[i-1].Group() != g: // the first of its group, which has a line for all
				l.line(indent, g, groupPairs(t, g, x).String())
			}
		}
	}
}

func writeList[T any](l *lines, key string, t fields.Thing[T], all []T) {
	l.head(0, key, len(all))
	for _, x := range all {
		writeThing(l, t, x, 2, true)
	}
}

// groupPairs are the fields of a group on one line; those of "" are the thing's own.
func groupPairs[T any](t fields.Thing[T], group string, x T) (p pairs) {
	usual := t.Usual()
	for _, f := range t.Fields {
		if f.Group() == group {
			p.add(strings.TrimPrefix(f.Key, group+"."), inline(f, &x, &usual))
		}
	}
	return p
}

// pairsOf is a thing on one line.
func pairsOf[T any](t fields.Thing[T], x T) string { return groupPairs(t, "", x).String() }

// inline is the value of a field on one line, "" where it is left out.
func inline[T any](f fields.Field[T], x, usual *T) string {
	switch v := f.Get(x).(type) {
	case string:
		if v == "" && f.Need == "" {
			return ""
		}
		if f.Reads != nil && slices.Contains(f.Among, v) {
			return v // a word of its own, though YAML might take it for something else
		}
		return quote(v)
	case kennel.Date:
		return v.String()
	case float64:
		if !f.Silent(x, usual) || f.Need != "" {
			return number(v)
		}
	case int:
		if weeks := f.Key == "every"; !f.Silent(x, usual) {
			return strconv.Itoa(v) + map[bool]string{true: "w"}[weeks]
		}
	case bool:
		if !f.Silent(x, usual) {
			return strconv.FormatBool(v)
		}
	case *[kennel.DaysAWeek]kennel.Hours:
		var hours pairs
		for d, key := range kennel.Weekdays() {
			hours.add(key, above0(float64(v[d])))
		}
		if hours != nil {
			return hours.String()
		}
	case *[]kennel.Skill:
		return list(*v, func(s kennel.Skill) string { return quote(string(s)) })
	case *[]string:
		return list(*v, quote)
	case *[]kennel.Span:
		return list(*v, spanPairs)
	case **kennel.Span:
		if *v != nil {
			return spanPairs(**v)
		}
	case **kennel.BeforeShow:
		if *v != nil {
			return fmt.Sprintf("{from: %dd, to: %dd}", (*v).From, (*v).To)
		}
	default:
		panic(fmt.Sprintf("%s: nothing writes a %T", f.Key, v)) // a field of a new kind: TestNoFieldIsLostInAKennelFile meets it
	}
	return ""
}

// areas are the layers on every area that is not named, and on those that are, in the order of the trade.
func (l *lines) areas(indent int, all []kennel.Layer, named []kennel.AreaCoat) {
	if len(all) == 0 && len(named) == 0 {
		return
	}
	layer := func(x kennel.Layer) string { return pairsOf(fields.Layer, x) }
	l.head(indent, "areas", 1)
	l.line(indent+1, "all", list(all, layer))
	order := kennel.AreaNames()
	sorted := slices.Clone(named)
	slices.SortStableFunc(sorted, func(a, b kennel.AreaCoat) int {
		return slices.Index(order, a.Area) - slices.Index(order, b.Area)
	})
	for _, a := range sorted {
		layers := list(a.Layers, layer)
		if layers == "" {
			layers = "[]"
		}
		l.line(indent+1, quote(string(a.Area)), layers)
	}
}

func spanPairs(s kennel.Span) string {
	var p pairs
	p.add("from", s.From.String())
	p.add("to", s.To.String())
	p.add("why", optional(s.Why))
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
