package optimize

import (
	"tuckup/kennel"
	"tuckup/optimize/season"
)

// sessionsBefore are the sessions of a plan that was made before, on this season's dogs and weeks: dogs are known by name, weeks
// by their Monday. What the plan before does not have is without sessions. It is nil when there is nothing to begin with.
func (l *layout) sessionsBefore() *season.Plan {
	before := l.opt.Begin
	if before == nil || before.problem == nil {
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
		for t := range plan.Sessions[d] {
			if n := kennel.WeekOf(l.diary.monday(t), before.Week0); n >= 0 && n < len(before.solved.Sessions[was]) {
				plan.Sessions[d][t] = before.solved.Sessions[was][n]
			}
		}
	}
	return &plan
}
