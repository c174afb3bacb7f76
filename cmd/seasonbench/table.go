package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// print prints the table, then the summaries.
func (rep *report) print(out io.Writer) error {
	w := bufio.NewWriter(out)
	t := table.NewWriter()
	t.SetStyle(table.StyleLight)
	t.Style().Options = table.Options{SeparateColumns: true, SeparateHeader: true}
	t.Style().Format.Header = text.FormatDefault
	t.AppendHeader(table.Row{"season", "solver", "points", "to ours %", "gap %", "seconds", "misses by", "peak MB", "remark"})
	var right []table.ColumnConfig
	for i := 3; i <= 8; i++ {
		right = append(right, table.ColumnConfig{Number: i, Align: text.AlignRight, AlignHeader: text.AlignRight})
	}
	t.SetColumnConfigs(right)
	rows := 0
	for _, r := range rep.Results {
		if r.Class == "small" {
			continue // summarised below
		}
		rows++
		t.AppendRow(r.oursRow())
		if r.Mended != nil {
			t.AppendRow(r.mendedRow())
		}
		for _, g := range r.General {
			t.AppendRow(r.generalRow(g))
		}
	}
	if rows > 0 {
		fmt.Fprintln(w, t.Render())
		fmt.Fprintf(w, "to ours: points above (+) or below (-) ours; misses by: farthest from a row, bound or whole number, from the files.\n")
	}
	if rep.Small != nil {
		rep.Small.print(w)
	}
	if rep.Warm != nil {
		rep.Warm.print(w)
	}
	for _, f := range rep.Scaling {
		f.draw(w)
	}
	rep.printLived(w)
	for _, m := range rep.Missing {
		fmt.Fprintf(w, "Left out: %s.\n", m)
	}
	return w.Flush()
}

func (r result) oursRow() table.Row { return r.Ours.row(r.String(), "tuckup", "", r.verdict()) }

func (r result) mendedRow() table.Row {
	return r.Mended.row("", "tuckup, again", fmt.Sprintf("%+.2f", 100*r.mendedMore()), r.mendedVerdict())
}

func (o ours) row(season, solver, more, verdict string) table.Row {
	return table.Row{
		season, solver, fmt.Sprintf("%.3f", o.Points), more, fmt.Sprintf("%.2f", 100*o.Gap), fmt.Sprintf("%.2f", o.Seconds),
		fmt.Sprintf("%.0e", max(o.Violation, o.Fraction)), fmt.Sprintf("%.0f", o.Memory.megabytes()), verdict,
	}
}

// megabytes is the peak, or what the runtime has where the system tells none.
func (m memory) megabytes() float64 {
	if m.Peak > 0 {
		return m.Peak
	}
	return m.Runtime
}

// verdict says in a word how ours stands.
func (r result) verdict() string {
	if len(r.wrongs()) > 0 {
		return "DID NOT PASS ITS CHECK"
	}
	v := ""
	if c := classNamed(r.Class); c.gap > 0 {
		v = fmt.Sprintf("aim: gap %g %% in %g s: ", 100*c.gap, c.seconds)
		if r.Ours.Gap <= c.gap && r.Ours.Seconds <= c.seconds {
			v += "met"
		} else {
			v += "missed"
		}
	}
	if b, ok := r.best(); ok {
		if v != "" {
			v += "; "
		}
		if relative(b.Points-r.Ours.Points, b.Points) > 1e-6 {
			v += "behind " + b.Solver
		} else {
			v += "none better"
		}
	}
	if r.Ours.Cut {
		v += "; cut by its limit"
	}
	return v
}

func (r result) generalRow(g found) table.Row {
	row := table.Row{"", g.Solver, "-", "", "", fmt.Sprintf("%.0f", g.Seconds), "", "", g.remark()}
	if g.Status == failed || g.Status == nothing {
		return row
	}
	row[2] = fmt.Sprintf("%.3f", g.Points)
	row[3] = fmt.Sprintf("%+.2f", 100*relative(g.Points-r.Ours.Points, r.Ours.Points))
	if g.Bound != nil {
		row[4] = fmt.Sprintf("%.2f", 100*relative(*g.Bound-g.Points, *g.Bound))
	}
	row[6] = fmt.Sprintf("%.0e", max(g.Violation, g.Fraction))
	return row
}

// remark says what became of a general solver's run.
func (g found) remark() string {
	switch g.Status {
	case failed:
		return "failed: " + g.Why
	case nothing:
		return fmt.Sprintf("no plan in %.0f s", g.Limit)
	}
	s := g.Status
	if g.Status == stopped {
		s = fmt.Sprintf("stopped at %.0f s", g.Limit)
	}
	if !g.Holds {
		s += fmt.Sprintf("; its plan misses %s, not counted", g.Worst)
	}
	return s
}

func (rep *report) writeJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(rep)
}
