package week

import (
	"math"
	"slices"
)

// master is the linear program that mixes days' work: maximise the sum of cost*x over the columns, each row's sum at
// most its most, by the simplex method with the inverse of the basis kept (Dantzig and Orchard-Hays 1954). Rows are
// pushed apart by a hair so that it does not stand still. Nothing is proven by its answer: bounds are computed from its
// prices, and hold for any.
type master struct {
	most    []float64
	columns []column
	basis   []int // row: a column, or -1-row for a row's slack
	inverse [][]float64
	x       []float64 // of the basis
	prices  []float64 // rows
	pivots  int
	hopeful []int // columns that were worth more than their rows when last looked at
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

const (
	nudge      = 1e-7 // by which rows are pushed apart
	leastPivot = 1e-8
	leastPrice = 1e-9
	sameStep   = 1e-12
	refresh    = 200  // pivots after which the inverse is computed anew
	mostPivots = 5000 // at one go
)

func newMaster(most []float64) *master {
	lp := &master{prices: make([]float64, len(most))}
	for r, m := range most {
		lp.most = append(lp.most, m+nudge*(1+math.Mod(float64(r)*math.Phi, 1)))
		lp.basis = append(lp.basis, -1-r)
		lp.inverse = append(lp.inverse, make([]float64, len(most)))
		lp.inverse[r][r] = 1
	}
	lp.x = slices.Clone(lp.most)
	return lp
}

// solve exchanges columns until none is worth more than its rows.
func (lp *master) solve() {
	lp.reprice()
	lp.hopeful = lp.hopeful[:0]
	d := make([]float64, len(lp.most))
	for range mostPivots {
		j, gain := lp.choose()
		if gain <= leastPrice || !lp.enter(j, gain, d) {
			return
		}
	}
}

// choose is the column that is worth most beyond its rows.
func (lp *master) choose() (best int, gain float64) {
	for r, u := range lp.prices {
		if -u > gain {
			best, gain = -1-r, -u
		}
	}
	for again := range 2 {
		if again > 0 {
			if gain > leastPrice {
				break
			}
			for j := range lp.columns {
				lp.hopeful = append(lp.hopeful, j)
			}
		}
		keep := lp.hopeful[:0]
		for _, j := range lp.hopeful {
			if v := lp.reduced(j); v > leastPrice {
				keep = append(keep, j)
				if v > gain {
					best, gain = j, v
				}
			}
		}
		lp.hopeful = keep
	}
	return best, gain
}

func (lp *master) reduced(j int) float64 {
	c := &lp.columns[j]
	v := c.cost
	for n, r := range c.rows {
		v -= lp.prices[r] * c.coef[n]
	}
	return v
}

// enter brings a column into the basis; false when nothing can leave.
func (lp *master) enter(j int, gain float64, d []float64) bool {
	lp.direction(j, d)
	leave, step := -1, math.Inf(1)
	for r, v := range d {
		if v > leastPivot {
			if s := max(0, lp.x[r]) / v; s < step-sameStep || s < step+sameStep && v > d[leave] {
				leave, step = r, s
			}
		}
	}
	if leave < 0 {
		return false
	}
	row := lp.inverse[leave]
	for k := range row {
		row[k] /= d[leave]
	}
	for r, v := range d {
		if r == leave || v == 0 {
			continue
		}
		lp.x[r] -= step * v
		other := lp.inverse[r]
		for k, w := range row {
			if w != 0 {
				other[k] -= v * w
			}
		}
	}
	lp.x[leave] = step
	for k, w := range row {
		lp.prices[k] += gain * w
	}
	lp.basis[leave] = j
	if lp.pivots++; lp.pivots%refresh == 0 {
		lp.invert()
	}
	return true
}

// direction is the column in terms of the basis.
func (lp *master) direction(j int, d []float64) {
	for r := range d {
		if j < 0 {
			d[r] = lp.inverse[r][-1-j]
			continue
		}
		d[r] = 0
		c := &lp.columns[j]
		for n, k := range c.rows {
			d[r] += lp.inverse[r][k] * c.coef[n]
		}
	}
}

func (lp *master) cost(j int) float64 {
	if j < 0 {
		return 0
	}
	return lp.columns[j].cost
}

// reprice computes the rows' prices anew.
func (lp *master) reprice() {
	clear(lp.prices)
	for r, j := range lp.basis {
		if c := lp.cost(j); c != 0 {
			for k, w := range lp.inverse[r] {
				lp.prices[k] += c * w
			}
		}
	}
}

// invert computes the inverse and what hangs on it anew, by Gauss and Jordan with the largest pivots. A basis that is all
// but singular keeps the inverse that it has.
func (lp *master) invert() {
	n := len(lp.most)
	a := make([][]float64, n) // the basis, beside it what becomes its inverse
	for r := range a {
		a[r] = make([]float64, 2*n)
		a[r][n+r] = 1
	}
	for k, j := range lp.basis {
		if j < 0 {
			a[-1-j][k] = 1
			continue
		}
		for i, r := range lp.columns[j].rows {
			a[r][k] = lp.columns[j].coef[i]
		}
	}
	for k := range n {
		p := k
		for r := k + 1; r < n; r++ {
			if math.Abs(a[r][k]) > math.Abs(a[p][k]) {
				p = r
			}
		}
		if math.Abs(a[p][k]) < leastPivot {
			return
		}
		a[k], a[p] = a[p], a[k]
		for c, v := k, a[k][k]; c < 2*n; c++ {
			a[k][c] /= v
		}
		for r := range a {
			if v := a[r][k]; r != k && v != 0 {
				for c := k; c < 2*n; c++ {
					a[r][c] -= v * a[k][c]
				}
			}
		}
	}
	for r := range a {
		copy(lp.inverse[r], a[r][n:])
		lp.x[r] = 0
		for k, w := range lp.inverse[r] {
			lp.x[r] += w * lp.most[k]
		}
	}
	lp.reprice()
}

// worth is what the mix is worth.
func (lp *master) worth() (sum float64) {
	for r, j := range lp.basis {
		sum += lp.cost(j) * lp.x[r]
	}
	return sum
}
