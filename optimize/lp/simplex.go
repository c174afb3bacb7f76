package lp

import (
	"errors"
	"math"
	"slices"
)

// Simplex is the revised primal simplex (Dantzig and Orchard-Hays, Mathematical Tables and Other Aids to Computation 8, 1954)
// with a dense inverse of the basis, which it keeps for the next solve: columns and rows that come in, and gains that change,
// cost only the pivots that they cause. It always ends: pivots are bounded, and a run of them without gain goes by Bland's rule.
// The zero value is ready for use; it serves one program at a time and may be copied only before its first solve.
type Simplex struct {
	Pivots int // in all solves

	of    *Program // whose basis it is
	basis []int
	inv   inverse
	age   int    // pivots since the inverse was made afresh
	pos   []bool // by column: in the basis
	few   []int  // columns that gained at the last look at all of them
}

const (
	gainTol   = 1e-9 // a column that gains less is left alone
	fewPart   = 0.05 // of the best gain: columns that are looked at again before all are
	pivotTol  = 1e-9
	refactor  = 100 // pivots between fresh inverses
	stopSpan  = 8   // pivots between two questions whether to stop
	stallSpan = 400 // pivots without gain before Bland's rule
	sameStep  = 1e-12
)

// The errors of Solve.
var (
	ErrSingular  = errors.New("the basis is singular")
	ErrUnbounded = errors.New("the program has no finite optimum")
	ErrPivots    = errors.New("the simplex took too many pivots")
	ErrUntrusted = errors.New("the answer does not keep to the program")
	ErrStopped   = errors.New("the simplex was stopped")
)

// Solve finds the optimum of a program from a basis that is feasible for it: columns, one a row. It goes on from the last
// solve where that had the same program and basis; rows that came in since must have a column of their own in the basis. stop is
// asked now and then and ends the work; nil = never. What it returns keeps the rows and is worth what duality says; all else is
// an error, and a basis that is not feasible is one or leads to the optimum all the same.
func (s *Simplex) Solve(p *Program, basis []int, stop func() bool) (Answer, error) {
	a, err := s.solve(p, basis, stop)
	if err == nil && !p.trusts(a) {
		err = ErrUntrusted
	}
	return a, err
}

func (s *Simplex) solve(p *Program, basis []int, stop func() bool) (Answer, error) {
	m := len(p.Limit)
	warm, err := s.begin(p, basis, stop)
	if err != nil {
		return Answer{}, err
	}
	b := p.Limit
	if !warm {
		b = p.perturbed(basis)
	}
	xb, y, w := s.inv.times(b), s.prices(p), make([]float64, m)
	still, most := 0, 100*(m+50)
	for pivots := 0; ; pivots++ {
		switch {
		case pivots > most:
			return Answer{}, ErrPivots
		case pivots%stopSpan == 0 && stop != nil && stop():
			return Answer{}, ErrStopped
		}
		enter, gain := s.entering(p, y, still > stallSpan)
		if enter < 0 {
			break
		}
		s.inv.column(&p.Cols[enter], w)
		leave, step := leaving(xb, w)
		if leave < 0 {
			return Answer{}, ErrUnbounded
		}
		if step*gain > sameStep {
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
		s.inv.pivot(leave, w)
		s.inv.addRow(y, gain, leave)
		s.Pivots++
		if s.age++; s.age >= refactor {
			if err := s.invert(p); err != nil {
				return Answer{}, err
			}
			xb, y = s.inv.times(b), s.prices(p)
		}
	}
	return p.answer(s.basis, s.inv.times(p.Limit), s.prices(p)), nil
}

// leaving is the row whose basic column is the first to reach 0 when so much of w comes off, and how far that is; -1 when none
// does. Of rows that tie it takes the one with the largest pivot.
func leaving(xb, w []float64) (row int, step float64) {
	row, step = -1, math.Inf(1)
	for i, v := range w {
		if v <= pivotTol {
			continue
		}
		r := math.Max(0, xb[i]) / v
		if r < step-sameStep || (r <= step+sameStep && v > w[row]) {
			row, step = i, r
		}
	}
	return row, step
}

// begin takes up the basis: as it is, or grown by new rows, or afresh.
func (s *Simplex) begin(p *Program, basis []int, stop func() bool) (warm bool, err error) {
	m, old := len(basis), len(s.basis)
	s.few = s.few[:0]
	s.pos = make([]bool, len(p.Cols))
	for _, j := range basis {
		s.pos[j] = true
	}
	if s.of == p && old <= m && s.inv.rows() == old && slices.Equal(s.basis, basis[:old]) {
		for s.basis = append(s.basis, basis[old:]...); old < m && (stop == nil || !stop()) && s.inv.grow(p, s.basis, old); {
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

// invert makes the inverse afresh.
func (s *Simplex) invert(p *Program) error {
	s.age = 0
	return s.inv.of(p, s.basis)
}

// entering is a column that gains, with its gain: the best of a few that gained at the last look at all of them, or
// of all; under Bland's rule the first that gains.
func (s *Simplex) entering(p *Program, y []float64, bland bool) (int, float64) {
	if !bland {
		if at, best := s.bestOf(p, y); at >= 0 {
			return at, best
		}
	}
	best, at := gainTol, -1
	s.few = s.few[:0]
	for j := range p.Cols {
		if s.pos[j] {
			continue
		}
		g := p.Cols[j].Reduced(y)
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
		if p.Cols[j].Reduced(y) >= fewPart*best {
			kept = append(kept, j)
		}
	}
	s.few = kept
	return at, best
}

// bestOf is the best of the few, if one of them still gains.
func (s *Simplex) bestOf(p *Program, y []float64) (int, float64) {
	best, at := gainTol, -1
	for _, j := range s.few {
		if s.pos[j] {
			continue
		}
		if g := p.Cols[j].Reduced(y); g > best {
			best, at = g, j
		}
	}
	return at, best
}

// prices are those of the rows at the present basis.
func (s *Simplex) prices(p *Program) []float64 {
	gain := make([]float64, len(s.basis))
	for i, j := range s.basis {
		gain[i] = p.Cols[j].Gain
	}
	return s.inv.dots(gain)
}

// State is what a simplex must remember to go back to a basis.
type State struct {
	basis []int
	inv   inverse
	age   int
}

// Save puts where the simplex is into a state.
func (s *Simplex) Save(into *State) {
	into.basis = append(into.basis[:0], s.basis...)
	into.inv.copy(&s.inv)
	into.age = s.age
}

// Restore takes the simplex back to a state that it saved; the program may have grown since.
func (s *Simplex) Restore(from *State) {
	s.basis = append(s.basis[:0], from.basis...)
	s.inv.copy(&from.inv)
	s.age = from.age
}
