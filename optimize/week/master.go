package week

import (
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// master is the linear program that mixes days' work: maximise the sum of cost*x over the columns, each row's sum at
// most its most. Rows are pushed apart by a hair so that the simplex does not stand still. Nothing is proven by its answer:
// bounds are computed from its prices, and hold for any.
type master struct {
	prog    lp.Program // a column a row for its slack, then one for each of columns
	simplex lp.Simplex
	columns []column
	basis   []int
	x       []float64 // by column
	prices  []float64 // by row
	value   float64
}

// column is one day's work.
type column struct {
	block   int
	options []int
	pull    float64 // what it is worth beside the options' gains
	cost    float64
	rows    []int
	coef    []float64
}

const pushedApart = 1e-7 // by which rows differ

func newMaster(most []float64) *master {
	m := &master{prices: make([]float64, len(most))}
	for r, b := range most {
		_, slack := m.prog.AddLimit(b + pushedApart*(1+math.Mod(float64(r)*math.Phi, 1)))
		m.basis = append(m.basis, slack)
	}
	return m
}

// add takes in a column.
func (m *master) add(c column) {
	var p lp.Col
	for n, r := range c.rows {
		p.Add(r, c.coef[n])
	}
	m.prog.AddCol(p)
	m.columns, m.x = append(m.columns, c), append(m.x, 0)
}

// solve brings mix and prices to the optimum over the columns there are. Where the simplex has no answer they stay as they are.
func (m *master) solve() {
	rows := len(m.prog.Limit)
	for j := range m.columns {
		m.prog.Cols[rows+j].Gain = m.columns[j].cost
	}
	a, err := m.simplex.Solve(&m.prog, m.basis, nil)
	if err != nil {
		return
	}
	m.basis, m.x, m.prices, m.value = a.Basis, slices.Clone(a.X[rows:]), a.Y, a.Gain
}
