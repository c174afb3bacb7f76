package season

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// Linear programs are held against duality: an answer that keeps the rows, whose prices let no column gain, is the
// optimum, and then the two programs' values are equal and a row with time over has no price. Every claim is worked out
// here from the program and the answer alone.

const (
	lpTol   = 1e-6 // of a row, a column's gain or the value, against the size of the numbers in it
	lpSeeds = 2400
)

// lpFault says how an answer fails to be an optimum of the program; empty when it is one.
func lpFault(p *program, a answer) string {
	if len(a.x) != len(p.cols) || len(a.y) != len(p.limit) {
		return fmt.Sprintf("%d columns and %d prices of %d and %d", len(a.x), len(a.y), len(p.cols), len(p.limit))
	}
	lhs, size := make([]float64, len(p.limit)), make([]float64, len(p.limit))
	for i, b := range p.limit {
		size[i] = math.Max(1, math.Abs(b))
	}
	var gain, worth, scale float64
	for j, c := range p.cols {
		x := a.x[j]
		if !(x >= -lpTol) || math.IsInf(x, 0) {
			return fmt.Sprintf("column %d is %v", j, x)
		}
		gain += c.gain * x
		scale += math.Abs(c.gain * x)
		reduced, most := c.gain, math.Max(1, math.Abs(c.gain))
		for k, r := range c.row {
			lhs[r] += c.at[k] * x
			size[r] = math.Max(size[r], math.Abs(c.at[k]*x))
			reduced -= a.y[r] * c.at[k]
			most = math.Max(most, math.Abs(a.y[r]*c.at[k]))
		}
		if !(reduced <= lpTol*most) {
			return fmt.Sprintf("column %d would still gain %v", j, reduced)
		}
		if math.Abs(reduced*x) > lpTol*most*math.Max(1, x) {
			return fmt.Sprintf("column %d is %v though it loses %v", j, x, -reduced)
		}
	}
	for i, b := range p.limit {
		worth += b * a.y[i]
		scale += math.Abs(b * a.y[i])
		over := lhs[i] - b
		switch tol := lpTol * size[i]; {
		case !(over <= tol) || p.equal[i] && !(over >= -tol):
			return fmt.Sprintf("row %d is %v, its limit %v", i, lhs[i], b)
		case !p.equal[i] && !(a.y[i] >= -lpTol):
			return fmt.Sprintf("row %d has the price %v", i, a.y[i])
		case math.Abs(over*a.y[i]) > tol*math.Max(1, math.Abs(a.y[i])):
			return fmt.Sprintf("row %d has %v over and the price %v", i, -over, a.y[i])
		}
	}
	if tol := lpTol * math.Max(1, scale); !(math.Abs(gain-worth) <= tol) || !(math.Abs(gain-a.gain) <= tol) {
		return fmt.Sprintf("the columns gain %v, the answer says %v, the rows are worth %v", gain, a.gain, worth)
	}
	return ""
}

// lpKind is a kind of random program in the shape of a master: one mix row a dog, limits with slacks, some broken by
// all being idle and so with overtime, in any order in which rows and columns may come.
type lpKind struct {
	name      string
	grain     float64 // entries and limits are rounded to so much: coarse ones tie often
	tight     float64 // limits, as a part of what the columns ask for
	zero      float64 // part of the entries that is nothing
	twin      float64 // part of the columns that is a copy, with the same gain or nearly
	wide      bool    // entries of very different size
	negative  bool    // entries of any sign, as in the balance rows
	noLimit   float64 // part of the limits that is 0
	unbounded bool    // a column that gains and that no row holds
}

var lpKinds = []lpKind{
	{name: "plain", grain: 1e-9, tight: 0.5, zero: 0.3},
	{name: "tied", grain: 0.5, tight: 0.5, zero: 0.3},
	{name: "twins", grain: 0.25, tight: 0.4, zero: 0.5, twin: 0.6},
	{name: "no time at all", grain: 0.25, tight: 0.3, zero: 0.3, noLimit: 0.6},
	{name: "wide", grain: 1e-9, tight: 0.5, zero: 0.3, wide: true},
	{name: "any sign", grain: 0.25, tight: 0.5, zero: 0.4, negative: true},
	{name: "sparse", grain: 1e-9, tight: 0.3, zero: 0.8},
	{name: "ample", grain: 0.5, tight: 3, zero: 0.3},
	{name: "limits that can't be met", grain: 0.25, tight: -0.3, zero: 0.5},
	{name: "unbounded", grain: 0.5, tight: 0.5, zero: 0.3, unbounded: true},
}

