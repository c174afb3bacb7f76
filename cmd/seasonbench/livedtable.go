package main

import (
	"fmt"
	"io"
	"math"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"tuckup/kennel"
	"tuckup/optimize/lived"
)

// livedSummary is what came of the seasons of one kind of strings with one handler.
type livedSummary struct {
	Kind     string  `json:"kind"` // empty = all kinds
	Hand     string  `json:"hand"`
	Seasons  int     `json:"seasons"`
	Shown    int     `json:"dogs_at_shows"`
	Ready    float64 `json:"readiness"` // mean at shows
	InCoat   float64 `json:"in_coat"`   // part of the dogs at shows
	Missed   float64 `json:"missed"`    // part of the sessions
	Promises int     `json:"promises"`
	Error    float64 `json:"error"`        // mean of what came less what was promised
	Inside   float64 `json:"inside"`       // part of the promises that came true within their range
	Brier    float64 `json:"brier"`        // of the chances of being in coat
	BrierOf  float64 `json:"brier_always"` // of always saying the mean
	Moved    float64 `json:"moved"`
	LeftOut  float64 `json:"left_out"`
	Seconds  float64 `json:"cpu_seconds"` // of a season
}

// summariseLived sums up by kind and handler, and over all kinds.
func summariseLived(all []livedSeason) (out []livedSummary) {
	kinds := []string{}
	for _, k := range livedKinds {
		kinds = append(kinds, k.name)
	}
	for _, kind := range append(kinds, "") {
		for _, hand := range []string{byPlan, byBlind, byThumb} {
			var of []livedSeason
			for _, l := range all {
				if l.Hand == hand && (kind == "" || l.Kind == kind) {
					of = append(of, l)
				}
			}
			if len(of) > 0 {
				s := summaryOf(of)
				s.Kind, s.Hand = kind, hand
				out = append(out, s)
			}
		}
	}
	return out
}

func summaryOf(all []livedSeason) livedSummary {
	s := livedSummary{Seasons: len(all)}
	n := float64(len(all))
	sessions, missed, in, ready := 0.0, 0.0, 0.0, 0.0
	var promises []promise
	for _, l := range all {
		for _, score := range l.Scores {
			s.Shown++
			ready += score
			if score >= float64(kennel.ReadyScore) {
				in++
			}
		}
		sessions += float64(l.Sessions)
		missed += float64(l.Missed)
		s.Moved += l.Moved / n
		s.LeftOut += l.LeftOut / n
		s.Seconds += l.Seconds / n
		promises = append(promises, l.Promises...)
	}
	s.Ready, s.InCoat, s.Missed = ready/float64(max(1, s.Shown)), in/float64(max(1, s.Shown)), missed/math.Max(1, sessions)
	s.promised(promises)
	return s
}

// promised fills in how well promises came true.
func (s *livedSummary) promised(all []promise) {
	s.Promises = len(all)
	n, in := float64(len(all)), 0.0
	for _, p := range all {
		if p.Came >= float64(kennel.ReadyScore) {
			in += 1 / n
		}
	}
	for _, p := range all {
		is := 0.0
		if p.Came >= float64(kennel.ReadyScore) {
			is = 1
		}
		s.Error += (p.Came - p.Score) / n
		if p.Came >= p.Low-shownPoint && p.Came <= p.High+shownPoint {
			s.Inside += 1 / n
		}
		s.Brier += (p.Likely - is) * (p.Likely - is) / n
		s.BrierOf += (in - is) * (in - is) / n
	}
}

// shownPoint is by how much a range reaches further than its ends, which are shown in whole points.
const shownPoint = 0.5

// printLived prints the table of lived seasons, and the rules that were tuned.
func (rep *report) printLived(w io.Writer) {
	if len(rep.Lived) == 0 {
		return
	}
	t := table.NewWriter()
	t.SetStyle(table.StyleLight)
	t.Style().Options = table.Options{SeparateColumns: true, SeparateHeader: true}
	t.Style().Format.Header = text.FormatDefault
	t.AppendHeader(table.Row{
		"strings", "by", "seasons", "dogs at shows", "readiness", "in coat %", "promises", "came less promised", "in range %", "Brier", "always the mean",
		"moved %", "left out %", "CPU s",
	})
	var right []table.ColumnConfig
	for i := 3; i <= 14; i++ {
		right = append(right, table.ColumnConfig{Number: i, Align: text.AlignRight, AlignHeader: text.AlignRight})
	}
	t.SetColumnConfigs(right)
	for _, s := range summariseLived(rep.Lived) {
		t.AppendRow(s.row())
	}
	fmt.Fprintf(w, "\nLived seasons: what was planned is done or missed day by day, growth is not known to the plan.\n%s\n", t.Render())
	for _, kind := range livedKinds {
		for _, l := range rep.Lived {
			if l.Kind == kind.name && l.Rule != nil {
				fmt.Fprintf(w, "%s (%s): the rule of thumb, the best on %d seeds of its own, %s.\n", kind.name, kind.says, tuneSeeds, ruleWords(*l.Rule))
				break
			}
		}
	}
}

func ruleWords(r lived.Rule) string {
	words := fmt.Sprintf("comes once round in %d weeks, ", r.Round)
	if r.Own {
		words = fmt.Sprintf("comes once round in %d weeks (a body area; others as their hair comes in and holds), ", r.Round)
	}
	if r.Near > 0 {
		words += fmt.Sprintf("puts dogs first from %d weeks before their show, ", r.Near)
	}
	words += stageWords(r.Stage)
	if r.Quiet > 0 {
		words += fmt.Sprintf(", and takes a few hairs in the last %d weeks", r.Quiet)
	}
	return words
}

func stageWords(stage int) string {
	if stage < 0 {
		return "stages no coat"
	}
	return fmt.Sprintf("stages each area %d weeks before the last moment", stage)
}

func (s livedSummary) row() table.Row {
	kind := s.Kind
	if kind == "" {
		kind = "all"
	}
	row := table.Row{kind, s.Hand, s.Seasons, s.Shown, fmt.Sprintf("%.1f", s.Ready), fmt.Sprintf("%.0f", 100*s.InCoat), "", "", "", "", "", "", "", fmt.Sprintf("%.1f", s.Seconds)}
	if s.Promises > 0 {
		row[6], row[7], row[8] = s.Promises, fmt.Sprintf("%+.1f", s.Error), fmt.Sprintf("%.0f", 100*s.Inside)
		row[9], row[10] = fmt.Sprintf("%.3f", s.Brier), fmt.Sprintf("%.3f", s.BrierOf)
	}
	if s.Hand == byPlan {
		row[11], row[12] = fmt.Sprintf("%.0f", 100*s.Moved), fmt.Sprintf("%.1f", 100*s.LeftOut)
	}
	return row
}
