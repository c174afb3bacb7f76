package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) planCommand() *cobra.Command {
	return a.reporting(&cobra.Command{
		Use:   "plan",
		Short: "Plan the season and print this week's work",
		Long: "plan finds the season's pulling week by week, and prints this week's work per dog, the readiness for each show, " +
			"the hours, what cannot be met and why, and how good the plan is. With --format json or csv it prints every week.\n\n" +
			"It ends with status 3 when something cannot be met.",
		Example: "  tuckup plan --demo\n  tuckup plan --kennel thornfield.yaml --on 2027-02-01\n  tuckup plan --demo --format json",
	}, planWriters, true)
}

func planWriters(r optimize.Result, l reports.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Plan(w, r, l) },
		json: func(w io.Writer) error { return reports.PlanJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.PlanCSV(w, r) },
	}
}