// lpCase is a random program with a basis that is feasible for it.
type lpCase struct {
	prog  program
	basis []int
}

func randomLP(kind lpKind, seed uint64) lpCase {
	r := rand.New(rand.NewPCG(seed, uint64(len(kind.name))))
	round := func(x float64) float64 { return math.Round(x/kind.grain) * kind.grain }
	dogs, limits := 1+r.IntN(4), r.IntN(10)
	var c lpCase
	idle := make([]int, dogs)
	for range dogs {
		c.prog.addEquation(1)
	}
	ask := make([]float64, limits)
	columns := make([][]float64, 0, 40) // by dog after dog: entries of the limits
	of := make([]int, 0, 40)
	for d := range dogs {
		for n := range 1 + r.IntN(9) {
			entries := make([]float64, limits)
			if n > 0 && r.Float64() < kind.twin {
				copy(entries, columns[len(columns)-1])
			} else {
				for i := range entries {
					if r.Float64() < kind.zero {
						continue
					}
					entries[i] = round(2 * r.Float64())
					if kind.wide {
						entries[i] = round(math.Pow(10, 6*r.Float64()-3))
					}
					if kind.negative && r.IntN(2) == 0 {
						entries[i] = -entries[i]
					}
				}
			}
			for i, v := range entries {
				ask[i] += math.Abs(v) / 3
			}
			columns, of = append(columns, entries), append(of, d)
		}
	}
	slack := make([]int, limits)
	for i := range slack {
		limit := round(kind.tight * ask[i] * r.Float64())
		if r.Float64() < kind.noLimit {
			limit = 0
		}
		_, slack[i] = c.prog.addLimit(limit)
	}
	for d := range idle {
		idle[d] = -1
	}
	for n, entries := range columns {
		p := col{gain: round(4 * r.Float64())}
		if kind.wide {
			p.gain *= math.Pow(10, 4*r.Float64()-2)
		}
		p.add(of[n], 1)
		for i, v := range entries {
			p.add(dogs+i, v)
		}
		j := c.prog.addCol(p)
		if idle[of[n]] < 0 {
			idle[of[n]] = j // the dog's first season is where it begins, though it may break limits
		}
	}
	lhs := make([]float64, dogs+limits)
	for _, j := range idle {
		c.basis = append(c.basis, j)
		for k, row := range c.prog.cols[j].row {
			lhs[row] += c.prog.cols[j].at[k]
		}
	}
	for i := range slack {
		if lhs[dogs+i] <= c.prog.limit[dogs+i] {
			c.basis = append(c.basis, slack[i])
			continue
		}
		over := col{gain: -1e3}
		over.add(dogs+i, -1)
		c.basis = append(c.basis, c.prog.addCol(over))
	}
	if kind.unbounded {
		free := col{gain: 1}
		for i := range limits {
			free.add(dogs+i, -round(r.Float64()))
		}
		c.prog.addCol(free)
	}
	return c
}

func TestRevisedSimplexFindsOptimaOfRandomProgramsByDuality(t *testing.T) {
	for _, kind := range lpKinds {
		t.Run(kind.name, func(t *testing.T) {
			for seed := range uint64(lpSeeds) {
				c := randomLP(kind, seed)
				a, err := (&revised{}).solve(&c.prog, c.basis)
				lpVerdict(t, kind, seed, &c.prog, a, err)
			}
		})
	}
}

func lpVerdict(t *testing.T, kind lpKind, seed uint64, p *program, a answer, err error) {
	t.Helper()
	switch {
	case kind.unbounded:
		if !errors.Is(err, errUnbounded) {
			t.Errorf("seed %d: there is no end to it, but gain is %v (%v)", seed, a.gain, err)
		}
	case err != nil:
		t.Errorf("seed %d: %v", seed, err)
	default:
		if fault := lpFault(p, a); fault != "" {
			t.Errorf("seed %d: %s", seed, fault)
		}
	}
}

