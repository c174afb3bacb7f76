package optimize

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// shown is a dog at a show.
type shown struct {
	ShowReadiness
	dog  int
	show kennel.Show
}

// readiness is each dog's readiness for each show ahead, by date, then show, then dog.
func (l *layout) readiness(plan season.Plan) (all []shown) {
	for d := range l.k.Dogs {
		all = append(all, l.shownAt(d, l.shows(d), plan)...)
	}
	slices.SortStableFunc(all, func(a, b shown) int {
		return cmp.Or(cmp.Compare(a.On, b.On), cmp.Compare(a.Show, b.Show), cmp.Compare(a.Dog, b.Dog))
	})
	return all
}

// shown is how ready dog d is for the show with the plan.
func (l *layout) shown(d int, s kennel.Show, plan season.Plan) shown {
	return l.shownAt(d, []kennel.Show{s}, plan)[0]
}

// shownAt is how ready dog d is for each of the shows with the plan.
func (l *layout) shownAt(d int, shows []kennel.Show, plan season.Plan) (all []shown) {
	weeks := make([]int, len(shows))
	for i, s := range shows {
		weeks[i] = kennel.ReadinessWeek(s.On, l.diary.Week0)
	}
	coat := l.coats[d].With(plan.Shares[d])
	for i, b := range l.bandsOf(d, plan, weeks) {
		s, t := shows[i], weeks[i]
		r := shown{
			ShowReadiness: ShowReadiness{
				Dog: l.k.Dogs[d].Name, Show: s.Name, On: s.On, Chance: s.Chance,
				Score: b.mean, Low: b.low, High: b.high, Likely: b.likely,
				Followed: whole(coat.ShowScore(t)), Idle: whole(l.coats[d].ShowScore(t)),
			},
			dog: d, show: s,
		}
		r.WorstArea, r.WorstScore, r.Why = coat.Worst(t)
		all = append(all, r)
	}
	return all
}

// followed is how ready dog d is for the show if all of the plan is done and it grows as thought.
func (l *layout) followed(d int, s kennel.Show, plan season.Plan) kennel.Score {
	return whole(l.coats[d].With(plan.Shares[d]).ShowScore(kennel.ReadinessWeek(s.On, l.diary.Week0)))
}

// whole keeps a score within 0 to 100 against rounding.
func whole(s kennel.Score) kennel.Score { return min(100, max(0, s)) }

// outlooks are the dogs' coats over the season, left alone and with the plan, in the kennel's order.
func (l *layout) outlooks(plan season.Plan) (all []Outlook) {
	last := l.diary.Weeks - 1
	for d, dog := range l.k.Dogs {
		idle := l.coats[d]
		coat := idle.With(plan.Shares[d])
		today := l.today(d)
		o := Outlook{
			Dog: dog.Name, State: idle.State(today), Score: whole(idle.Score(today)),
			Idle: idle.Windows(0, last), Planned: coat.Windows(0, last),
		}
		for _, a := range idle.Areas {
			o.Areas = append(o.Areas, areaOutlook(a, today))
		}
		for t := range l.diary.Weeks {
			o.IdleScores = append(o.IdleScores, whole(idle.Score(t)))
			o.PlannedScores = append(o.PlannedScores, whole(coat.Score(t)))
			o.IdleStates = append(o.IdleStates, idle.State(t))
			o.PlannedStates = append(o.PlannedStates, coat.State(t))
		}
		all = append(all, o)
	}
	return all
}

// today is the week whose end stands for the dog's coat today.
func (l *layout) today(d int) int { return coatToday(l.coats[d], l.diary.On, l.diary.Week0) }
