package timetable

import (
	"tuckup/kennel"
	"tuckup/optimize/season"
)

// The worth of what is not pulling, and of how a week is laid out, in the season's points. Settings of taste: all but
// duties stay below what pulling is worth.
const (
	showDutyWorth    = 4      // a duty for a show: never left out for pulling
	firstWorth       = 1      // of an area that was left out twice running, beside what it brings
	regularDutyWorth = 2      // a duty that comes round: the hours for it were set aside
	bathWorth        = 0.02   // a lifting bath
	leastWorth       = 0.001  // of a minute of pulling that the season wants at all
	slowest          = 26     // weeks until an area shows that count as much as its minutes, where only these count
	dearWorth        = 0.0005 // of a minute of hands that work jackets, kept free of duties
	earlyWorth       = 0.002  // of each day by which the most pressing session comes sooner
	evenWorth        = 0.0001 // of each minute by which a day is no fuller than the others
)

// pricer says what work of the season is worth, at the season's prices.
type pricer struct {
	l      *Season
	plan   season.Plan
	prices []float64
	whole  []float64 // dog: points of its own plan
}

func (l *Season) newPricer(solved season.Result, plan season.Plan) *pricer {
	p := &pricer{l: l, plan: plan, prices: solved.Prices}
	for d := range l.Kennel.Dogs {
		one := l.single(d)
		p.whole = append(p.whole, season.Evaluate(&one, p.only(d)))
	}
	return p
}

// only is the plan of dog d alone.
func (p *pricer) only(d int) season.Plan {
	return season.Plan{Sessions: p.plan.Sessions[d : d+1], Shares: p.plan.Shares[d : d+1]}
}

// points is what leaving an area of the dog out of the week costs the season: the cheaper of never making up for it and
// of doing it in the dog's next week with sessions, if it may be done there, at what its minutes are worth there.
func (p *pricer) points(d, a, t int) float64 {
	one := p.l.single(d)
	area := one.Dogs[0].Areas[a]
	share := p.plan.Shares[d][a][t]
	cost := p.whole[d] - season.Evaluate(&one, p.without(d, a, t, t))
	for next := t + 1; next < p.l.Diary.Weeks; next++ {
		if p.plan.Sessions[d][next] == 0 {
			continue
		}
		if p.plan.Shares[d][a][next]+share <= area.Most[next]+tinyMinutes {
			later := p.whole[d] - season.Evaluate(&one, p.without(d, a, t, next))
			cost = min(cost, later+share*area.Minutes*p.price(area.Kind, next))
		}
		break
	}
	return max(0, cost)
}

// without is the plan of dog d with the share of an area in week t moved to another week, or left out where that is t.
func (p *pricer) without(d, a, t, to int) season.Plan {
	plan := p.only(d)
	shares := append([][]float64(nil), plan.Shares[0]...)
	shares[a] = append([]float64(nil), shares[a]...)
	if to != t {
		shares[a][to] += shares[a][t]
	}
	shares[a][t] = 0
	plan.Shares = [][][]float64{shares}
	return plan
}

// price is what a minute of pulling of a kind is worth in week t.
func (p *pricer) price(kind, t int) (points float64) {
	for r, row := range p.l.Problem.Rows {
		if row.Week == t && row.Kinds>>kind&1 == 1 && r < len(p.prices) {
			points += max(0, p.prices[r])
		}
	}
	return points
}

// areaIndex is the place of an area in the dog's pattern.
func (l *Season) areaIndex(d int, name kennel.AreaName) int {
	for a, area := range l.pattern(d).Areas {
		if area.Name == name {
			return a
		}
	}
	return -1
}

// single is the season of one dog without bounds on hours.
func (l *Season) single(d int) season.Problem {
	p := *l.Problem
	p.Dogs = p.Dogs[d : d+1]
	p.Rows, p.Balance = nil, 0
	return p
}
