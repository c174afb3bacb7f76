package season

// prices are the multipliers of the rows that tie dogs together, all >= 0.
type prices struct {
	row  []float64 // points a minute, by Problem.Rows
	show []float64 // points, by dog: its part in the least mean show readiness
}

func newPrices(p *Problem) prices {
	return prices{row: make([]float64, len(p.Rows)), show: make([]float64, len(p.Dogs))}
}

// mixed is a·q + (1-a)·o.
func (q prices) mixed(a float64, o prices) prices {
	mix := func(x, y []float64) []float64 {
		z := make([]float64, len(x))
		for i := range z {
			z[i] = a*x[i] + (1-a)*y[i]
		}
		return z
	}
	return prices{row: mix(q.row, o.row), show: mix(q.show, o.show)}
}

// weekPrices are row prices gathered by week: of a minute of each kind of work, and of a minute of set-up.
type weekPrices struct {
	kind  [][]float64
	setUp []float64
}

func (p *Problem) weekPrices(row []float64) weekPrices {
	w := weekPrices{kind: table(p.Weeks, p.Kinds), setUp: make([]float64, p.Weeks)}
	for i, r := range p.Rows {
		if row[i] == 0 {
			continue
		}
		for k := range p.Kinds {
			if r.counts(k) {
				w.kind[r.Week][k] += row[i]
			}
		}
		if r.SetUps {
			w.setUp[r.Week] += row[i]
		}
	}
	return w
}

// counts reports whether work of the kind is under the limit.
func (r *Row) counts(kind int) bool { return r.Kinds>>kind&1 == 1 }

// worth is what the rows' minutes cost at the prices: the part of the Lagrangian that no dog decides.
func (p *Problem) worth(row []float64) float64 {
	var s float64
	for i, r := range p.Rows {
		s += row[i] * r.Capacity
	}
	return s
}
