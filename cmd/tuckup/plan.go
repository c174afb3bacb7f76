package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/reports"
	"tuckup/reports/layout"
)

func (a *app) planCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "plan",
		Short: "Plan the season and print this week's work",
		Long: "plan finds the season's pulling week by week, and prints this week's work per dog, the readiness for each show, " +
			"the hours, what cannot be met and why, and how good the plan is. With --format json or csv it prints every week.\n\n" +
			"In a book, the first plan is taken: it is the plan in use, which every sheet, page and phone shows. Later plans begin with it, and " +
			"it stays until you take the next one with --accept.\n\n" +
			"When something cannot be met, the plan is printed all the same, and standard error says so; with --strict it also ends with " +
			"status 3. With --check every figure is worked out again by other means, and a difference ends it with status 1.",
		Example: "  tuckup plan --demo\n  tuckup plan --kennel thornfield.yaml --on 2027-02-01\n  tuckup plan --demo --format json\n  tuckup plan --accept",
		Args:    noWords,
		RunE:    func(c *cobra.Command, _ []string) error { return a.plan(c) },
	}
	a.planFlags(c)
	a.formatFlag(c)
	a.strictFlag(c)
	c.Flags().BoolVar(&a.flags.check, "check", false, "work out every figure of the plan again and compare; the result is on standard error")
	a.acceptFlag(c)
	a.dryRunFlag(c)
	return c
}

func (a *app) plan(c *cobra.Command) error {
	if err := a.checkFormat(); err != nil {
		return err
	}
	src, opt, err := a.prepare(c)
	if err != nil {
		return err
	}
	r, same, err := a.next(c.Context(), src, opt)
	if err != nil {
		return err
	}
	if err := a.write(planWriters(r, a.look())); err != nil {
		return err
	}
	if err := a.takeNext(c.Context(), src, r, same); err != nil {
		return err
	}
	if a.flags.check {
		if err := a.tellChecked(check.Plan(r)); err != nil {
			return err // it weighs more than something that cannot be met
		}
	}
	return a.unmet(r)
}

func planWriters(r optimize.Result, l layout.Look) writers {
	return writers{
		text: func(w io.Writer) error { return reports.Plan(w, r, l) },
		json: func(w io.Writer) error { return reports.PlanJSON(w, r) },
		csv:  func(w io.Writer) error { return reports.PlanCSV(w, r) },
	}
}
