package text

import (
	"errors"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// tryCoat is what to write into a cell for the coat.
const tryCoat = "2026-10-12 for all of it, or a share and a day for each layer, with ; between, like 0.6 2026-09-20; 0.4 2026-12-01"

// asText is a name.
func asText(s string) (string, error) {
	s = kennel.Unquoted(s)
	if long := kennel.LongText("name", s, kennel.LongestName); long != nil {
		return "", long
	}
	return s, nil
}

// asLayers are layers with a splitter between, like 0.6 2026-09-20; 0.4 2026-12-01.
func asLayers(s string) ([]kennel.Layer, error) {
	layers, err := kennel.ParseLayers(strings.Fields(strings.ReplaceAll(kennel.Unquoted(s), splitter, " ")))
	var in *kennel.InputError
	if errors.As(err, &in) && in.Field == "layer" {
		in.Try = tryCoat
	}
	return layers, err
}

// asSpells are spells with a splitter between, like season 2027-03-01 2027-03-21; illness 2027-05-01.
func asSpells(s string) (all []kennel.Spell, err error) {
	for _, said := range strings.Split(kennel.Unquoted(s), splitter) {
		if strings.TrimSpace(said) == "" {
			continue
		}
		x, err := kennel.ParseSpell(said)
		if err != nil {
			return nil, err
		}
		all = append(all, x)
	}
	return all, nil
}

// asNames are names with a splitter between.
func asNames(s string) (names []string, err error) {
	for _, n := range strings.Split(s, splitter) {
		n, err := asText(n)
		if err != nil {
			return nil, err
		}
		if n != "" {
			names = append(names, n)
		}
	}
	return names, nil
}

// cells are setters for the fields of a thing that are single values.
func cells[T any](r *csvRow, all []fields.Field[T]) (sets []func(*T)) {
	for _, f := range all {
		read := f.Reading().Read
		if f.Kind() == fields.Words {
			read = func(s string) (any, error) { return asText(s) }
		}
		sets = append(sets, set(r, f.Name(), read, func(x *T, v any) { f.Set(x, v) }))
	}
	return sets
}

func (r *csvRow) dog() Row[kennel.Dog] {
	return Row[kennel.Dog]{Name: r.name(), Line: r.at[0].line, Set: all(append(cells(r, fields.Dog.Single("name")),
		set(r, "coat", asLayers, func(d *kennel.Dog, v []kennel.Layer) { d.SetLayers("", v) }),
		set(r, "spells", asSpells, func(d *kennel.Dog, v []kennel.Spell) { d.Spells = v }),
	)...)}
}

func (r *csvRow) show() Row[kennel.Show] {
	on, err := kennel.ParseDay(r.cell("on"))
	r.refuse("on", err)
	return Row[kennel.Show]{Name: r.name(), On: on, Line: r.at[0].line, Set: all(append(cells(r, fields.Show.Single("name", "on")),
		set(r, "away_from", kennel.ParseDay, func(s *kennel.Show, v kennel.Date) { away(s).From = v }),
		set(r, "away_to", kennel.ParseDay, func(s *kennel.Show, v kennel.Date) { away(s).To = v }),
		set(r, "dogs", asNames, func(s *kennel.Show, v []string) { s.Dogs = v }),
	)...)}
}

// away is the show's travelling days, those of the show until told otherwise.
func away(s *kennel.Show) *kennel.Span {
	if s.Away == nil {
		s.Away = &kennel.Span{From: s.On, To: s.Last()}
	}
	return s.Away
}
