package main

import (
	"github.com/spf13/cobra"

	"tuckup/reports"
)

func (a *app) sheetCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "sheet",
		Short: "Print this week's work as a list to hang up",
		Long: "sheet plans the season and prints this week's work as a list with boxes to tick: dogs in working order, the slowest " +
			"areas first, the duties, and the cautions at the foot.\n\nIt ends with status 3 when something cannot be met.",
		Example: "  tuckup sheet --demo\n  tuckup sheet --kennel thornfield.yaml --on 2027-02-01",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			if a.flags.format != formatText {
				return usage("tuckup sheet --format text, or tuckup plan --format "+a.flags.format, "sheet has no format %q", a.flags.format)
			}
			r, err := a.solve(c)
			if err != nil {
				return err
			}
			if err := reports.Sheet(a.out, r, a.look()); err != nil {
				return err
			}
			return unmet(r)
		},
	}
	a.planFlags(c)
	a.formatFlag(c)
	return c
}
