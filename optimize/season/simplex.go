package season

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// revised is the revised primal simplex with a dense inverse of the basis, which it keeps for the next solve: columns
// and rows that come in, and gains that change, cost only the pivots that they cause.
type revised struct {
	of    *program // whose basis it is
	basis []int
	inv   []float64   // inverse of the basis, column by column
	age   int         // pivots since the inverse was made afresh
	pos   []bool      // by column: in the basis
	few   []int       // columns that gained at the last look at all of them
	late  func() bool // whether time is over; nil = never
}

const (
	gainTol     = 1e-9 // a column that gains less is left alone
	fewPart     = 0.05 // of the best gain: columns that are looked at again before all are
	pivotTol    = 1e-9
	refactor    = 100   // pivots between fresh inverses
	lateSpan    = 8     // pivots between two looks at the time
	singularTol = 1e-11 // pivots of a fresh inverse that are smaller are none
	stallSpan   = 400   // pivots without gain before Bland's rule
)

var (
	errSingular  = errors.New("the basis is singular")
	errUnbounded = errors.New("the program has no finite optimum")
	errPivots    = errors.New("the simplex took too many pivots")
)

func (s *revised) solve(p *program, basis []int) (answer, error) {
	m := len(p.limit)
	warm, err := s.begin(p, basis)
	if err != nil {
		return answer{}, err
	}
	b := p.limit
	if !warm {
		b = p.nudged(basis)
	}
	xb, y, w := s.times(b), s.prices(p), make([]float64, m)
	still, most := 0, 100*(m+50)
	for pivots := 0; ; pivots++ {
		switch {
		case pivots > most:
			return answer{}, errPivots
		case pivots%lateSpan == 0 && s.stopped():
			return answer{}, errCut
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
		for i := range xb {
			xb[i] -= step * w[i]
		}
		xb[leave] = step
		s.pos[s.basis[leave]], s.pos[enter] = false, true
		s.basis[leave] = enter
		s.update(leave, w)
		for k := range y {
			y[k] += gain * s.inv[k*m+leave]
		}
		if s.age++; s.age >= refactor {
			if err := s.invert(p); err != nil {
				return answer{}, err
			}
			xb, y = s.times(b), s.prices(p)
		}
	}
	return p.finish(s.basis, s.times(p.limit), s.prices(p)), nil
}

// stopped reports whether time is over.
func (s *revised) stopped() bool { return s.late != nil && s.late() }

// begin takes up the basis: as it stands, or grown by new rows, or afresh.
func (s *revised) begin(p *program, basis []int) (warm bool, err error) {
	m, old := len(basis), len(s.basis)
	s.few = s.few[:0]
	s.pos = make([]bool, len(p.cols))
	for _, j := range basis {
		s.pos[j] = true
	}
	if s.of == p && old <= m && len(s.inv) == old*old && slices.Equal(s.basis, basis[:old]) {
		for s.basis = append(s.basis, basis[old:]...); old < m && !s.stopped() && s.grow(p, old); {
			old++
		}
		if old == m {
			return true, nil
		}
	}
	s.of = p
	s.basis = append(s.basis[:0], basis...)
	return false, s.invert(p)
}

// grow adds row i to the inverse; the column that is basic there must have no other entry.
func (s *revised) grow(p *program, i int) bool {
	own := &p.cols[s.basis[i]]
	if len(own.row) != 1 || int(own.row[0]) != i {
		return false
	}
	inv, n := make([]float64, (i+1)*(i+1)), i+1
	for k := range i {
		copy(inv[k*n:], s.inv[k*i:k*i+i])
	}
	for k := range i {
		c := &p.cols[s.basis[k]]
		for e := len(c.row) - 1; e >= 0; e-- {
			if int(c.row[e]) == i {
				for x := range i {
					inv[x*n+i] -= c.at[e] * s.inv[x*i+k] / own.at[0]
				}
				break
			}
		}
	}
	inv[i*n+i] = 1 / own.at[0]
	s.inv = inv
	return true
}

// entering is a column that gains, with its gain: the best of a few that gained at the last look at all of them, or
// of all; under Bland's rule the first that gains.
func (s *revised) entering(p *program, y []float64, bland bool) (int, float64) {
	if !bland {
		if at, best := s.bestOf(p, y); at >= 0 {
			return at, best
		}
	}
	best, at := gainTol, -1
	s.few = s.few[:0]
	for j := range p.cols {
		if s.pos[j] {
			continue
		}
		g := p.cols[j].reduced(y)
		if g <= gainTol {
			continue
		}
		if bland {
			return j, g
		}
		s.few = append(s.few, j)
		if g > best {
			best, at = g, j
		}
	}
	kept := s.few[:0]
	for _, j := range s.few {
		if p.cols[j].reduced(y) >= fewPart*best {
			kept = append(kept, j)
		}
	}
	s.few = kept
	return at, best
}

// bestOf is the best of the few, if one of them still gains.
func (s *revised) bestOf(p *program, y []float64) (int, float64) {
	best, at := gainTol, -1
	for _, j := range s.few {
		if s.pos[j] {
			continue
		}
		if g := p.cols[j].reduced(y); g > best {
			best, at = g, j
		}
	}
	return at, best
}

// invert makes the inverse afresh: from the unit matrix, the basis comes in column by column (Gauss and Jordan), the
// ones with fewest entries first, each in the free row where it is largest.
func (s *revised) invert(p *program) error {
	m := len(p.limit)
	s.inv = append(s.inv[:0], make([]float64, m*m)...)
	for i := range m {
		s.inv[i*m+i] = 1
	}
	order := make([]int, m)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(len(p.cols[s.basis[a]].row), len(p.cols[s.basis[b]].row))
	})
	w, at, free := make([]float64, m), unset(m), unset(m) // at: by place in the basis, its row
	for k, i := range order {
		if k%lateSpan == 0 && s.stopped() {
			s.inv = nil
			return errCut
		}
		s.column(&p.cols[s.basis[i]], w)
		row, most := -1, singularTol
		for r, v := range w {
			if free[r] < 0 && math.Abs(v) > most {
				row, most = r, math.Abs(v)
			}
		}
		if row < 0 {
			s.inv = nil
			return errSingular
		}
		at[i], free[row] = row, i
		s.update(row, w)
	}
	s.sort(at)
	s.age = 0
	return nil
}

