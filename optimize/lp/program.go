// Package lp solves linear programs of the kind that column generation asks: maximise gain·x under rows A x <= b (or = b)
// and x >= 0, where rows and columns come in between one solve and the next. It is numbers only.
package lp

import "math"

// Program is a linear program: maximise gain·x under rows A x <= b (or = b) and x >= 0. Columns are sparse; rows and
// columns are only ever added, so that the basis of an earlier state can be carried on.
type Program struct {
	Limit []float64 // b, by row
	Equal []bool    // by row: it is an equation
	Cols  []Col
}

// Col is a column: what a unit of it gains, and its entries. The zero value has none.
type Col struct {
	Gain float64
	Row  []int32
	At   []float64
}

// Add gives the column an entry; its row must not have one yet.
func (c *Col) Add(row int, v float64) {
	if v != 0 {
		c.Row = append(c.Row, int32(row))
		c.At = append(c.At, v)
	}
}

// Reduced is what a unit of the column gains beyond what it takes of the rows at their prices.
func (c *Col) Reduced(y []float64) float64 {
	row, at := c.Row, c.At[:len(c.Row)]
	var g [4]float64 // sums that need not wait for one another
	for len(row) >= len(g) && len(at) >= len(g) {
		g[0] += y[row[0]] * at[0]
		g[1] += y[row[1]] * at[1]
		g[2] += y[row[2]] * at[2]
		g[3] += y[row[3]] * at[3]
		row, at = row[len(g):], at[len(g):]
	}
	for k, r := range row {
		g[0] += y[r] * at[k]
	}
	return c.Gain - (g[0] + g[1]) - (g[2] + g[3])
}

// AddEquation adds a row A x = limit and returns its place.
func (p *Program) AddEquation(limit float64) (row int) {
	p.Limit, p.Equal = append(p.Limit, limit), append(p.Equal, true)
	return len(p.Limit) - 1
}

// AddLimit adds a row A x <= limit, and the column of its slack.
func (p *Program) AddLimit(limit float64) (row, slack int) {
	row = len(p.Limit)
	p.Limit, p.Equal = append(p.Limit, limit), append(p.Equal, false)
	var c Col
	c.Add(row, 1)
	return row, p.AddCol(c)
}

// AddCol adds a column and returns its place.
func (p *Program) AddCol(c Col) int {
	p.Cols = append(p.Cols, c)
	return len(p.Cols) - 1
}

// Answer is an optimum of a program.
type Answer struct {
	X     []float64 // by column
	Y     []float64 // by row: its price, what a unit more of the limit would gain
	Basis []int     // columns, one a row
	Gain  float64
}

// What an answer may miss and still be trusted: rows and gains absolutely, the two values by the size of what they sum.
const (
	residualTol = 1e-6
	gapTol      = 1e-5
)

// trusts reports whether the answer is one: it keeps the rows, no column would still gain, and rows and columns are worth the
// same (duality).
func (p *Program) trusts(a Answer) bool {
	primal, dual, gap := p.residuals(a)
	return primal <= residualTol && dual <= residualTol && gap <= gapTol
}

// residuals are how far an answer is from being one: the worst broken row or sign, the most that a column would still
// gain, and what the rows are worth at their prices beyond what the columns gain, as a part of both.
func (p *Program) residuals(a Answer) (primal, dual, gap float64) {
	lhs := make([]float64, len(p.Limit))
	var gain, worth, scale float64
	for j := range p.Cols {
		c := &p.Cols[j]
		dual = max(dual, c.Reduced(a.Y))
		x := a.X[j]
		if x == 0 {
			continue
		}
		primal = max(primal, -x)
		gain += c.Gain * x
		scale += math.Abs(c.Gain * x)
		for k, r := range c.Row {
			lhs[r] += c.At[k] * x
		}
	}
	for i, b := range p.Limit {
		over := lhs[i] - b
		if p.Equal[i] {
			over = math.Abs(over)
		}
		primal = math.Max(primal, over/math.Max(1, math.Abs(b)))
		worth += a.Y[i] * b
		scale += math.Abs(a.Y[i] * b)
	}
	return primal, dual, math.Abs(worth-gain) / math.Max(1, scale)
}

// perturbed is the right-hand side with a tiny, fixed, uneven addition, which keeps the simplex out of ties: so much more of
// each column of the basis, so that a basis that is feasible stays so.
func (p *Program) perturbed(basis []int) []float64 {
	b := append([]float64(nil), p.Limit...)
	h := uint64(0x9e3779b97f4a7c15)
	for i, j := range basis {
		h ^= h << 13
		h ^= h >> 7
		h ^= h << 17
		more := perturbation * (1 + float64(h>>40)/(1<<24)) * math.Max(1, math.Abs(p.Limit[i]))
		for k, r := range p.Cols[j].Row {
			b[r] += more * p.Cols[j].At[k]
		}
	}
	return b
}

const perturbation = 1e-8

// answer turns an optimal basis into an answer for the true right-hand side.
func (p *Program) answer(basis []int, xb, y []float64) Answer {
	a := Answer{X: make([]float64, len(p.Cols)), Y: y, Basis: append([]int(nil), basis...)}
	for i, j := range basis {
		if xb[i] > 0 {
			a.X[j] = xb[i]
			a.Gain += xb[i] * p.Cols[j].Gain
		}
	}
	return a
}
