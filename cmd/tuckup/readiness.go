package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) readinessCommand() *cobra.Command {
	return a.reporting(&cobra.Command{
		Use:   "readiness",
		Short: "Say how ready each dog is, today, at its shows and over the season",
		Long: "readiness plans the season and prints each dog's coat today with its worst area, the days on which it is in coat " +
			"if nothing more is done and if the plan is followed, and its readiness for each show.",
		Example: "  tuckup readiness --demo\n  tuckup readiness --kennel thornfield.yaml --format csv\n" +
			"  tuckup readiness --demo --format html",
	}, readinessWriters, false, formatHTML)
}

func readinessWriters(r optimize.Result, l reports.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Readiness(w, r, l) },
		json: func(w io.Writer) error { return reports.ReadinessJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.ReadinessCSV(w, r) },
		html: func(w io.Writer) error { return reports.ReadinessHTML(w, r) },
	}
}
