package optimize

import (
	"reflect"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// planBefore is a plan that was made before as its weeks say it, on this season's dogs, areas and weeks: dogs and areas are known by
// name, weeks by their Monday, and what was done of the week under way is left out. What the plan before does not have is without
// sessions. It is nil when there is nothing to begin with.
func (l *layout) planBefore() *season.Plan {
	before := l.opt.Begin
	if before == nil || before.Solved == nil {
		return nil
	}
	plan := season.NewPlan(&l.problem)
	for _, a := range before.AgreedFrom(l.diary.Week0, l.problem.Weeks, l.k.Dogs, l.opt.Done) {
		d := slices.IndexFunc(l.k.Dogs, func(dog kennel.Dog) bool { return dog.Name == a.Dog })
		t := kennel.WeekOf(a.Week, l.diary.Week0)
		plan.Sessions[d][t] = a.Sessions
		for _, x := range a.Areas {
			if i := l.areaIndex(d, x.Area); i >= 0 {
				plan.Shares[d][i][t] = float64(x.Share)
			}
		}
	}
	return &plan
}

// answered is the answer of the plan made before where nothing has changed that the season is planned from: it need not be
// sought again, and what is worth the same is not changed. Work that was agreed on since is no change when it keeps
// to all of it: leaving it only makes other plans worth less.
func (l *layout) answered() (season.Result, bool) {
	before := l.opt.Begin
	if before == nil || before.Solved == nil || before.Solved.Answer.Cut || len(before.Solved.Problem.Dogs) != len(l.problem.Dogs) {
		return season.Result{}, false
	}
	answer := before.Solved.Answer
	if !l.keeps(answer.Followed()) { // that was laid into days
		return season.Result{}, false
	}
	if !l.keeps(answer.Plan) {
		answer = answer.AsWorkable(before.Solved.Problem)
	}
	was, is := *before.Solved.Problem, l.problem
	was.Dogs, is.Dogs = slices.Clone(was.Dogs), slices.Clone(is.Dogs)
	for d := range is.Dogs {
		was.Dogs[d], is.Dogs[d] = free(was.Dogs[d]), free(is.Dogs[d])
	}
	if !reflect.DeepEqual(was, is) {
		return season.Result{}, false
	}
	stay := l.problem.Dogs
	l.problem, l.agreed = *before.Solved.Problem, before.Agreed // of no other worth than it was
	l.problem.Dogs = slices.Clone(l.problem.Dogs)
	for d := range l.problem.Dogs { // but the days may hold other sessions now than those that were agreed on
		dog, kept := &l.problem.Dogs[d], l.kept(l.k.Dogs[d].Name)
		if len(kept) > 0 {
			dog.Kept, dog.Stay = append(kept, dog.Kept[min(len(kept), len(dog.Kept)):]...), stay[d].Stay
		}
	}
	return answer, true
}

// keeps reports whether a plan has the sessions that were agreed on.
func (l *layout) keeps(plan season.Plan) bool {
	for d, dog := range l.k.Dogs {
		kept := l.kept(dog.Name)
		if d >= len(plan.Sessions) || !slices.Equal(plan.Sessions[d][:len(kept)], kept) {
			return false
		}
	}
	return true
}

// free is a dog without the work that was agreed on.
func free(dog season.Dog) season.Dog {
	dog.Kept = nil
	dog.Areas = slices.Clone(dog.Areas)
	for a := range dog.Areas {
		dog.Areas[a].Agreed, dog.Areas[a].Moved = nil, 0
	}
	return dog
}
