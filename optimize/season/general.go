package season

import (
	"errors"
	"fmt"
	"time"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// general is gonum's simplex. It tells no basis and no prices, so the right-hand side is nudged until the columns
// in use are the basis; prices come from that basis. It has no limit on pivots and may never end, so its time is
// bounded from outside.
type general struct {
	patience time.Duration
	late     func() bool // whether time is over; nil = never
}

var (
	errLate    = errors.New("the general simplex took too long")
	errPanic   = errors.New("the general simplex failed inside")
	errNoBasis = errors.New("the columns in use are no basis")
)

func (g general) solve(p *program, basis []int) (answer, error) {
	m, n := len(p.limit), len(p.cols)
	a := mat.NewDense(m, n, nil)
	c := make([]float64, n)
	for j := range p.cols {
		c[j] = -p.cols[j].gain
		for k, r := range p.cols[j].row {
			a.Set(int(r), j, p.cols[j].at[k])
		}
	}
	type found struct {
		x   []float64
		err error
	}
	done := make(chan found, 1)
	go func() {
		defer func() {
			if r := recover(); r != nil {
				done <- found{err: fmt.Errorf("%w: %v", errPanic, r)}
			}
		}()
		_, x, err := lp.Simplex(c, a, p.nudged(basis), 1e-10, append([]int(nil), basis...))
		done <- found{x, err}
	}()
	// A late answer is dropped and counted; the one that takes its place may be another of the same worth.
	late := time.NewTimer(g.patience) //nolint:forbidigo // the only way to bound a simplex that may never end
	defer late.Stop()
	look := time.NewTicker(generalLook) //nolint:forbidigo // .. or to see meanwhile that time is over
	defer look.Stop()
	var f found
	for waits := true; waits; {
		select {
		case f = <-done:
			waits = false
		case <-late.C:
			return answer{}, errLate
		case <-look.C:
			if g.late != nil && g.late() {
				return answer{}, errCut
			}
		}
	}
	if f.err != nil {
		return answer{}, f.err
	}
	used := make([]int, 0, m)
	for j, v := range f.x {
		if v > nudge/100 {
			used = append(used, j)
		}
	}
	if len(used) != m {
		return answer{}, errNoBasis
	}
	s := revised{late: g.late} // from this basis it has no more to do than to tell the prices, or to see that there is more to do
	return s.solve(p, used)
}

// checked asks the general solver while the program is small enough for it, checks what it says, and falls back on
// the revised simplex, whose answer is checked too.
type checked struct {
	general  programSolver
	revised  programSolver
	rows     int // most rows for the general solver
	failures Failures
}

// newChecked is a solver that stops when time is over; nil = never.
func newChecked(late func() bool) *checked {
	return &checked{general: general{patience: generalPatience, late: late}, revised: &revised{late: late}, rows: generalRows}
}

const (
	generalRows     = 24 // rows from which gonum's dense simplex is slower than it is worth
	generalTrouble  = 3  // failures after which it is not asked again
	generalPatience = 2 * time.Second
	generalLook     = 10 * time.Millisecond // between two looks at the time while it works
	residualTol     = 1e-6
	gapTol          = 1e-5
)

func (s *checked) solve(p *program, basis []int) (answer, error) {
	if len(p.limit) <= s.rows && s.failures.All() < generalTrouble {
		a, err := s.general.solve(p, basis)
		if err == nil && p.trusts(a) {
			return a, nil
		}
		if errors.Is(err, errCut) {
			return answer{}, err
		}
		s.failures.count(err)
	}
	return trusted{s.revised}.solve(p, basis)
}

// trusted checks what a solver says.
type trusted struct{ by programSolver }

func (s trusted) solve(p *program, basis []int) (answer, error) {
	a, err := s.by.solve(p, basis)
	if err == nil && !p.trusts(a) {
		err = errSingular
	}
	return a, err
}

func (p *program) trusts(a answer) bool {
	primal, dual, gap := p.residuals(a)
	return primal <= residualTol && dual <= residualTol && gap <= gapTol
}

// Failures are the times that the general linear program solver gave no answer that could be trusted, by kind. The
// revised simplex answered instead.
type Failures struct {
	Late     int // it did not end within its time
	Residual int // its answer breaks the program's rows, or a column would still gain
	NoBasis  int // its answer tells no basis, and so no prices
	Panic    int // it failed inside
	Error    int // it said that there is no answer
}

// All is the number of failures of any kind.
func (f Failures) All() int { return f.Late + f.Residual + f.NoBasis + f.Panic + f.Error }

// add takes in those of another.
func (f *Failures) add(o Failures) {
	f.Late += o.Late
	f.Residual += o.Residual
	f.NoBasis += o.NoBasis
	f.Panic += o.Panic
	f.Error += o.Error
}

// count takes in a failure; no error is an answer with bad residuals.
func (f *Failures) count(err error) {
	switch {
	case err == nil:
		f.Residual++
	case errors.Is(err, errLate):
		f.Late++
	case errors.Is(err, errNoBasis):
		f.NoBasis++
	case errors.Is(err, errPanic):
		f.Panic++
	default:
		f.Error++
	}
}
