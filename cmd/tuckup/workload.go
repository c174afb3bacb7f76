package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/layout"
	"tuckup/reports/tally"
)

func (a *app) workloadCommand() *cobra.Command {
	var by string
	c := a.reporting(&cobra.Command{
		Use:   "workload",
		Short: "Add up the planned minutes per week, dog, owner, area and hands",
		Long: "workload adds up the minutes of the plan: pulling by area, set-ups and duties, each with the dog's " +
			"owner and the hands that it is given to, against the hours available; and each dog's share of the hours beside its share " +
			"of the need. The totals are those of plan. As CSV it writes every stretch of work, or with --by one part summed.",
		Example: "  tuckup workload --demo\n  tuckup workload --demo --by balance\n  tuckup workload --kennel thornfield.yaml --format csv\n" +
			"  tuckup workload --demo --format html",
	}, func(r optimize.Result, l layout.Look) writers { return workloadWriters(r, l, tally.Part(by)) }, false, formatHTML)
	plan := c.RunE
	c.RunE = func(c *cobra.Command, args []string) error {
		if near, ok := oneOf(by, workParts()); by != "" && !ok {
			return usage("--by with "+near, "--by %q is not a part of the workload", by)
		}
		return plan(c, args)
	}
	c.Flags().StringVar(&by, "by", "", "only one part, summed: week, dog, area, owner, hands, balance")
	fixedValues(c, "by", workParts())
	return c
}

func workParts() (names []string) {
	for _, p := range tally.Parts() {
		names = append(names, string(p))
	}
	return names
}

// workloadWriters are the ways to write a workload, or one part of it. The page always has all of them.
func workloadWriters(r optimize.Result, l layout.Look, by tally.Part) writers {
	page := func(w io.Writer) error { return html.Workload(w, r) }
	if by != "" {
		return writers{
			text: func(w io.Writer) error { return reports.WorkloadBy(w, r, l, by) },
			json: func(w io.Writer) error { return reports.WorkloadByJSON(w, r, by) },
			csv:  func(w io.Writer) error { return reports.WorkloadByCSV(w, r, by) },
			html: page,
		}
	}
	return writers{
		text: func(w io.Writer) error { return reports.Workload(w, r, l) },
		json: func(w io.Writer) error { return reports.WorkloadJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.WorkloadCSV(w, r) },
		html: page,
	}
}