// A master's life: after each answer a limit comes in that it breaks, or columns that gain, and the simplex goes on from
// where it stands. It must end at the same value as one that begins afresh.
func TestRevisedSimplexGoesOnWithNewRowsAndColumns(t *testing.T) {
	for _, kind := range lpKinds {
		if kind.unbounded {
			continue
		}
		t.Run(kind.name, func(t *testing.T) {
			for seed := range uint64(lpSeeds / 6) {
				c, r := randomLP(kind, seed), rand.New(rand.NewPCG(seed, 1))
				warm := &revised{}
				for step := range 6 {
					a, err := warm.solve(&c.prog, c.basis)
					lpVerdict(t, kind, seed, &c.prog, a, err)
					if err != nil {
						break
					}
					again, err := (&revised{}).solve(&c.prog, a.basis)
					if err != nil || math.Abs(again.gain-a.gain) > lpTol*math.Max(1, math.Abs(a.gain)) {
						t.Errorf("seed %d, step %d: %v, but afresh %v (%v)", seed, step, a.gain, again.gain, err)
					}
					c.basis = append(c.basis[:0], a.basis...)
					c.growLP(r, kind, a)
				}
			}
		})
	}
}

// growLP adds a limit that the answer breaks by a little, with overtime in the basis, or some columns.
func (c *lpCase) growLP(r *rand.Rand, kind lpKind, a answer) {
	if r.IntN(2) == 0 {
		at := make([]float64, len(c.prog.cols))
		var lhs float64
		for j := range at {
			if len(c.prog.cols[j].row) > 1 && r.Float64() > kind.zero {
				at[j] = math.Ceil(4*r.Float64()) / 4
				lhs += at[j] * a.x[j]
			}
		}
		row, _ := c.prog.addLimit(lhs * 0.9)
		for j, v := range at {
			c.prog.cols[j].add(row, v)
		}
		over := col{gain: -1e3}
		over.add(row, -1)
		c.basis = append(c.basis, c.prog.addCol(over))
		return
	}
	for range 1 + r.IntN(4) {
		p := col{gain: 4 * r.Float64()}
		for i := range c.prog.limit {
			switch {
			case c.prog.equal[i] && i == 0:
				p.add(i, 1)
			case !c.prog.equal[i] && r.Float64() > kind.zero:
				p.add(i, math.Ceil(8*r.Float64())/4)
			}
		}
		c.prog.addCol(p)
	}
}

// gonum's simplex may fail; then it must say so or be seen through, and the answer is right all the same.
func TestCheckedSolverFindsOptimaOfRandomProgramsByDuality(t *testing.T) {
	for _, kind := range lpKinds {
		t.Run(kind.name, func(t *testing.T) {
			var failed Failures
			for seed := range uint64(lpSeeds / 6) {
				c, s := randomLP(kind, seed), newChecked(nil)
				a, err := s.solve(&c.prog, c.basis)
				lpVerdict(t, kind, seed, &c.prog, a, err)
				failed.NoBasis += s.failures.NoBasis
				failed.Panic += s.failures.Panic
				if !kind.unbounded {
					failed.Error += s.failures.Error
				}
			}
			// A tie that the nudge leaves is rare; anything else is a program that gonum was handed wrongly.
			if failed.Panic > 0 || failed.Error > 0 || failed.NoBasis > lpSeeds/6/50 {
				t.Errorf("of %d programs: %+v", lpSeeds/6, failed)
			}
		})
	}
}

// Programs on which a solver failed once, each with what was wrong.
var lpFound = []struct {
	name    string
	c       lpCase
	gain    float64
	general error // what gonum's simplex says to it now
}{
	{
		// The nudge gave less to a limit that the first seasons just filled; gonum panicked for its start was
		// no longer feasible.
		name: "a limit that is full from the start",
		c: lpCase{
			prog: program{limit: []float64{1, 1, 1}, equal: []bool{true, false, false}, cols: []col{
				{row: []int32{1}, at: []float64{1}},
				{row: []int32{2}, at: []float64{1}},
				{gain: 1, row: []int32{0, 1, 2}, at: []float64{1, 1, 1}},
				{gain: 3, row: []int32{0, 1, 2}, at: []float64{1, 0.5, 0.5}},
				{gain: 2, row: []int32{0, 2}, at: []float64{1, 2}},
			}},
			basis: []int{2, 0, 1},
		},
		gain: 3,
	},
	{
		// Three quarters of one row's nudge are the other's: the tie stays, one column too few is in use, and they tell no
		// prices.
		name: "a nudge that comes out even",
		c: lpCase{
			prog: program{limit: []float64{1, 0}, equal: []bool{true, false}, cols: []col{
				{row: []int32{1}, at: []float64{1}},
				{gain: 2.75, row: []int32{0, 1}, at: []float64{1, 0.75}},
				{gain: 3.5, row: []int32{0}, at: []float64{1}},
				{gain: -1000, row: []int32{1}, at: []float64{-1}},
			}},
			basis: []int{1, 3},
		},
		gain:    3.5,
		general: errNoBasis,
	},
}

