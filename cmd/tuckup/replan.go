package main

import (
	"github.com/spf13/cobra"

	"tuckup/optimize"
)

func (a *app) replanCommand() *cobra.Command {
	var since int64
	c := &cobra.Command{
		Use:   "replan",
		Short: "Plan again after a change, and say what changed and who pays for it",
		Long: "replan plans the book as it is, beginning with the plan in use, keeps sessions of the next 14 days unless leaving them pays, and " +
			"says what sets the new plan apart from the one in use, or from the one that was in use after the change that --since names. " +
			"--accept takes the new plan: it is the one in use then.",
		Example: "  tuckup replan\n  tuckup replan --accept\n  tuckup replan --since 12 --format json",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			if a.flags.demo || a.flags.kennel != "" {
				return usage("tuckup try for a kennel file or the demo", "replan needs a book: only there is a plan before")
			}
			src, opt, err := a.prepare(c)
			if err != nil {
				return err
			}
			before, err := a.planBefore(c, src, opt, since)
			if err != nil {
				return err
			}
			opt.Begin = &before // what differs is then owed to the change, not to the search
			after, err := a.planned(c.Context(), src, opt)
			if err != nil {
				return err
			}
			if err := a.writeChanges(before, after); err != nil || !a.flags.accept {
				return err
			}
			return a.accept(c.Context(), src, after)
		},
	}
	a.planFlags(c)
	a.formatFlag(c)
	c.Flags().Int64Var(&since, "since", 0, "compare with the plan that was in use after this change (default: the plan in use)")
	a.acceptFlag(c)
	a.dryRunFlag(c)
	return c
}

func (a *app) acceptFlag(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.accept, "accept", false, "take the plan: every sheet, page and phone shows it until the next one is taken")
}

// planBefore is the plan in use, or that of the change that --since names; where none was taken then, it is made of the book as it was.
func (a *app) planBefore(c *cobra.Command, src source, opt optimize.Options, since int64) (optimize.Result, error) {
	if !c.Flags().Changed("since") {
		use, err := src.inUse()
		if err != nil {
			return optimize.Result{}, err
		}
		if use != nil {
			return *use, nil
		}
		if since = src.version - 1; src.state.Plan.On != 0 {
			opt.On, since = src.state.Plan.On, src.state.Plan.Change
		}
	}
	if since < 0 {
		return optimize.Result{}, usage("tuckup plan", "the book has no plan before this one")
	}
	b, err := a.readBook(c.Context())
	if err != nil {
		return optimize.Result{}, err
	}
	defer b.Close() //nolint:errcheck // only read
	was := src
	if was.state, err = b.At(c.Context(), since); err != nil {
		return optimize.Result{}, err
	}
	if was.state.Nothing() {
		return optimize.Result{}, usage("tuckup plan", "the book held nothing before change %d", since+1)
	}
	if use, err := was.inUse(); err == nil && use != nil {
		return *use, nil
	}
	was.kennel = was.state.Kennel
	was.asOf(opt.On, &opt)
	return a.planned(c.Context(), was, opt)
}
