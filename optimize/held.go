package optimize

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
	"tuckup/optimize/timetable"
)

// The season and the days agree: what the days of the first weeks can't hold is fed back, and the shares are planned again in the
// sessions at hand. What is left out even then is taken off the plan, so that all that is said of the season is said of what the
// days hold.

// laid is a season laid into days.
type laid struct {
	solved   season.Result
	held     *season.Problem // that it was solved in; nil = the season's own
	plan     season.Plan     // with crumbs gathered and without what the days leave out
	weeks    []Week          // of plan
	table    planned.Timetable
	gathered Gathered
}

// feedRounds is how often what the days leave out is fed back at most.
const feedRounds = 4

// What a plan may lose of its worth inside its days for leaving out less: points, and a part of it.
const (
	feedCost = 0.02
	feedPart = 0.005
)

// fedBack are the minutes from which what the days leave out is fed back.
const fedBack = 0.5

// inDays lays the season into days. done is the season as the days held it when the same answer was laid out before: then
// there is nothing to feed back.
func (l *layout) inDays(ctx context.Context, solved season.Result, done *season.Problem) (laid, error) {
	best, err := l.lay(solved, done)
	if err != nil || done != nil {
		return best, err
	}
	held := l.problem
	now := best
	for round := range feedRounds {
		_, spare := l.spare()
		if missed(now.table) < fedBack || !spare || ctx.Err() != nil {
			break
		}
		held = l.hold(held, now, round > 0)
		opt := l.seasonOptions(mainPart * l.opt.TimeLimit)
		start := now.solved.Followed()
		opt.Start, opt.Keep, opt.Touch = &start, true, l.touch()
		again, err := season.Solve(ctx, &held, opt)
		if err != nil {
			return laid{}, fmt.Errorf("the season could not be planned inside its days: %w", err)
		}
		again.Bound, again.Rounds = now.solved.Bound, now.solved.Rounds+again.Rounds
		again.Gap = (again.Bound - again.Objective) / math.Max(1, math.Abs(again.Bound))
		again.Seconds, again.Cut = now.solved.Seconds+again.Seconds, now.solved.Cut || again.Cut
		within := held
		if now, err = l.lay(again, &within); err != nil {
			return laid{}, err
		}
		if missed(now.table) < missed(best.table) && l.value(now.plan) > l.value(best.plan)-max(feedCost, feedPart*l.value(best.plan)) {
			best = now
		}
	}
	return best, nil
}

func (l *layout) value(plan season.Plan) float64 { return season.Evaluate(&l.problem, plan) }

// missed are the minutes of pulling that a timetable leaves out.
func missed(table planned.Timetable) (sum kennel.Minutes) {
	for _, x := range table.LeftOut {
		sum += x.Minutes
	}
	return sum
}

// lay gathers the answer's crumbs inside the problem held to (nil = the season's own), lays its first weeks into days, and
// takes off the plan what they leave out.
func (l *layout) lay(solved season.Result, held *season.Problem) (laid, error) {
	in := &l.problem
	if held != nil {
		in = held
	}
	x := laid{solved: solved, held: held}
	if held == &l.problem {
		x.held = nil
	}
	var whole season.Plan
	if whole, x.gathered.Moved = solved.Workable, solved.Moved; whole.Sessions == nil {
		whole, x.gathered.Moved = season.Gather(in, solved.Plan, l.touch())
	}
	x.gathered.Points = season.Evaluate(&l.problem, solved.Plan) - season.Evaluate(&l.problem, whole)
	x.plan = whole
	var left []planned.LeftOut
	for range layings {
		x.weeks = l.weeks(x.plan)
		var err error
		if x.table, err = timetable.LayOut(l.daysFrom(x)); err != nil {
			return laid{}, err
		}
		before := x.plan.Shares
		x.plan = l.placed(x.plan, x.table)
		left = together(left, x.table.LeftOut)
		if reflect.DeepEqual(before, x.plan.Shares) {
			break
		}
	}
	x.table.LeftOut = left
	x.weeks = l.weeks(x.plan)
	x.table.Lost = season.Evaluate(&l.problem, whole) - season.Evaluate(&l.problem, x.plan)
	return x, nil
}

// layings is how often a season is laid out at most until the days hold all that is left of it: dead hair that is left takes
// other minutes in the next week.
const layings = 3

// together are the lines with more of the same work added to them. A duty that was left out is left out once.
func together(all, more []planned.LeftOut) []planned.LeftOut {
	for _, m := range more {
		i := slices.IndexFunc(all, func(x planned.LeftOut) bool {
			return x.Week == m.Week && x.Dog == m.Dog && x.Area == m.Area && x.Duty == m.Duty
		})
		if i < 0 {
			all = append(all, m)
			continue
		}
		all[i].Share, all[i].Minutes, all[i].Points = all[i].Share+m.Share, all[i].Minutes+m.Minutes, all[i].Points+m.Points
		all[i].Crumb = all[i].Crumb && m.Crumb
	}
	return all
}

