package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/say"
)

func (a *app) replanCommand() *cobra.Command {
	var since int64
	c := &cobra.Command{
		Use:   "replan",
		Short: "Plan again after a change, and say what changed and who pays for it",
		Long: "replan plans the book as it is, keeps sessions of the next 14 days that were agreed on unless leaving them pays, and sets " +
			"the plan against the one before: that of the last plan --accept or replan --accept, else that before the last " +
			"change, or the one that --since names. --accept agrees on its sessions.",
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
			was, wasOpt, err := a.planBefore(c, src, opt, since)
			if err != nil {
				return err
			}
			before, err := a.planned(c.Context(), was, wasOpt)
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
	c.Flags().Int64Var(&since, "since", 0, "compare with the book as it was after this change (default: the last agreement, else the last change)")
	a.acceptFlag(c)
	a.dryRunFlag(c)
	return c
}

func (a *app) acceptFlag(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.accept, "accept", false, "agree on the sessions of the coming days: a later plan keeps them unless moving them is worth it")
}

// planBefore is the book as it was when the plan before was made, and the options of that plan.
func (a *app) planBefore(c *cobra.Command, src source, opt optimize.Options, since int64) (source, optimize.Options, error) {
	on, change := opt.On, since
	switch agreed := src.state.Plan; {
	case c.Flags().Changed("since"):
	case agreed.On != 0:
		on, change = agreed.On, agreed.Change
	default:
		change = src.version - 1
	}
	if change < 0 {
		return src, opt, usage("tuckup plan", "the book has no plan before this one")
	}
	b, err := a.readBook(c.Context())
	if err != nil {
		return src, opt, err
	}
	defer b.Close() //nolint:errcheck // only read
	was := src
	if was.state, err = b.At(c.Context(), change); err != nil {
		return src, opt, err
	}
	if was.state.Nothing() {
		return src, opt, usage("tuckup plan", "the book held nothing before change %d", change+1)
	}
	was.kennel = was.state.Kennel
	was.asOf(on, &opt)
	return was, opt, nil
}

// accept agrees on the sessions of the coming days.
func (a *app) accept(ctx context.Context, src source, r optimize.Result) error {
	if src.book == "" {
		return usage("tuckup import FILE first, then tuckup plan --accept", "only a book remembers what was agreed on")
	}
	sessions := r.SessionsAhead()
	if len(sessions) == 0 {
		fmt.Fprintln(a.err, "there is nothing to agree on: no dog is pulled in the coming days; nothing was changed")
		return nil
	}
	if ctx.Err() != nil {
		return &stoppedError{"the plan was stopped early, so nothing was agreed on", "the same again, and let it finish; or with --time-limit 60"}
	}
	b, err := a.openBook(ctx, src.patterns)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	agree := func(s *book.State) error { return s.Take(r, r.On, src.version) }
	if a.flags.dryRun {
		if _, err := b.Try(ctx, agree); err != nil {
			return err
		}
		fmt.Fprintf(a.err, "this would agree on %s; nothing was changed\n", say.Plural(len(sessions), "session"))
		return nil
	}
	done, err := b.Change(ctx, src.version, fmt.Sprintf("agreed on %s from %s on", say.Plural(len(sessions), "session"), r.On), agree)
	if err != nil {
		return err
	}
	a.uncopied(done)
	fmt.Fprintf(a.err, "agreed on %s (change %d); tuckup undo takes it back\n", say.Plural(len(sessions), "session"), done.Version)
	return nil
}
