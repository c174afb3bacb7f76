package optimize

import (
	"context"
	"fmt"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// Ahead is when one dog could be in coat if it came first: with all the hours available beside the duties, in as many
// sessions as it stands for, and the rules before the shows that it is named for kept.
type Ahead struct {
	Dog      string
	State    kennel.State // today
	Score    kennel.Score // today
	Earliest kennel.Date  // first day, from today, on which it could be in coat; zero = not in these weeks
	Likely   float64      // chance of being in coat then, as sessions may be missed and it may grow slower or faster than thought; 0 to 1
	// Windows are the weeks in which it could be in coat: in each for itself, not in all of them with one plan.
	Windows []kennel.Window
	// Most is the best that it could be in any of these weeks, and why not better: of a dog that can't be in coat.
	Most      kennel.Score
	MostOn    kennel.Date // Monday of that week
	WorstArea kennel.AreaName
	Why       string
}

// LookAhead says of every dog when it could be in coat if it came first. Errors are those of Plan; an ended context is
// one, and the dogs that were looked at by then come with it.
func LookAhead(ctx context.Context, k kennel.Kennel, pats kennel.Patterns, opt Options) ([]Ahead, error) {
	l, err := layOut(k, pats, opt)
	if err != nil {
		return nil, err
	}
	all := make([]Ahead, 0, len(k.Dogs))
	for d := range k.Dogs {
		a, err := l.lookAhead(ctx, d)
		if err != nil {
			return all, err
		}
		all = append(all, a)
	}
	return all, nil
}

func (l *layout) lookAhead(ctx context.Context, d int) (Ahead, error) {
	today := l.today(d)
	a := Ahead{
		Dog: l.k.Dogs[d].Name, State: l.coats[d].State(today), Score: whole(l.coats[d].Score(today)), Most: -1,
	}
	could := make([]bool, l.diary.Weeks)
	plans := make([]season.Plan, l.diary.Weeks)
	note := func(plan season.Plan, from int) {
		coat := l.coats[d].With(plan.Shares[d])
		for t := from; t < l.diary.Weeks; t++ {
			score := whole(coat.ShowScore(t))
			if score >= kennel.ReadyScore && !could[t] {
				could[t], plans[t] = true, plan
			}
			if score > a.Most {
				a.Most, a.MostOn = score, l.diary.Monday(t)
				a.WorstArea, _, a.Why = coat.Worst(t)
			}
		}
	}
	note(season.NewPlan(&l.problem), 0)
	dog := l.asThought().dog(d)
	for t := range could {
		if could[t] {
			continue
		}
		plan, err := l.first(ctx, d, onlyFor(dog, t))
		if err != nil {
			return a, err
		}
		if err := ctx.Err(); err != nil {
			return a, fmt.Errorf("%s was not looked at to the end: %w", a.Dog, err)
		}
		note(plan, t)
	}
	for t, ok := range could {
		if !ok {
			continue
		}
		monday := l.diary.Monday(t)
		if t == 0 || !could[t-1] {
			a.Windows = append(a.Windows, kennel.Window{From: max(monday, l.diary.On)})
		}
		a.Windows[len(a.Windows)-1].To = monday.AddDays(kennel.DaysAWeek - 1)
		if a.Earliest == 0 {
			a.Earliest, a.Likely = max(monday, l.diary.On), l.bandsOf(d, plans[t], []int{t})[0].likely
		}
	}
	if a.State == kennel.StateInCoat {
		a.Earliest, a.Likely = l.diary.On, l.bandsOf(d, season.NewPlan(&l.problem), []int{today})[0].likely
	}
	return a, nil
}

// first is the plan of dog d, wanted for one week alone, when it comes before all others.
func (l *layout) first(ctx context.Context, d int, dog season.Dog) (season.Plan, error) {
	p := l.single(dog)
	p.Rows = l.problem.Rows
	r, err := season.Solve(ctx, &p, l.seasonOptions(0))
	if err != nil {
		return season.Plan{}, fmt.Errorf("%s could not be planned for one week: %w", dog.Name, err)
	}
	return replaced(season.NewPlan(&l.problem), d, r.Plan), nil
}
