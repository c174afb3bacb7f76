package main

import (
	"context"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// solve reads what the flags name and plans it.
func (a *app) solve(c *cobra.Command) (optimize.Result, error) {
	src, opt, err := a.prepare(c)
	if err != nil {
		return optimize.Result{}, err
	}
	return a.planned(c.Context(), src, opt)
}

// planned makes the plan of what was read, and shows how far it is. A search that is interrupted ends with the best plan
// that it has; standard error says so.
func (a *app) planned(ctx context.Context, src source, opt optimize.Options) (optimize.Result, error) {
	a.used = src
	progress := a.watch(&opt)
	r, err := a.planOf(ctx, src.kennel, src.patterns, opt)
	progress.end()
	if err != nil {
		return r, src.locate(err)
	}
	if ctx.Err() != nil {
		if r.Idle() {
			return r, context.Canceled
		}
		a.say("the search was stopped; this is the best plan that it had", "")
	}
	a.log.Info().Float64("objective", r.Season.Objective).Float64("bound", r.Season.Bound).Float64("gap", r.Season.Gap).
		Int("rounds", r.Season.Rounds).Float64("seconds", r.Season.Seconds).Msg("planned")
	return r, nil
}

// watch gives the options a stopwatch that starts now, and has their progress shown; it must be ended.
func (a *app) watch(opt *optimize.Options) *progress {
	start := a.now()
	opt.Seconds = func() float64 { return a.now().Sub(start).Seconds() }
	p := newProgress(a.err, isTerminal(a.err), opt.Seconds)
	opt.Progress = p.show
	return p
}

// reporting completes a command that writes a report of a plan; one that shows the whole plan says what cannot be met. more
// are the formats that it has beside text, JSON and CSV.
func (a *app) reporting(c *cobra.Command, report func(optimize.Result, layout.Look) writers, whole bool, more ...string) *cobra.Command {
	c.Args = noWords
	c.RunE = func(c *cobra.Command, _ []string) error {
		if err := a.checkFormat(more...); err != nil {
			return err
		}
		r, err := a.shown(c)
		if err != nil {
			return err
		}
		if !whole {
			a.tellBeside(r)
		}
		if err := a.write(report(r, a.look())); err != nil || !whole {
			return err
		}
		return a.unmet(r)
	}
	a.planFlags(c)
	a.formatFlag(c, more...)
	if whole {
		a.strictFlag(c)
	}
	return c
}

func (a *app) strictFlag(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.strict, "strict", false, "end with status 3 when something cannot be met")
}

// prepare reads kennel, patterns and settings and fixes today.
func (a *app) prepare(c *cobra.Command) (source, optimize.Options, error) {
	return a.prepareBy(c, (*source).asOf)
}

// prepareShown is prepare for a report: where a book has a plan in use, nothing is planned.
func (a *app) prepareShown(c *cobra.Command) (source, optimize.Options, error) {
	return a.prepareBy(c, func(s *source, on kennel.Date, opt *optimize.Options) {
		if s.state.Plan.Result == nil {
			s.asOf(on, opt)
		} else {
			s.lookAt(on, opt)
		}
	})
}

func (a *app) prepareBy(c *cobra.Command, asOf func(*source, kennel.Date, *optimize.Options)) (source, optimize.Options, error) {
	opt, err := a.options(c)
	if err != nil {
		return source{}, opt, err
	}
	src, err := a.source(c.Context())
	if err != nil {
		return source{}, opt, err
	}
	on, err := a.today(c, src)
	if err != nil {
		return source{}, opt, err
	}
	asOf(&src, on, &opt)
	return src, opt, nil
}

// planFlags are the flags of every command that plans.
func (a *app) planFlags(c *cobra.Command) {
	a.sourceFlags(c)
	a.seedFlags(c)
}

// unmet says that the plan cannot meet everything; it is an error only where that was asked for.
func (a *app) unmet(r optimize.Result) error {
	if len(r.Cannot) == 0 {
		return nil
	}
	err := &cannotError{len(r.Cannot)}
	if a.flags.strict {
		return err
	}
	a.say(err.Error(), "")
	return nil
}
