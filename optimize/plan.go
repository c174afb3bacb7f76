package optimize

import (
	"context"
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
	"tuckup/optimize/timetable"
)

// Plan makes a season's plan for the kennel: which dog, which areas, how much of them and when, inside the hours
// there are. The same kennel, patterns and options give the same plan, unless a time limit or the context cuts
// the search. Errors are *kennel.InputError for what was told, others for a plan that could not be made.
func Plan(ctx context.Context, k kennel.Kennel, pats kennel.Patterns, opt Options) (Result, error) {
	l, err := layOut(k, pats, opt)
	if err != nil {
		return Result{}, err
	}
	solved, before, err := l.solve(ctx)
	if err != nil {
		return Result{}, err
	}
	laid, err := l.inDays(ctx, solved, before)
	if err != nil {
		return Result{}, err
	}
	solved, plan := laid.solved, laid.plan
	r := Result{
		Kennel: k, Patterns: pats, Options: l.opt.Still(), On: l.opt.On, Week0: l.diary.Week0,
		Slipped: l.slipped, Agreed: l.agreed, Solved: &planned.Solved{Problem: &l.problem, Answer: solved, Held: laid.held},
	}
	r.Season = l.season(solved)
	r.Gathered, r.Weeks, r.Timetable = laid.gathered, laid.weeks, laid.table
	timetable.Lift(r.Timetable, r.Weeks)
	all := l.readiness(plan)
	for i := range all {
		if all[i].Score < kennel.ReadyScore {
			all[i].Cure = l.cure(all[i].dog, all[i].show, plan)
		}
	}
	l.sayNotDone(all, r.Timetable)
	for _, s := range all {
		r.Readiness = append(r.Readiness, s.ShowReadiness)
	}
	r.Outlooks = l.outlooks(plan)
	r.Ways = l.ways(plan)
	if err := l.others(ctx, plan, r.Ways); err != nil {
		return Result{}, err
	}
	r.Points, r.Balance = l.points(plan)
	short, err := l.outOfCoat(ctx, all)
	if err != nil {
		return Result{}, err
	}
	r.Cannot = slices.Concat(l.cannot, short)
	r.Tight = l.tight(solved)
	return r, nil
}

// mainPart is the part of a time limit that the season itself may take; the rest is for finding out why a show
// can't be met.
const mainPart = 0.8

// solve is the season's answer, and the season as the days hold it where both are those of the plan made before.
func (l *layout) solve(ctx context.Context) (r season.Result, held *season.Problem, err error) {
	if len(l.problem.Dogs) == 0 {
		return season.Result{Plan: season.NewPlan(&l.problem), Dearest: -1}, &l.problem, nil
	}
	if r, ok := l.answered(); ok {
		held = l.opt.Begin.Solved.Held
		if held == nil {
			held = &l.problem
		}
		return r, held, nil
	}
	opt := l.seasonOptions(mainPart * l.opt.TimeLimit)
	opt.Start, opt.Touch = l.planBefore(), l.touch()
	if tell := l.opt.Progress; tell != nil {
		opt.Progress = func(p season.Progress) { tell(p.Objective, p.Bound, p.Seconds) }
	}
	r, err = season.Solve(ctx, &l.problem, opt)
	if err != nil {
		return r, nil, fmt.Errorf("the season could not be planned: %w", err)
	}
	return r, nil, nil
}

// seasonOptions are the solver's options with a stopwatch that starts now.
func (l *layout) seasonOptions(limit float64) season.Options {
	opt := season.Options{Seed: l.opt.Seed}
	if clock := l.opt.Seconds; clock != nil {
		start := clock()
		opt.Seconds = func() float64 { return clock() - start }
		opt.Limit = limit
	}
	return opt
}

// asideOptions are those of a season that only says what could be: near the best is near enough.
func (l *layout) asideOptions(limit float64) season.Options {
	opt := l.seasonOptions(limit)
	opt.Gap, opt.Quick = asideGap, true
	return opt
}

// asideGap is how near to the best such a season need be, as a part of its points.
const asideGap = 0.02

// spare is the time that is left of the limit in seconds, and whether there is any; no limit is no time counted.
func (l *layout) spare() (seconds float64, ok bool) {
	if l.opt.Seconds == nil || l.opt.TimeLimit <= 0 {
		return 0, true
	}
	seconds = l.opt.TimeLimit - l.opt.Seconds()
	return seconds, seconds > 0
}

// season is how good the plan is, in the trade's words.
func (l *layout) season(r season.Result) Season {
	s := Season{
		Objective: r.Objective, Bound: r.Bound, Gap: r.Gap, Seconds: r.Seconds, Cut: r.Cut, Rounds: r.Rounds,
	}
	for i, price := range r.Prices {
		if row := l.problem.Rows[i]; price*minutesAnHour > leastPrice {
			s.HourPrice = append(s.HourPrice, HourPrice{
				Week: l.diary.Monday(row.Week), Hands: row.Name, Strip: row.Strip, PointsPerHour: price * minutesAnHour,
			})
		}
	}
	return s
}

// leastPrice is the worth of an hour, in points, below which a week is not short of hours.
const leastPrice = 1e-6
