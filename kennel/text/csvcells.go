package text

import (
	"errors"
	"strings"

	"tuckup/kennel"
)

// tryCoat is what to write into a cell for the coat.
const tryCoat = "2026-10-12 for all of it, or a share and a day for each layer, with ; between, like 0.6 2026-09-20; 0.4 2026-12-01"

func asText(s string) (string, error) { return kennel.Unquoted(s), nil }

// asYes is true or false in words.
func asYes(s string) (bool, error) {
	switch strings.ToLower(kennel.Unquoted(s)) {
	case "true", "yes":
		return true, nil
	case "false", "no":
		return false, nil
	}
	return false, &kennel.InputError{Field: "answer", Value: s, What: "is not true or false", Try: "true or yes, or leave it out"}
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

// asNames are names with a splitter between.
func asNames(s string) (names []string, err error) {
	for _, n := range strings.Split(s, splitter) {
		if n = kennel.Unquoted(n); n != "" {
			names = append(names, n)
		}
	}
	return names, nil
}

func (r *csvRow) dog() Row[kennel.Dog] {
	return Row[kennel.Dog]{Name: r.name(), Line: r.at[0].line, Set: all(
		set(r, "pattern", asText, func(d *kennel.Dog, v string) { d.Pattern = v }),
		set(r, "born", kennel.ParseDay, func(d *kennel.Dog, v kennel.Date) { d.Born = v }),
		set(r, "owner", asText, func(d *kennel.Dog, v string) { d.Owner = v }),
		set(r, "texture", asText, func(d *kennel.Dog, v string) { d.Coat.Texture = kennel.Texture(v) }),
		set(r, "growth", kennel.ParseNumber, func(d *kennel.Dog, v float64) { d.Coat.Growth = v }),
		set(r, "pace", kennel.ParseNumber, func(d *kennel.Dog, v float64) { d.Coat.Pace = v }),
		set(r, "roll_only", asYes, func(d *kennel.Dog, v bool) { d.Coat.RollOnly = v }),
		set(r, "set_up", either(kennel.ParseMinutes), func(d *kennel.Dog, v kennel.Minutes) { d.Table.SetUp = v }),
		set(r, "minutes", either(kennel.ParseMinutes), func(d *kennel.Dog, v kennel.Minutes) { d.Table.Minutes = v }),
		set(r, "a_week", parseWhole, func(d *kennel.Dog, v int) { d.Table.AWeek = v }),
		set(r, "priority", kennel.ParseNumber, func(d *kennel.Dog, v float64) { d.Priority = v }),
		set(r, "coat", asLayers, func(d *kennel.Dog, v []kennel.Layer) { d.SetLayers("", v) }),
	)}
}

func (r *csvRow) show() Row[kennel.Show] {
	on, err := kennel.ParseDay(r.cell("on"))
	r.refuse("on", err)
	return Row[kennel.Show]{Name: r.name(), On: on, Line: r.at[0].line, Set: all(
		set(r, "days", parseWhole, func(s *kennel.Show, v int) { s.Days = v }),
		set(r, "entries_close", kennel.ParseDay, func(s *kennel.Show, v kennel.Date) { s.EntriesClose = v }),
		set(r, "weight", kennel.ParseNumber, func(s *kennel.Show, v float64) { s.Weight = v }),
		set(r, "chance", either(kennel.ParseChance), func(s *kennel.Show, v float64) { s.Chance = v }),
		set(r, "away_from", kennel.ParseDay, func(s *kennel.Show, v kennel.Date) { away(s).From = v }),
		set(r, "away_to", kennel.ParseDay, func(s *kennel.Show, v kennel.Date) { away(s).To = v }),
		set(r, "dogs", asNames, func(s *kennel.Show, v []string) { s.Dogs = v }),
	)}
}

// away is the show's travelling days, those of the show until told otherwise.
func away(s *kennel.Show) *kennel.Span {
	if s.Away == nil {
		s.Away = &kennel.Span{From: s.On, To: s.Last()}
	}
	return s.Away
}
