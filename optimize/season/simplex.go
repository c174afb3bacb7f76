package season

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// revised is the revised simplex with a dense inverse of the basis, which it keeps for the next solve. A basis that a
// changed right-hand side has made infeasible is mended by dual steps first.
type revised struct {
	of    *program // whose basis it is
	basis []int
	inv   []float64 // row-major inverse of the basis
	pos   []bool    // by column: in the basis
}

const (
	gainTol   = 1e-9 // a column that gains less is left alone
	pivotTol  = 1e-9
	mendTol   = 1e-7 // a basic value above minus this is feasible
	refactor  = 120  // pivots between fresh inverses
	stallSpan = 400  // pivots without gain before Bland's rule
)

var (
	errSingular   = errors.New("the basis is singular")
	errInfeasible = errors.New("the program has no answer")
	errUnbounded  = errors.New("the program has no finite optimum")
	errPivots     = errors.New("the simplex took too many pivots")
)

func (s *revised) solve(p *program, basis []int) (answer, error) {
	m := len(p.limit)
	if s.of != p || len(s.inv) != m*m || !slices.Equal(s.basis, basis) {
		s.of = p
		s.basis = append(s.basis[:0], basis...)
		if err := s.invert(p); err != nil {
			return answer{}, err
		}
	}
	s.pos = make([]bool, len(p.cols))
	for _, j := range s.basis {
		s.pos[j] = true
	}
	b := p.nudged()
	xb, y, w := s.times(b), s.prices(p), make([]float64, m)
	if err := s.mend(p, xb, y, w); err != nil {
		return answer{}, err
	}
	still, most := 0, 200*(m+50)
	for pivots := 1; ; pivots++ {
		if pivots > most {
			return answer{}, errPivots
		}
		enter, gain := s.entering(p, y, still > stallSpan)
		if enter < 0 {
			break
		}
		s.column(&p.cols[enter], w)
		leave, step := -1, math.Inf(1)
		for i, v := range w {
			if v <= pivotTol {
				continue
			}
			r := math.Max(0, xb[i]) / v
			if r < step-1e-12 || (r <= step+1e-12 && v > w[leave]) {
				leave, step = i, r
			}
		}
		if leave < 0 {
			return answer{}, errUnbounded
		}
		if step*gain > 1e-12 {
			still = 0
		} else {
			still++
		}
		s.swap(enter, leave, step, gain, xb, y, w)
		if pivots%refactor == 0 {
			if err := s.invert(p); err != nil {
				return answer{}, err
			}
			xb, y = s.times(b), s.prices(p)
		}
	}
	return p.finish(s.basis, s.times(p.limit), s.prices(p)), nil
}

// swap brings column enter, with its gain and its image w, into the basis for the one in row leave.
func (s *revised) swap(enter, leave int, step, gain float64, xb, y, w []float64) {
	m := len(w)
	for i := range xb {
		xb[i] -= step * w[i]
	}
	xb[leave] = step
	s.pos[s.basis[leave]], s.pos[enter] = false, true
	s.basis[leave] = enter
	s.update(leave, w)
	row := s.inv[leave*m : leave*m+m]
	for i := range y {
		y[i] += gain * row[i]
	}
}

// mend makes the basis feasible by dual simplex steps; prices that are not optimal yet count as if they were.
func (s *revised) mend(p *program, xb, y, w []float64) error {
	m := len(w)
	for steps := 0; ; steps++ {
		leave, least := -1, -mendTol
		for i, v := range xb {
			if v < least {
				leave, least = i, v
			}
		}
		if leave < 0 {
			return nil
		}
		if steps > 20*(m+10) {
			return errPivots
		}
		row := s.inv[leave*m : leave*m+m]
		enter, ratio, slope, gain := -1, math.Inf(1), 0.0, 0.0
		for j := range p.cols {
			if s.pos[j] {
				continue
			}
			c := &p.cols[j]
			var alpha float64
			for k, r := range c.row {
				alpha += row[r] * c.at[k]
			}
			if alpha >= -pivotTol {
				continue
			}
			g := c.gain
			for k, r := range c.row {
				g -= y[r] * c.at[k]
			}
			if q := math.Max(0, -g) / -alpha; q < ratio-1e-12 || (q <= ratio+1e-12 && alpha < slope) {
				enter, ratio, slope, gain = j, q, alpha, g
			}
		}
		if enter < 0 {
			return errInfeasible
		}
		s.column(&p.cols[enter], w)
		s.swap(enter, leave, xb[leave]/w[leave], gain, xb, y, w)
	}
}

// entering is the column that gains most (under Bland's rule the first that gains), with its gain.
func (s *revised) entering(p *program, y []float64, bland bool) (int, float64) {
	best, at := gainTol, -1
	for j := range p.cols {
		if s.pos[j] {
			continue
		}
		c := &p.cols[j]
		g := c.gain
		for k, r := range c.row {
			g -= y[r] * c.at[k]
		}
		if g > best {
			best, at = g, j
			if bland {
				break
			}
		}
	}
	return at, best
}

// invert makes the inverse afresh.
func (s *revised) invert(p *program) error {
	m := len(p.limit)
	b := mat.NewDense(m, m, nil)
	for i, j := range s.basis {
		for k, r := range p.cols[j].row {
			b.Set(int(r), i, p.cols[j].at[k])
		}
	}
	var inv mat.Dense
	if err := inv.Inverse(b); err != nil {
		var c mat.Condition
		if !errors.As(err, &c) || math.IsInf(float64(c), 1) || float64(c) > 1e14 {
			s.inv = nil
			return errSingular
		}
	}
	s.inv = append(s.inv[:0], inv.RawMatrix().Data...)
	return nil
}

// column sets w to the inverse times a column.
func (s *revised) column(c *col, w []float64) {
	m := len(w)
	for i := range w {
		row := s.inv[i*m : i*m+m]
		var v float64
		for k, r := range c.row {
			v += row[r] * c.at[k]
		}
		w[i] = v
	}
}

func (s *revised) times(b []float64) []float64 {
	m := len(b)
	x := make([]float64, m)
	for i := range x {
		for k, v := range s.inv[i*m : i*m+m] {
			x[i] += v * b[k]
		}
	}
	return x
}

func (s *revised) prices(p *program) []float64 {
	m := len(p.limit)
	y := make([]float64, m)
	for i, j := range s.basis {
		if g := p.cols[j].gain; g != 0 {
			for k, v := range s.inv[i*m : i*m+m] {
				y[k] += g * v
			}
		}
	}
	return y
}

// update carries the inverse over a pivot in row leave with the entering column w.
func (s *revised) update(leave int, w []float64) {
	m := len(w)
	out := s.inv[leave*m : leave*m+m]
	f := 1 / w[leave]
	for k := range out {
		out[k] *= f
	}
	for i, v := range w {
		if i == leave || v == 0 {
			continue
		}
		row := s.inv[i*m : i*m+m]
		for k, o := range out {
			row[k] -= v * o
		}
	}
}

// state is what a revised simplex must remember to go back to a basis.
type state struct {
	basis []int
	inv   []float64
}

func (s *revised) save(into *state) {
	into.basis = append(into.basis[:0], s.basis...)
	into.inv = append(into.inv[:0], s.inv...)
}

func (s *revised) restore(from *state) {
	s.basis = append(s.basis[:0], from.basis...)
	s.inv = append(s.inv[:0], from.inv...)
}
