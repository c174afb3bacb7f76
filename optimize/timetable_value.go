package optimize

import (
	"tuckup/kennel"
	"tuckup/optimize/season"
)

// The worth of what is not pulling, and of how a week is laid out, in the season's points. Settings of taste: all but
// duties stay below what pulling is worth.
const (
	showDutyWorth    = 4      // a duty for a show: never left out for pulling
	regularDutyWorth = 2      // a duty that comes round: the hours for it were set aside
	bathWorth        = 0.01   // a lifting bath
	leastWorth       = 0.001  // of a minute of pulling that the season wants at all
	earlyWorth       = 0.002  // of each day by which the most pressing session comes sooner
	evenWorth        = 0.0001 // of each minute by which a day is no fuller than the others
)

// pricer says what work of the season is worth, at the season's prices.
type pricer struct {
	l      *layout
	plan   season.Plan
	prices []float64
	whole  []float64 // dog: points of its own plan
}

func (l *layout) newPricer(solved season.Result, plan season.Plan) *pricer {
	p := &pricer{l: l, plan: plan, prices: solved.Prices}
	for d := range l.k.Dogs {
		one := l.single(l.problem.Dogs[d])
		p.whole = append(p.whole, season.Evaluate(&one, p.only(d)))
	}
	return p
}

// only is the plan of dog d alone.
func (p *pricer) only(d int) season.Plan {
	return season.Plan{Sessions: p.plan.Sessions[d : d+1], Shares: p.plan.Shares[d : d+1]}
}

// points is what the season would lose if the dog's area were not pulled in the week and nothing else changed, but no
// less than what its minutes are worth elsewhere in that week.
func (p *pricer) points(d, a, t int) float64 {
	one := p.l.single(p.l.problem.Dogs[d])
	without := p.only(d)
	shares := append([][]float64(nil), without.Shares[0]...)
	shares[a] = append([]float64(nil), shares[a]...)
	minutes := shares[a][t] * one.Dogs[0].Areas[a].Minutes
	shares[a][t] = 0
	without.Shares = [][][]float64{shares}
	var price float64
	for r, row := range p.l.problem.Rows {
		if row.Week == t && row.Kinds>>one.Dogs[0].Areas[a].Kind&1 == 1 && r < len(p.prices) {
			price += p.prices[r]
		}
	}
	return max(p.whole[d]-season.Evaluate(&one, without), minutes*max(price, 0))
}

// areaIndex is the place of an area in the dog's pattern.
func (l *layout) areaIndex(d int, name kennel.AreaName) int {
	for a, area := range l.pattern(d).Areas {
		if area.Name == name {
			return a
		}
	}
	return -1
}
