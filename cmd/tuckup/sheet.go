package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/layout"
)

func (a *app) sheetCommand() *cobra.Command {
	return a.reporting(&cobra.Command{
		Use:   "sheet",
		Short: "Print the coming days' work as a list to hang up",
		Long: "sheet prints the work of the coming days by day, hands and clock, as a list with boxes to tick: " +
			"each dog's slowest areas first, duties, baths, breaks and days away, what the days could not hold, and the cautions at " +
			"the foot. With --format html it is a page for the printer, on one sheet of A4 or Letter, and for the phone.\n\n" +
			"When something cannot be met, standard error says so; with --strict it also ends with status 3.",
		Example: "  tuckup sheet --demo\n  tuckup sheet --kennel thornfield.yaml --on 2027-02-01\n" +
			"  tuckup sheet --kennel thornfield.yaml --format html >sheet.html",
	}, sheetWriters, true, formatHTML)
}

func sheetWriters(r optimize.Result, l layout.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Sheet(w, r, l) },
		json: func(w io.Writer) error { return reports.SheetJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.SheetCSV(w, r) },
		html: func(w io.Writer) error { return html.Sheet(w, r) },
	}
}
