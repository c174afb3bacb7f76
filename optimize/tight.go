package optimize

import (
	"context"
	"fmt"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// tight is the week where one more hour is worth most, and who would gain most from that hour.
func (l *layout) tight(ctx context.Context, solved season.Result) (*Tight, error) {
	dearest := -1
	for i, price := range solved.Prices {
		if price*minutesAnHour > leastPrice && (dearest < 0 || price > solved.Prices[dearest]) {
			dearest = i
		}
	}
	if dearest < 0 {
		return nil, nil
	}
	row := l.problem.Rows[dearest]
	tight := &Tight{
		Week: l.diary.monday(row.Week), Hands: row.Name, PointsPerHour: solved.Prices[dearest] * minutesAnHour,
	}
	var err error
	tight.Dog, tight.Show, err = l.gainer(ctx, solved.Plan, dearest)
	return tight, err
}

// gainer is the dog that would gain most from one more hour in a row, and its show that would, empty when it is the
// dog's standing readiness. It plans each dog that could use the hour again, the other dogs staying as they are, once
// with the hours left to it and once with the hour more. Nobody is named when nobody gains or no time is left.
func (l *layout) gainer(ctx context.Context, plan season.Plan, row int) (dog, show string, err error) {
	most := leastPrice
	for d := range l.k.Dogs {
		if l.problem.Dogs[d].Most[l.problem.Rows[row].Week] == 0 {
			continue
		}
		without, ok, err := l.leftTo(ctx, plan, d, row, 0)
		if err != nil || !ok {
			return "", "", err
		}
		with, ok, err := l.leftTo(ctx, plan, d, row, minutesAnHour)
		if err != nil || !ok {
			return "", "", err
		}
		gain := season.Evaluate(&l.problem, with) - season.Evaluate(&l.problem, without)
		if gain > most {
			most, dog, show = gain, l.k.Dogs[d].Name, l.rising(d, without, with)
		}
	}
	return dog, show, nil
}

// leftTo is the plan with dog d planned again in the hours that the other dogs leave to it, with more minutes in one
// row; false when there is no time for it.
func (l *layout) leftTo(ctx context.Context, plan season.Plan, d, row int, more float64) (season.Plan, bool, error) {
	limit, ok := l.spare()
	if !ok {
		return season.Plan{}, false, nil
	}
	p := l.problem
	p.Dogs = []season.Dog{l.problem.Dogs[d]}
	p.Rows = nil
	if !l.least(plan, d) {
		p.Balance = 0
	}
	for i, r := range l.problem.Rows {
		r.Capacity = max(0, r.Capacity-l.others(plan, d, r))
		if i == row {
			r.Capacity += more
		}
		if most(p.Dogs, r) > r.Capacity {
			p.Rows = append(p.Rows, r)
		}
	}
	r, err := season.Solve(ctx, &p, l.seasonOptions(limit))
	if err != nil {
		return season.Plan{}, false, fmt.Errorf("%s could not be planned in the hours left to it: %w", p.Dogs[0].Name, err)
	}
	return replaced(plan, d, r.Plan), true, nil
}

// least reports whether dog d is the one whose shows the balance term is about.
func (l *layout) least(plan season.Plan, d int) bool {
	for o, dog := range l.problem.Dogs {
		if dog.Shows != nil && season.ShowMean(&l.problem, plan, o) < season.ShowMean(&l.problem, plan, d) {
			return false
		}
	}
	return l.problem.Dogs[d].Shows != nil
}

// others are the minutes of a row that the dogs other than d take.
func (l *layout) others(plan season.Plan, d int, row season.Row) (minutes float64) {
	for o, dog := range l.problem.Dogs {
		if o == d {
			continue
		}
		for a, area := range dog.Areas {
			if row.Kinds>>area.Kind&1 == 1 {
				minutes += plan.Shares[o][a][row.Week] * area.Minutes
			}
		}
		if row.SetUps {
			minutes += float64(plan.Sessions[o][row.Week]) * dog.SetUp
		}
	}
	return minutes
}

// replaced is the plan with dog d as in the plan of that dog alone.
func replaced(plan season.Plan, d int, alone season.Plan) season.Plan {
	n := season.Plan{Sessions: append([][]int(nil), plan.Sessions...), Shares: append([][][]float64(nil), plan.Shares...)}
	n.Sessions[d], n.Shares[d] = alone.Sessions[0], alone.Shares[0]
	return n
}

// rising is the dog's show whose part of the objective rises most from one plan to another, empty when its standing
// readiness rises more.
func (l *layout) rising(d int, before, after season.Plan) (show string) {
	rise := func(t int) float64 {
		return season.Readiness(&l.problem, after, d, t) - season.Readiness(&l.problem, before, d, t)
	}
	var most float64
	for t := range l.diary.weeks {
		most += l.opt.Standing * rise(t)
	}
	for _, s := range l.shows(d) {
		t := kennel.ReadinessWeek(s.On, l.diary.week0)
		if t < 0 {
			continue
		}
		if g := worth(s) * rise(t); g > most {
			most, show = g, s.Name
		}
	}
	return show
}

// worth is the points of a dog of priority 1 that is fully ready for the show.
func worth(s kennel.Show) float64 { return s.Weight * s.Chance * float64(max(1, s.Days)) }
