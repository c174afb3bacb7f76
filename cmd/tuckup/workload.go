package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) workloadCommand() *cobra.Command {
	return a.reporting(&cobra.Command{
		Use:   "workload",
		Short: "Account for the planned minutes per week, dog, owner, area and hands",
		Long: "workload plans the season and accounts for its minutes: pulling by area, set-ups and duties, each with the dog's " +
			"owner and the hands that it is given to. The totals are those of plan.",
		Example: "  tuckup workload --demo\n  tuckup workload --kennel thornfield.yaml --format csv",
	}, workloadWriters, false)
}

func workloadWriters(r optimize.Result, l reports.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Workload(w, r, l) },
		json: func(w io.Writer) error { return reports.WorkloadJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.WorkloadCSV(w, r) },
	}
}
