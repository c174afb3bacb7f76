package season

import (
	"cmp"
	"math"
	"slices"
)

// tatonnement finds prices near those that balance the hours, and columns of every dog on the way: the prices of limits that
// the dogs' answers exceed rise, those of the others fall, by less from step to step (tatonnement, after Walras). It
// leaves the prices with the least Lagrangian value as those of the column generation.
func (s *solver) tatonnement() {
	q := s.firstPrices()
	least := math.Inf(1)
	for k := range tatonnementSteps {
		cols := make([]*column, len(s.dogs))
		values := make([]float64, len(s.dogs))
		s.each(q, func(n *dogNets) {
			n.highest(nil, 0, rootNodes)
			n.search()
			cols[n.d], values[n.d] = n.bestMix(mixTol)
		})
		if s.clock.expired() {
			return
		}
		load := make([]float64, len(s.p.Rows))
		lagrange := s.p.worth(q.row)
		for d, c := range cols {
			s.columns.useful[d] = append(s.columns.useful[d], c)
			lagrange += values[d]
			for i := range load {
				load[i] += c.load(s.p, &s.p.Rows[i])
			}
		}
		if lagrange < least {
			least, s.duals.lp = lagrange, q
		}
		s.atOnce(cols)
		next := prices{row: make([]float64, len(q.row)), show: q.show}
		for i, r := range s.p.Rows {
			f := math.Pow((load[i]+1)/(r.Capacity+1), pricePower/math.Sqrt(float64(k+1)))
			next.row[i] = q.row[i] * math.Min(mostRise, math.Max(1/mostRise, f))
		}
		q = next
	}
}

// atOnce offers a plan that asks for no linear program: the columns one after the other, the one that gains most first,
// each with as much of its pulling as the limits leave.
func (s *solver) atOnce(cols []*column) {
	pl, left := NewPlan(s.p), make([]float64, len(s.p.Rows))
	for i, r := range s.p.Rows {
		left[i] = r.Capacity
	}
	gain := make([]float64, len(cols))
	order := make([]int, len(cols))
	for d, c := range cols {
		gain[d], order[d] = c.value-idleColumn(s.p, d, nil).value, d
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(gain[b], gain[a]) })
	for _, d := range order {
		idle, part := idleColumn(s.p, d, cols[d].sessions), 1.0
		for i := range s.p.Rows {
			none, all := idle.load(s.p, &s.p.Rows[i]), cols[d].load(s.p, &s.p.Rows[i])
			if none > left[i] {
				part = 0
			} else if all > none {
				part = math.Min(part, (left[i]-none)/(all-none))
			}
		}
		if part < worthPart {
			continue
		}
		copy(pl.Sessions[d], cols[d].sessions)
		for a := range pl.Shares[d] {
			for t, share := range cols[d].shares[a] {
				pl.Shares[d][a][t] = part * share
			}
		}
		for i := range left {
			none, all := idle.load(s.p, &s.p.Rows[i]), cols[d].load(s.p, &s.p.Rows[i])
			left[i] -= none + part*(all-none)
		}
	}
	s.offer(pl, s.p.planValue(pl))
}