// daysFrom is what the coming days are laid out from.
func (l *layout) daysFrom(x laid) timetable.Season {
	return timetable.Season{
		Kennel: l.k, Patterns: l.pats, Options: l.opt, Diary: l.diary, Duties: l.duties,
		Problem: &l.problem, Solved: x.solved, Plan: x.plan, Weeks: x.weeks, Slipped: l.slipped,
	}
}

// inWeek is what a timetable has of a dog in a week.
type inWeek struct {
	shares   []float64        // by area
	minutes  []float64        // by area
	sessions int              // days with one
	pinned   bool             // the handler fixed a session
	left     []kennel.Minutes // by area: what was left out
}

// inWeeks is what the timetable has of each dog, by dog and week of the timetable.
func (l *layout) inWeeks(table planned.Timetable) [][]inWeek {
	all := make([][]inWeek, len(l.k.Dogs))
	weeks := 0
	if n := len(table.Days); n > 0 {
		weeks = kennel.WeekOf(table.Days[n-1].On, l.diary.Week0) + 1
	}
	at := map[string]int{}
	for d, dog := range l.k.Dogs {
		at[dog.Name] = d
		all[d] = make([]inWeek, weeks)
		for t := range all[d] {
			n := len(l.problem.Dogs[d].Areas)
			all[d][t] = inWeek{shares: make([]float64, n), minutes: make([]float64, n), left: make([]kennel.Minutes, n)}
		}
	}
	for _, day := range table.Days {
		days := map[int]bool{}
		for _, h := range day.Hands {
			for _, item := range h.Items {
				if item.Kind != planned.ItemSession {
					continue
				}
				d := at[item.Dog]
				w := &all[d][kennel.WeekOf(day.On, l.diary.Week0)]
				w.pinned = w.pinned || item.Pinned
				if !days[d] {
					days[d] = true
					w.sessions++
				}
				for _, a := range item.Areas {
					i := l.areaIndex(d, a.Area)
					w.shares[i] += float64(a.Share)
					w.minutes[i] += float64(a.Minutes)
				}
			}
		}
	}
	for _, x := range table.LeftOut {
		if x.Area != "" {
			d := at[x.Dog]
			all[d][kennel.WeekOf(x.Week, l.diary.Week0)].left[l.areaIndex(d, x.Area)] += x.Minutes
		}
	}
	return all
}

// areaIndex is the place of an area in the dog's pattern.
func (l *layout) areaIndex(d int, name kennel.AreaName) int {
	return slices.IndexFunc(l.pattern(d).Areas, func(a kennel.PatternArea) bool { return a.Name == name })
}

// placed is the plan without what the days of the first weeks leave out. Where the handler fixed a session, the days may pull
// more than the plan, which stays as it is then.
func (l *layout) placed(plan season.Plan, table planned.Timetable) season.Plan {
	p := plan.Clone()
	for d, weeks := range l.inWeeks(table) {
		for t, w := range weeks {
			for a := range p.Shares[d] {
				if share := &p.Shares[d][a][t]; w.shares[a] < *share-tinyShare {
					*share = w.shares[a]
				}
			}
			if !w.pinned {
				p.Sessions[d][t] = min(p.Sessions[d][t], w.sessions)
			}
		}
	}
	return p
}

// tinyShare is arithmetic's part of a share, just under the season's grain: what the days miss by no more is not missed.
const tinyShare = 9e-7

// hold is the season held to what the days hold: areas of which they left something out to the minutes that they have, and the
// dog to its sessions; firmly, all areas of all dogs in such a week.
func (l *layout) hold(p season.Problem, x laid, firmly bool) season.Problem {
	all := l.inWeeks(x.table)
	p.Dogs = slices.Clone(p.Dogs)
	short := map[int]bool{} // weeks
	for d := range all {
		for t, w := range all[d] {
			for _, left := range w.left {
				short[t] = short[t] || left > 0
			}
		}
	}
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		dog.Areas, dog.Most = slices.Clone(dog.Areas), slices.Clone(dog.Most)
		for t, w := range all[d] {
			if !short[t] {
				continue
			}
			any := false
			for a := range dog.Areas {
				if w.left[a] == 0 && !firmly {
					continue
				}
				any = any || w.left[a] > 0
				area := &dog.Areas[a]
				if area.Room == nil {
					area.Room = slices.Repeat([]float64{minutesAnHour * hoursADay}, p.Weeks)
				} else {
					area.Room = slices.Clone(area.Room)
				}
				minutes := w.minutes[a]
				if minutes < float64(l.opt.CrumbTime) && w.shares[a] < float64(l.opt.CrumbShare) {
					minutes = 0 // no touch worth making
				}
				area.Room[t] = min(area.Room[t], roomOf(area, minutes))
			}
			if any {
				dog.Most[t] = min(dog.Most[t], w.sessions)
			}
		}
	}
	return p
}

// hoursADay are more than any session has.
const hoursADay = 24

// touch is what a touch must have to be worth making.
func (l *layout) touch() season.Touch {
	return season.Touch{Share: float64(l.opt.CrumbShare), Minutes: float64(l.opt.CrumbTime)}
}
