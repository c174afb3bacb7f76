package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) sheetCommand() *cobra.Command {
	return a.reporting(&cobra.Command{
		Use:   "sheet",
		Short: "Print this week's work as a list to hang up",
		Long: "sheet plans the season and prints this week's work as a list with boxes to tick: dogs in working order, the slowest " +
			"areas first, the duties, and the cautions at the foot.\n\nIt ends with status 3 when something cannot be met.",
		Example: "  tuckup sheet --demo\n  tuckup sheet --kennel thornfield.yaml --on 2027-02-01",
	}, sheetWriters, true)
}

func sheetWriters(r optimize.Result, l reports.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Sheet(w, r, l) },
		json: func(w io.Writer) error { return reports.SheetJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.SheetCSV(w, r) },
	}
}
