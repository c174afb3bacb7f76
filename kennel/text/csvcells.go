package text

import (
	"strconv"
	"strings"

	"tuckup/kennel"
)

// What to write into a cell.
const (
	tryDate   = "a date like 2027-03-20"
	tryNumber = "a number like 0.5 or 2"
	tryWhole  = "a whole number like 2"
	tryCoat   = "a share and a day for each layer, with ; between, like 0.6 2026-09-20; 0.4 2026-12-01"
)

func asDate(s string) (kennel.Date, bool) {
	d, err := kennel.ParseDate(s)
	return d, err == nil
}

func asNumber(s string) (float64, bool) {
	v, err := strconv.ParseFloat(s, 64)
	return v + 0, err == nil && numberForm.MatchString(s)
}

func asWhole(s string) (int, bool) {
	n, err := strconv.ParseInt(s, 10, 32)
	return int(n), err == nil && wholeForm.MatchString(s)
}

func asText(s string) (string, bool) { return s, true }

func asYes(s string) (yes, ok bool) {
	switch strings.ToLower(s) {
	case "true", "yes":
		return true, true
	case "false", "no":
		return false, true
	}
	return false, false
}

// asLayers are layers with a splitter between, like 0.6 2026-09-20; 0.4 2026-12-01.
func asLayers(s string) ([]kennel.Layer, bool) {
	layers, err := kennel.ParseLayers(strings.Fields(strings.ReplaceAll(s, splitter, " ")))
	return layers, err == nil
}

// asNames are names with a splitter between.
func asNames(s string) (names []string, ok bool) {
	for _, n := range strings.Split(s, splitter) {
		if n = strings.TrimSpace(n); n != "" {
			names = append(names, n)
		}
	}
	return names, true
}

func (r *csvRow) dog() Row[kennel.Dog] {
	return Row[kennel.Dog]{Name: r.name(), Line: r.at[0].line, Set: all(
		set(r, "pattern", "", asText, func(d *kennel.Dog, v string) { d.Pattern = v }),
		set(r, "born", tryDate, asDate, func(d *kennel.Dog, v kennel.Date) { d.Born = v }),
		set(r, "owner", "", asText, func(d *kennel.Dog, v string) { d.Owner = v }),
		set(r, "texture", "", asText, func(d *kennel.Dog, v string) { d.Coat.Texture = kennel.Texture(v) }),
		set(r, "growth", tryNumber, asNumber, func(d *kennel.Dog, v float64) { d.Coat.Growth = v }),
		set(r, "pace", tryNumber, asNumber, func(d *kennel.Dog, v float64) { d.Coat.Pace = v }),
		set(r, "roll_only", "true or false", asYes, func(d *kennel.Dog, v bool) { d.Coat.RollOnly = v }),
		set(r, "set_up", tryNumber, asNumber, func(d *kennel.Dog, v float64) { d.Table.SetUp = kennel.Minutes(v) }),
		set(r, "minutes", tryNumber, asNumber, func(d *kennel.Dog, v float64) { d.Table.Minutes = kennel.Minutes(v) }),
		set(r, "a_week", tryWhole, asWhole, func(d *kennel.Dog, v int) { d.Table.AWeek = v }),
		set(r, "priority", tryNumber, asNumber, func(d *kennel.Dog, v float64) { d.Priority = v }),
		set(r, "coat", tryCoat, asLayers, func(d *kennel.Dog, v []kennel.Layer) { d.SetLayers("", v) }),
	)}
}

func (r *csvRow) show() Row[kennel.Show] {
	on, ok := asDate(r.cell("on"))
	if !ok {
		r.fail("on", "is not a day", tryDate)
	}
	return Row[kennel.Show]{Name: r.name(), On: on, Line: r.at[0].line, Set: all(
		set(r, "days", tryWhole, asWhole, func(s *kennel.Show, v int) { s.Days = v }),
		set(r, "entries_close", tryDate, asDate, func(s *kennel.Show, v kennel.Date) { s.EntriesClose = v }),
		set(r, "weight", tryNumber, asNumber, func(s *kennel.Show, v float64) { s.Weight = v }),
		set(r, "chance", tryNumber, asNumber, func(s *kennel.Show, v float64) { s.Chance = v }),
		set(r, "away_from", tryDate, asDate, func(s *kennel.Show, v kennel.Date) { away(s).From = v }),
		set(r, "away_to", tryDate, asDate, func(s *kennel.Show, v kennel.Date) { away(s).To = v }),
		set(r, "dogs", "", asNames, func(s *kennel.Show, v []string) { s.Dogs = v }),
	)}
}

// away is the show's travelling days, those of the show until told otherwise.
func away(s *kennel.Show) *kennel.Span {
	if s.Away == nil {
		s.Away = &kennel.Span{From: s.On, To: s.Last()}
	}
	return s.Away
}