func TestProgramsThatFailedOnceAreSolved(t *testing.T) {
	for _, found := range lpFound {
		t.Run(found.name, func(t *testing.T) {
			p := &found.c.prog
			_, err := general{patience: time.Minute}.solve(p, found.c.basis)
			if !errors.Is(err, found.general) {
				t.Errorf("gonum's simplex: %v, want %v", err, found.general)
			}
			for name, s := range map[string]programSolver{"revised": &revised{}, "checked": newChecked(nil)} {
				a, err := s.solve(p, found.c.basis)
				if err != nil || math.Abs(a.gain-found.gain) > lpTol {
					t.Errorf("%s: %v (%v), want %v", name, a.gain, err, found.gain)
				} else if fault := lpFault(p, a); fault != "" {
					t.Errorf("%s: %s", name, fault)
				}
			}
		})
	}
}

// A basis that is not feasible may lead nowhere, but never to an answer that is trusted and wrong.
func TestAnswerFromABadBasisIsRefusedOrRight(t *testing.T) {
	refused := 0
	for _, kind := range lpKinds {
		if kind.unbounded {
			continue
		}
		for seed := range uint64(lpSeeds / 6) {
			c, r := randomLP(kind, seed), rand.New(rand.NewPCG(seed, 2))
			perm := r.Perm(len(c.prog.cols))
			if len(perm) < len(c.basis) {
				continue
			}
			s := checked{revised: &revised{}}
			a, err := s.solve(&c.prog, perm[:len(c.basis)])
			if err != nil {
				refused++
			} else if fault := lpFault(&c.prog, a); fault != "" {
				t.Errorf("%s, seed %d: trusted, but %s", kind.name, seed, fault)
			}
		}
	}
	if refused == 0 {
		t.Error("no basis was bad: the test tries nothing")
	}
}

// stub answers what it is told to.
type stub struct {
	a   answer
	err error
}

func (s stub) solve(*program, []int) (answer, error) { return s.a, s.err }

func TestFailuresAreCountedByKindAndAnsweredByTheRevisedSimplex(t *testing.T) {
	c := lpFound[0].c
	wrong := answer{x: make([]float64, len(c.prog.cols)), y: make([]float64, len(c.prog.limit))}
	for want, s := range map[Failures]programSolver{
		{Late: 1}:     stub{err: errLate},
		{Residual: 1}: stub{a: wrong},
		{NoBasis: 1}:  stub{err: errNoBasis},
		{Error: 1}:    stub{err: errUnbounded},
		{Panic: 1}:    general{patience: time.Minute},
	} {
		basis := c.basis
		given := checked{general: s, revised: &revised{}, rows: generalRows}
		if want.Panic > 0 {
			basis = basis[:2] // gonum panics at a basis of the wrong length
			given.revised = stub{a: wrong}
		}
		a, err := given.solve(&c.prog, basis)
		if given.failures != want {
			t.Errorf("counted %+v, want %+v", given.failures, want)
		}
		if want.Panic == 0 && (err != nil || lpFault(&c.prog, a) != "") {
			t.Errorf("%+v: no right answer in its place: %v", want, err)
		}
	}
}

func TestGeneralSolverIsNotAskedAgainAfterTrouble(t *testing.T) {
	c, s := lpFound[0].c, checked{general: stub{err: errNoBasis}, revised: &revised{}, rows: generalRows}
	for range generalTrouble + 5 {
		if _, err := s.solve(&c.prog, c.basis); err != nil {
			t.Fatal(err)
		}
	}
	if s.failures.All() != generalTrouble {
		t.Errorf("%d failures, want %d", s.failures.All(), generalTrouble)
	}
}
