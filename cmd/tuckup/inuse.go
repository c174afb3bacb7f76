package main

import (
	"context"
	"fmt"
	"reflect"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/optimize/planned"
	"tuckup/reports/say"
)

// shown is the plan that a report shows: the plan in use of a book, as it is seen on the day and without a search. Of a kennel file, or a
// book in which no plan was taken yet, it is a plan made now.
func (a *app) shown(c *cobra.Command) (optimize.Result, error) {
	src, opt, err := a.prepareShown(c)
	if err != nil {
		return optimize.Result{}, err
	}
	r, _, err := a.shownOf(c.Context(), src, opt)
	return r, err
}

// shownOf is shown of what was read. whole is the plan itself, of a plan in use without the season in numbers.
func (a *app) shownOf(ctx context.Context, src source, opt optimize.Options) (seen, whole optimize.Result, err error) {
	a.used = src
	if src.state.Plan.Result == nil {
		r, err := a.planned(ctx, src, opt)
		if err == nil && src.book != "" {
			a.say("no plan was taken in this book yet; this one was made for now", "tuckup plan, which takes the first one")
		}
		return r, r, err
	}
	whole, err = planned.UnpackShown(src.state.Plan.Result)
	if err != nil {
		return whole, whole, err
	}
	return optimize.Seen(whole, src.now(opt)), whole, nil
}

// now is what the plan in use is looked at with.
func (s source) now(opt optimize.Options) optimize.Now {
	return optimize.Now{On: opt.On, Kennel: s.kennel, Patterns: s.patterns, Options: opt, Done: opt.Done}
}

// inUse is the plan in use of a book with the season in numbers; nil where none was taken yet.
func (s source) inUse() (*optimize.Result, error) {
	if s.state.Plan.Result == nil {
		return nil, nil
	}
	r, err := planned.Unpack(s.state.Plan.Result)
	return &r, err
}

// tellBeside says on standard error what slipped and what has changed since the plan in use was made, for a report that does not say it.
func (a *app) tellBeside(r optimize.Result) {
	if words := say.Beside(r.InUse, r.On, ""); words != "" {
		a.say(words, "tuckup replan, which plans again and shows what would move")
	}
}

// next is a new plan of what was read. In a book it begins with the plan in use, and says what slipped of that. A plan in use that can't be
// read any more is begun without. same is whether the new one has the same work in all weeks and days.
func (a *app) next(ctx context.Context, src source, opt optimize.Options) (r optimize.Result, same bool, err error) {
	use, err := src.inUse()
	if err != nil {
		a.say(err.Error(), "")
		use = nil
	}
	opt.Begin = use
	r, err = a.planned(ctx, src, opt)
	if err != nil || use == nil {
		return r, false, err
	}
	r.InUse = &optimize.InUse{From: use.On, To: use.LastDay(), Behind: r.CatchUp(use.Behind(opt.Done, r.On), r.On)}
	return r, reflect.DeepEqual(r.Weeks, use.Weeks) && reflect.DeepEqual(r.Timetable.Days, use.Timetable.Days), nil
}

// takeNext makes the plan of a book that was just shown the one in use where that was asked for, or none was taken before. Else it says
// that the one in use stays, or that the new one is the same.
func (a *app) takeNext(ctx context.Context, src source, r optimize.Result, same bool) error {
	first := src.book != "" && src.state.Plan.Result == nil
	switch {
	case a.flags.accept:
		return a.accept(ctx, src, r)
	case first && !r.Idle() && ctx.Err() == nil:
		if err := a.mayTake(ctx, src); err != nil {
			a.say("the plan can't be kept: "+err.Error(), tryOf(err))
			return nil
		}
		return a.accept(ctx, src, r)
	case same:
		a.say(fmt.Sprintf("this is the work of the plan in use, made on %s", say.Day(src.state.Plan.On, r.On)), "")
	case src.book != "" && !first:
		a.say(fmt.Sprintf("this is a new plan; the plan in use, made on %s, stays until you take this one", say.Day(src.state.Plan.On, r.On)),
			"tuckup plan --accept, or tuckup replan to see what would move")
	}
	return nil
}

// mayTake is why nothing can be written in the book; nil = it can, or it is only tried.
func (a *app) mayTake(ctx context.Context, src source) error {
	if a.flags.dryRun {
		return nil
	}
	b, err := a.openBook(ctx, src.patterns)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // nothing was written
	return b.ReadOnly()
}

// accept makes a plan the one in use.
func (a *app) accept(ctx context.Context, src source, r optimize.Result) error {
	if src.book == "" {
		return usage("tuckup import FILE first, then tuckup plan --accept", "only a book keeps a plan that was taken")
	}
	if ctx.Err() != nil {
		return &stoppedError{"the plan was stopped early, so it was not taken", "the same again, and let it finish; or with --time-limit 60"}
	}
	b, err := a.openBook(ctx, src.patterns)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	days := say.Taken(r)
	take := func(s *book.State) error { return s.Take(r, r.On, src.version) }
	if a.flags.dryRun {
		if _, err := b.Try(ctx, take); err != nil {
			return err
		}
		fmt.Fprintf(a.err, "this would take the plan: %s; nothing was changed\n", days)
		return nil
	}
	done, err := b.Change(ctx, src.version, "took the plan: "+days, take)
	if err != nil {
		return err
	}
	a.uncopied(done)
	fmt.Fprintf(a.err, "this is the plan in use now (change %d): %s; tuckup undo takes it back\n", done.Version, days)
	return nil
}
