package season

import "math"

// start finds prices near those that balance the hours, and columns of every dog on the way: the prices of limits that
// the dogs' answers exceed rise, those of the others fall, by less from step to step (tatonnement, after Walras). It
// leaves the prices with the least Lagrangian value in open.
func (s *solver) start() {
	q := newPrices(s.p)
	dear := s.p.dearest()
	for i := range s.p.Rows {
		q.row[i] = firstPrice * dear
	}
	least := math.Inf(1)
	for k := range startSteps {
		cols := make([]*column, len(s.dogs))
		values := make([]float64, len(s.dogs))
		s.each(q, func(n *dogNets) {
			n.highest(0, rootNodes)
			n.search()
			cols[n.d], values[n.d] = n.fit(nil, fitTol)
		})
		if s.over() {
			return
		}
		load := make([]float64, len(s.p.Rows))
		lagrange := s.p.worth(q.row)
		for d, c := range cols {
			s.pool[d] = append(s.pool[d], c)
			lagrange += values[d]
			for i := range load {
				load[i] += c.load(s.p, &s.p.Rows[i])
			}
		}
		if lagrange < least {
			least, s.open = lagrange, q
		}
		next := prices{row: make([]float64, len(q.row)), show: q.show}
		for i, r := range s.p.Rows {
			f := math.Pow((load[i]+1)/(r.Capacity+1), startPower/math.Sqrt(float64(k+1)))
			next.row[i] = q.row[i] * math.Min(mostRise, math.Max(1/mostRise, f))
		}
		q = next
	}
}

const (
	startSteps = 10
	firstPrice = 0.03 // of what a minute can be worth at the most
	startPower = 0.35 // of load by capacity in a price's first change
	mostRise   = 4    // times that a price rises or falls in one step at the most
)
