package optimize

import (
	"reflect"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// planBefore is a plan that was made before, on this season's dogs, areas and weeks: dogs and areas are known by name, weeks
// by their Monday. What the plan before does not have is without sessions. It is nil when there is nothing to begin with.
func (l *layout) planBefore() *season.Plan {
	before := l.opt.Begin
	if before == nil || before.Solved == nil {
		return nil
	}
	at := map[string]int{}
	for d, dog := range before.Kennel.Dogs {
		at[dog.Name] = d
	}
	plan := season.NewPlan(&l.problem)
	for d, dog := range l.k.Dogs {
		was, ok := at[dog.Name]
		if !ok {
			continue
		}
		later := kennel.WeekOf(l.diary.Week0, before.Week0) // weeks by which this season begins later
		for t := range plan.Sessions[d] {
			if n := t + later; n >= 0 && n < len(before.Solved.Answer.Plan.Sessions[was]) {
				plan.Sessions[d][t] = before.Solved.Answer.Plan.Sessions[was][n]
			}
		}
		for a, area := range l.problem.Dogs[d].Areas {
			i := slices.IndexFunc(before.Solved.Problem.Dogs[was].Areas, func(b season.Area) bool { return b.Name == area.Name })
			if i < 0 {
				continue
			}
			for t := range plan.Shares[d][a] {
				if n := t + later; n >= 0 && n < len(before.Solved.Answer.Plan.Shares[was][i]) {
					plan.Shares[d][a][t] = before.Solved.Answer.Plan.Shares[was][i][n]
				}
			}
		}
	}
	return &plan
}

// answered is the answer of the plan made before where nothing has changed that the season is planned from: it need not be
// sought again, and what is worth the same is not changed. Sessions that were agreed on since are no change when it keeps
// to all of them: leaving them only makes other plans worth less.
func (l *layout) answered() (season.Result, bool) {
	before := l.opt.Begin
	if before == nil || before.Solved == nil || before.Solved.Answer.Cut || len(before.Solved.Problem.Dogs) != len(l.problem.Dogs) {
		return season.Result{}, false
	}
	was, is := *before.Solved.Problem, l.problem
	was.Dogs, is.Dogs = slices.Clone(was.Dogs), slices.Clone(is.Dogs)
	for d := range is.Dogs {
		kept := is.Dogs[d].Kept
		if len(was.Dogs[d].Kept) > 0 && !slices.Equal(was.Dogs[d].Kept, kept) {
			return season.Result{}, false
		}
		if !slices.Equal(before.Solved.Answer.Plan.Sessions[d][:len(kept)], kept) {
			return season.Result{}, false
		}
		was.Dogs[d].Kept, is.Dogs[d].Kept = nil, nil
	}
	return before.Solved.Answer, reflect.DeepEqual(was, is)
}
