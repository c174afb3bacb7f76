package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) planCommand() *cobra.Command {
	c := a.reporting(&cobra.Command{
		Use:   "plan",
		Short: "Plan the season and print this week's work",
		Long: "plan finds the season's pulling week by week, and prints this week's work per dog, the readiness for each show, " +
			"the hours, what cannot be met and why, and how good the plan is. With --format json or csv it prints every week.\n\n" +
			"It ends with status 3 when something cannot be met. With --check every figure is worked out anew by other means, " +
			"and the plan ends with status 1 when one of them does not agree.",
		Example: "  tuckup plan --demo\n  tuckup plan --kennel thornfield.yaml --on 2027-02-01\n  tuckup plan --demo --format json\n  tuckup plan --accept",
	}, planWriters, true)
	c.Flags().BoolVar(&a.flags.check, "check", false, "work every figure of the plan out anew and compare; standard error says what came of it")
	a.acceptFlag(c)
	a.dryRunFlag(c)
	return c
}

func planWriters(r optimize.Result, l reports.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Plan(w, r, l) },
		json: func(w io.Writer) error { return reports.PlanJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.PlanCSV(w, r) },
	}
}
