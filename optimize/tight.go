package optimize

import (
	"context"
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// tight is the week where one more hour is worth most. Who would gain most from it is found by planning the
// season again with that hour; where there is no time for that, nobody is named.
func (l *layout) tight(ctx context.Context, solved season.Result, s Season) (*Tight, error) {
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
	limit, ok := l.spare()
	if !ok || solved.Cut || l.opt.TimeLimit > 0 && limit < s.Seconds {
		return tight, nil
	}
	more := l.problem
	more.Rows = slices.Clone(more.Rows)
	more.Rows[dearest].Capacity += minutesAnHour
	again, err := season.Solve(ctx, &more, l.seasonOptions(limit))
	if err != nil {
		return nil, fmt.Errorf("the season with one more hour could not be planned: %w", err)
	}
	tight.Dog, tight.Show = l.gainer(solved.Plan, again.Plan)
	return tight, nil
}

// gainer is the dog, and the show if it is one, whose part of the objective rises most from one plan to another.
// Show is empty when it is the dog's standing readiness, both are when nothing rises.
func (l *layout) gainer(before, after season.Plan) (dog, show string) {
	most := leastPrice
	rise := func(d, t int) float64 {
		return season.Readiness(&l.problem, after, d, t) - season.Readiness(&l.problem, before, d, t)
	}
	for d := range l.k.Dogs {
		priority := l.k.Dogs[d].Priority
		for _, s := range l.shows(d) {
			t := kennel.ReadinessWeek(s.On, l.diary.week0)
			if t < 0 {
				continue
			}
			if g := priority * worth(s) * rise(d, t); g > most {
				most, dog, show = g, l.k.Dogs[d].Name, s.Name
			}
		}
		var standing float64
		for t := range l.diary.weeks {
			standing += rise(d, t)
		}
		if g := priority * l.opt.Standing * standing; g > most {
			most, dog, show = g, l.k.Dogs[d].Name, ""
		}
	}
	return dog, show
}

// worth is the points of a dog of priority 1 that is fully ready for the show.
func worth(s kennel.Show) float64 { return s.Weight * s.Chance * float64(max(1, s.Days)) }
