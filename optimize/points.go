package optimize

import (
	"math"

	"tuckup/optimize/season"
)

// points are what the plan is worth, dog by dog, and what the least mean show readiness adds. Together they are the
// plan's objective.
func (l *layout) points(plan season.Plan) (dogs []DogPoints, balance float64) {
	least, shown := math.Inf(1), false
	for d := range l.problem.Dogs {
		dog := &l.problem.Dogs[d]
		p := DogPoints{Dog: dog.Name, Weeks: make([]float64, l.problem.Weeks)}
		for t := range p.Weeks {
			z := float64(plan.Sessions[d][t])
			p.Weeks[t] = dog.Value[t]*season.Readiness(&l.problem, plan, d, t) - dog.SessionCost*z - season.Uneven(&l.problem, plan, d, t)
			if dog.ShowValue != nil && dog.ShowValue[t] > 0 {
				p.Weeks[t] += dog.ShowValue[t] * season.ShowReadiness(&l.problem, plan, d, t)
			}
			if t < len(dog.Kept) {
				p.Weeks[t] -= dog.Stay * math.Abs(z-float64(dog.Kept[t]))
			}
		}
		dogs = append(dogs, p)
		if dog.Shows != nil {
			least, shown = min(least, season.ShowMean(&l.problem, plan, d)), true
		}
	}
	if shown {
		balance = l.problem.Balance * least
	}
	return dogs, balance
}
