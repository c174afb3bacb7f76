package optimize

import (
	"tuckup/kennel"
	"tuckup/optimize/season"
)

// tight is the week where one more hour is worth most, and who would gain most from that hour; nil when no week is
// short of hours.
func (l *layout) tight(solved season.Result) *Tight {
	row := solved.Dearest
	if row < 0 || solved.Prices[row]*minutesAnHour <= leastPrice {
		return nil
	}
	r := l.problem.Rows[row]
	t := &Tight{Week: l.diary.Monday(r.Week), Hands: r.Name, PointsPerHour: solved.Prices[row] * minutesAnHour}
	most := leastPrice
	for d, dog := range l.k.Dogs {
		if gain := l.worth(d, solved.Eased) - l.worth(d, solved.Plan); gain > most {
			most, t.Dog, t.Show = gain, dog.Name, l.rising(d, solved.Plan, solved.Eased)
		}
	}
	return t
}

// worth is what dog d's readiness in a plan is worth, points.
func (l *layout) worth(d int, plan season.Plan) (points float64) {
	dog := &l.problem.Dogs[d]
	for t, v := range dog.Value {
		points += v * season.Readiness(&l.problem, plan, d, t)
		if dog.ShowValue != nil {
			points += dog.ShowValue[t] * season.ShowReadiness(&l.problem, plan, d, t)
		}
	}
	return points
}

// rising is the dog's show whose part of the objective rises most from one plan to another, empty when its standing
// readiness rises more.
func (l *layout) rising(d int, before, after season.Plan) (show string) {
	type readiness func(p *season.Problem, plan season.Plan, d, t int) float64
	rise := func(t int, of readiness) float64 { return of(&l.problem, after, d, t) - of(&l.problem, before, d, t) }
	var most float64
	for t := range l.diary.Weeks {
		most += l.opt.Standing * rise(t, season.Readiness)
	}
	for _, s := range l.shows(d) {
		t := kennel.ReadinessWeek(s.On, l.diary.Week0)
		if t < 0 {
			continue
		}
		if g := showWorth(s) * rise(t, season.ShowReadiness); g > most {
			most, show = g, s.Name
		}
	}
	return show
}

// showWorth is the points of a dog of priority 1 that is fully ready for the show.
func showWorth(s kennel.Show) float64 { return s.Weight * s.Chance * float64(max(1, s.Days)) }
