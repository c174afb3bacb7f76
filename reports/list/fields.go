package list

import (
	"bytes"
	"encoding/json"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
)

// object is a JSON object whose members stand in their order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(m.key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(m.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

type toldSpan struct {
	From string `json:"from,omitempty"`
	To   string `json:"to,omitempty"`
	Why  string `json:"why,omitempty"`
}

func toldSpanOf(s kennel.Span) toldSpan { return toldSpan{s.From.String(), s.To.String(), s.Why} }

// toldOf is what was given of a thing, with the keys of the kennel file. Areas and duties are for the page of one dog.
func toldOf[T any](t fields.Thing[T], of T) (o object) {
	usual := t.Usual()
	for _, f := range t.Fields {
		var value any
		switch v := f.Get(&of).(type) {
		case *fields.Areas, *[]kennel.Duty:
			continue
		case *[]string:
			o = append(o, member{f.Name(), append([]string{}, *v...)})
			continue
		case *[]kennel.Skill:
			o = append(o, member{f.Name(), does(kennel.Hands{Does: *v})})
			continue
		case *[kennel.DaysAWeek]kennel.Hours:
			hours := map[string]float64{}
			for d, n := range v {
				if n > 0 {
					hours[kennel.Weekday(d).Key()] = float64(n)
				}
			}
			o = append(o, member{f.Name(), hours})
			continue
		case *[]kennel.Span:
			spans := make([]toldSpan, len(*v))
			for i, s := range *v {
				spans[i] = toldSpanOf(s)
			}
			value = spans
		case *[]kennel.Outline:
			outlines := make([]object, len(*v))
			for i, o := range *v {
				outlines[i] = toldOf(fields.Outline, o)
			}
			value = outlines
		case *[]kennel.Spell:
			spells := make([]object, len(*v))
			for i, s := range *v {
				spells[i] = toldOf(fields.Spell, s)
			}
			value = spells
		case **kennel.Span:
			if *v != nil {
				value = toldSpanOf(**v)
			}
		case kennel.Date:
			value = v.String()
		default:
			value = v
		}
		if !f.Silent(&of, &usual) {
			o = append(o, member{f.Name(), value})
		}
	}
	return o
}

// rowOf is a thing as a row of a table, and the names of its columns; import reads those of dogs and shows. Runs of days have no
// room in it.
func rowOf[T any](t fields.Thing[T], of T) (columns, cells []string) {
	for _, f := range t.Fields {
		switch v := f.Get(&of).(type) {
		case *fields.Areas, *[]kennel.Duty, *[]kennel.Span, *[]kennel.Outline:
		case *[]kennel.Spell:
			columns, cells = append(columns, f.Name()), append(cells, layout.Cell(spellsCell(*v)))
		case *[]string:
			columns, cells = append(columns, f.Name()), append(cells, layout.Cell(strings.Join(*v, "; ")))
		case *[]kennel.Skill:
			columns, cells = append(columns, f.Name()), append(cells, strings.Join(does(kennel.Hands{Does: *v}), "; "))
		case *[kennel.DaysAWeek]kennel.Hours:
			for d, n := range v {
				columns, cells = append(columns, kennel.Weekday(d).Key()), append(cells, kennel.Number(float64(n)))
			}
		case **kennel.Span:
			var s kennel.Span
			if *v != nil {
				s = **v
			}
			columns, cells = append(columns, f.Name()+"_from", f.Name()+"_to"), append(cells, s.From.String(), s.To.String())
		default:
			columns, cells = append(columns, f.Name()), append(cells, layout.Cell(f.Text(&of)))
		}
	}
	return columns, cells
}

// spellsCell are spells as they are said, with ; between.
func spellsCell(spells []kennel.Spell) string {
	all := make([]string, len(spells))
	for i, s := range spells {
		all[i] = s.String()
	}
	return strings.Join(all, "; ")
}

// tableOf is a table of things, one row each.
func tableOf[T any](t fields.Thing[T], all []T) (columns []string, rows [][]string) {
	var none T
	columns, _ = rowOf(t, none)
	for _, x := range all {
		_, cells := rowOf(t, x)
		rows = append(rows, cells)
	}
	return columns, rows
}
