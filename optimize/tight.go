package optimize

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

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
// dog's standing readiness. Each dog that could use the hour is planned again with it, the other dogs and its own
// sessions of other weeks staying as they are; what it gains counts from its plan made again without the hour, so that
// nothing else is taken for the hour's doing. Nobody is named when nobody gains or no time is left.
func (l *layout) gainer(ctx context.Context, plan season.Plan, row int) (dog, show string, err error) {
	type candidate struct {
		dog  int
		with season.Plan
		most float64 // points that it can gain
	}
	var all []candidate
	for d := range l.k.Dogs {
		if l.problem.Dogs[d].Most[l.problem.Rows[row].Week] == 0 {
			continue
		}
		with, ok, err := l.planLeft(ctx, plan, d, row, minutesAnHour)
		if err != nil || !ok {
			return "", "", err
		}
		all = append(all, candidate{d, with, season.Evaluate(&l.problem, with) - season.Evaluate(&l.problem, plan)})
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.most, a.most) })
	best := leastPrice
	for _, c := range all {
		if c.most <= best {
			break
		}
		without, ok, err := l.planLeft(ctx, plan, c.dog, row, 0)
		if err != nil || !ok {
			return "", "", err
		}
		if gain := season.Evaluate(&l.problem, c.with) - season.Evaluate(&l.problem, without); gain > best {
			best, dog, show = gain, l.k.Dogs[c.dog].Name, l.rising(c.dog, without, c.with)
		}
	}
	return dog, show, nil
}

// planLeft is the plan with dog d planned again in the time that the other dogs leave to it, with more minutes in one
// row; false when there is no time for it.
func (l *layout) planLeft(ctx context.Context, plan season.Plan, d, row int, more float64) (season.Plan, bool, error) {
	limit, ok := l.spare()
	if !ok {
		return season.Plan{}, false, nil
	}
	p := l.left(plan, d, row, more)
	r, err := season.Solve(ctx, &p, l.seasonOptions(limit))
	if err != nil {
		return season.Plan{}, false, fmt.Errorf("%s could not be planned in the hours left to it: %w", p.Dogs[0].Name, err)
	}
	return replaced(plan, d, r.Plan), true, nil
}

// left is the season of dog d alone in the time that the other dogs of the plan leave to it, with more minutes in one
// row. In other weeks than that row's it has the plan's sessions, no longer than the week's rows leave them; work that
// a row does not count is taken as planned.
func (l *layout) left(plan season.Plan, d, row int, more float64) season.Problem {
	dog := l.problem.Dogs[d]
	dog.Minutes, dog.Most = slices.Clone(dog.Minutes), slices.Clone(plan.Sessions[d])
	week := l.problem.Rows[row].Week
	longest := dog.Minutes[week]
	dog.Most[week] = l.problem.Dogs[d].Most[week]
	minutes := make([]float64, len(l.problem.Rows))
	for i, r := range l.problem.Rows {
		minutes[i] = max(0, r.Capacity-l.taken(r, plan, func(o int) bool { return o != d })) +
			l.taken(season.Row{Week: r.Week, Kinds: ^r.Kinds}, plan, func(o int) bool { return o == d })
		if i == row {
			minutes[i] += more
		}
		if r.Week == week { // as many sessions as the time is good for, as planned at the least
			good := max(1, plan.Sessions[d][week], int(math.Ceil(minutes[i]/longest)))
			dog.Most[week] = min(dog.Most[week], good)
		}
	}
	for i, r := range l.problem.Rows {
		if n := dog.Most[r.Week]; n > 0 {
			each := minutes[i] / float64(n)
			if !r.SetUps {
				each += dog.SetUp
			}
			dog.Minutes[r.Week] = min(dog.Minutes[r.Week], each)
		}
	}
	for t, m := range dog.Minutes {
		if m <= dog.SetUp {
			dog.Most[t] = 0
		}
	}
	p := l.single(dog)
	if l.least(plan, d) {
		p.Balance = l.problem.Balance
	}
	return p
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

// taken are the minutes of a row that the dogs that of picks take in the plan.
func (l *layout) taken(row season.Row, plan season.Plan, of func(dog int) bool) (minutes float64) {
	for d, dog := range l.problem.Dogs {
		if !of(d) {
			continue
		}
		for a, area := range dog.Areas {
			if row.Kinds>>area.Kind&1 == 1 {
				minutes += plan.Shares[d][a][row.Week] * area.Minutes
			}
		}
		if row.SetUps {
			minutes += float64(plan.Sessions[d][row.Week]) * dog.SetUp
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