// sort puts the inverse's rows in the order of the basis.
func (s *revised) sort(at []int) {
	m := len(at)
	was := make([]float64, m)
	for k := range m {
		column := s.inv[k*m : k*m+m]
		copy(was, column)
		for i, r := range at {
			column[i] = was[r]
		}
	}
}

// column sets w to the inverse times a column.
func (s *revised) column(c *col, w []float64) {
	m := len(w)
	clear(w)
	for k, r := range c.row {
		floats.AddScaled(w, c.at[k], s.inv[int(r)*m:int(r)*m+m])
	}
}

func (s *revised) times(b []float64) []float64 {
	m := len(b)
	x := make([]float64, m)
	for k, v := range b {
		if v != 0 {
			floats.AddScaled(x, v, s.inv[k*m:k*m+m])
		}
	}
	return x
}

func (s *revised) prices(p *program) []float64 {
	m := len(p.limit)
	gain, y := make([]float64, m), make([]float64, m)
	for i, j := range s.basis {
		gain[i] = p.cols[j].gain
	}
	for k := range y {
		y[k] = floats.Dot(gain, s.inv[k*m:k*m+m])
	}
	return y
}

// update carries the inverse over a pivot in row leave with the entering column w.
func (s *revised) update(leave int, w []float64) {
	m := len(w)
	f := 1 / w[leave]
	for k := range m {
		column := s.inv[k*m : k*m+m]
		if v := column[leave] * f; v != 0 {
			floats.AddScaled(column, -v, w)
			column[leave] = v
		}
	}
}

// state is what a revised simplex must remember to go back to a basis.
type state struct {
	basis []int
	inv   []float64
	age   int
}

func (s *revised) save(into *state) {
	into.basis = append(into.basis[:0], s.basis...)
	into.inv = append(into.inv[:0], s.inv...)
	into.age = s.age
}

func (s *revised) restore(from *state) {
	s.basis = append(s.basis[:0], from.basis...)
	s.inv = append(s.inv[:0], from.inv...)
	s.age = from.age
}
