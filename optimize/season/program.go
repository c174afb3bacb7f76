package season

import "math"

// program is a linear program: maximise gain·x under rows A x <= b (or = b) and x >= 0. Columns are sparse; rows
// and columns are only ever added, so the basis of an earlier state can be carried on.
type program struct {
	limit []float64 // b by row
	equal []bool    // row is an equation
	cols  []col
}

// col is a column: its gain and its entries.
type col struct {
	gain float64
	row  []int32
	at   []float64
}

func (c *col) add(row int, v float64) {
	if v != 0 {
		c.row = append(c.row, int32(row))
		c.at = append(c.at, v)
	}
}

// reduced is what a unit of the column gains at the prices.
func (c *col) reduced(y []float64) float64 {
	row, at := c.row, c.at[:len(c.row)]
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
	return c.gain - (g[0] + g[1]) - (g[2] + g[3])
}

func (p *program) addEquation(limit float64) (row int) {
	p.limit, p.equal = append(p.limit, limit), append(p.equal, true)
	return len(p.limit) - 1
}

// addLimit adds a row A x <= limit and the column of its slack.
func (p *program) addLimit(limit float64) (row, slack int) {
	row = len(p.limit)
	p.limit, p.equal = append(p.limit, limit), append(p.equal, false)
	var c col
	c.add(row, 1)
	return row, p.addCol(c)
}

func (p *program) addCol(c col) int {
	p.cols = append(p.cols, c)
	return len(p.cols) - 1
}

// answer is an optimum of a program.
type answer struct {
	x     []float64 // by column
	y     []float64 // by row: price
	basis []int     // columns, one a row
	gain  float64
}

// programSolver finds the optimum of a program from a basis that is feasible for it. An error means that it has no
// answer; what it does return is still checked by residuals.
type programSolver interface {
	solve(p *program, basis []int) (answer, error)
}

// residuals are how far an answer is from being one: the worst broken row or sign, the most that a column would still
// gain, and what the rows are worth at their prices beyond what the columns gain, as a part of both.
func (p *program) residuals(a answer) (primal, dual, gap float64) {
	lhs := make([]float64, len(p.limit))
	var gain, worth, scale float64
	for j := range p.cols {
		c := &p.cols[j]
		dual = max(dual, c.reduced(a.y))
		x := a.x[j]
		if x == 0 {
			continue
		}
		primal = max(primal, -x)
		gain += c.gain * x
		scale += math.Abs(c.gain * x)
		for k, r := range c.row {
			lhs[r] += c.at[k] * x
		}
	}
	for i, b := range p.limit {
		over := lhs[i] - b
		if p.equal[i] {
			over = math.Abs(over)
		}
		primal = math.Max(primal, over/math.Max(1, math.Abs(b)))
		worth += a.y[i] * b
		scale += math.Abs(a.y[i] * b)
	}
	return primal, dual, math.Abs(worth-gain) / math.Max(1, scale)
}

// nudged is the right-hand side with a tiny, fixed, uneven addition, which keeps the simplex out of ties: so much more of
// each column of the basis, so that a basis that is feasible stays so.
func (p *program) nudged(basis []int) []float64 {
	b := append([]float64(nil), p.limit...)
	h := uint64(0x9e3779b97f4a7c15)
	for i, j := range basis {
		h ^= h << 13
		h ^= h >> 7
		h ^= h << 17
		more := nudge * (1 + float64(h>>40)/(1<<24)) * math.Max(1, math.Abs(p.limit[i]))
		for k, r := range p.cols[j].row {
			b[r] += more * p.cols[j].at[k]
		}
	}
	return b
}

const nudge = 1e-8

// finish turns an optimal basis into an answer for the true right-hand side.
func (p *program) finish(basis []int, xb, y []float64) answer {
	a := answer{x: make([]float64, len(p.cols)), y: y, basis: append([]int(nil), basis...)}
	for i, j := range basis {
		if xb[i] > 0 {
			a.x[j] = xb[i]
			a.gain += xb[i] * p.cols[j].gain
		}
	}
	return a
}
