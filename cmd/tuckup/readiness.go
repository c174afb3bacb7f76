package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/layout"
)

func (a *app) readinessCommand() *cobra.Command {
	var ahead bool
	c := a.reporting(&cobra.Command{
		Use:   "readiness",
		Short: "Say how ready each dog is, today, at its shows and over the season",
		Long: "readiness prints each dog's coat today with its worst area, the days on which it is in coat " +
			"if nothing more is done and if the plan is followed, and its readiness for each show. With --ahead it says instead when each " +
			"dog could be in coat if it came first.",
		Example: "  tuckup readiness --demo\n  tuckup readiness --kennel thornfield.yaml --format csv\n" +
			"  tuckup readiness --demo --format html\n  tuckup readiness --demo --ahead",
	}, readinessWriters, false, formatHTML)
	c.Flags().BoolVar(&ahead, "ahead", false, "say when each dog could be in coat if it came first, and from which day")
	run := c.RunE
	c.RunE = func(c *cobra.Command, args []string) error {
		if ahead {
			return a.lookAhead(c)
		}
		return run(c, args)
	}
	return c
}

func readinessWriters(r optimize.Result, l layout.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Readiness(w, r, l) },
		json: func(w io.Writer) error { return reports.ReadinessJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.ReadinessCSV(w, r) },
		html: func(w io.Writer) error { return html.Readiness(w, r) },
	}
}
