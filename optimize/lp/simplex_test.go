package lp

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"
	reference "gonum.org/v1/gonum/optimize/convex/lp"
)

// Linear programs are held against duality: an answer that keeps the rows, whose prices let no column gain, is the
// optimum, and then the two programs' values are equal and a row with time over has no price. Every claim is worked out
// here from the program and the answer alone.

const (
	lpTol   = 1e-6 // of a row, a column's gain or the value, against the size of the numbers in it
	lpSeeds = 2400
)

// lpFault says how an answer fails to be an optimum of the program; empty when it is one.
func lpFault(p *Program, a Answer) string {
	if len(a.X) != len(p.Cols) || len(a.Y) != len(p.Limit) {
		return fmt.Sprintf("%d columns and %d prices of %d and %d", len(a.X), len(a.Y), len(p.Cols), len(p.Limit))
	}
	lhs, size := make([]float64, len(p.Limit)), make([]float64, len(p.Limit))
	for i, b := range p.Limit {
		size[i] = math.Max(1, math.Abs(b))
	}
	var gain, worth, scale float64
	for j, c := range p.Cols {
		x := a.X[j]
		if !(x >= -lpTol) || math.IsInf(x, 0) {
			return fmt.Sprintf("column %d is %v", j, x)
		}
		gain += c.Gain * x
		scale += math.Abs(c.Gain * x)
		reduced, most := c.Gain, math.Max(1, math.Abs(c.Gain))
		for k, r := range c.Row {
			lhs[r] += c.At[k] * x
			size[r] = math.Max(size[r], math.Abs(c.At[k]*x))
			reduced -= a.Y[r] * c.At[k]
			most = math.Max(most, math.Abs(a.Y[r]*c.At[k]))
		}
		if !(reduced <= lpTol*most) {
			return fmt.Sprintf("column %d would still gain %v", j, reduced)
		}
		if math.Abs(reduced*x) > lpTol*most*math.Max(1, x) {
			return fmt.Sprintf("column %d is %v though it loses %v", j, x, -reduced)
		}
	}
	for i, b := range p.Limit {
		worth += b * a.Y[i]
		scale += math.Abs(b * a.Y[i])
		over := lhs[i] - b
		switch tol := lpTol * size[i]; {
		case !(over <= tol) || p.Equal[i] && !(over >= -tol):
			return fmt.Sprintf("row %d is %v, its limit %v", i, lhs[i], b)
		case !p.Equal[i] && !(a.Y[i] >= -lpTol):
			return fmt.Sprintf("row %d has the price %v", i, a.Y[i])
		case math.Abs(over*a.Y[i]) > tol*math.Max(1, math.Abs(a.Y[i])):
			return fmt.Sprintf("row %d has %v over and the price %v", i, -over, a.Y[i])
		}
	}
	if tol := lpTol * math.Max(1, scale); !(math.Abs(gain-worth) <= tol) || !(math.Abs(gain-a.Gain) <= tol) {
		return fmt.Sprintf("the columns gain %v, the answer says %v, the rows are worth %v", gain, a.Gain, worth)
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
	prog  Program
	basis []int
}

func randomLP(kind lpKind, seed uint64) lpCase {
	r := rand.New(rand.NewPCG(seed, uint64(len(kind.name))))
	round := func(x float64) float64 { return math.Round(x/kind.grain) * kind.grain }
	dogs, limits := 1+r.IntN(4), r.IntN(10)
	var c lpCase
	idle := make([]int, dogs)
	for range dogs {
		c.prog.AddEquation(1)
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
		_, slack[i] = c.prog.AddLimit(limit)
	}
	for d := range idle {
		idle[d] = -1
	}
	for n, entries := range columns {
		p := Col{Gain: round(4 * r.Float64())}
		if kind.wide {
			p.Gain *= math.Pow(10, 4*r.Float64()-2)
		}
		p.Add(of[n], 1)
		for i, v := range entries {
			p.Add(dogs+i, v)
		}
		j := c.prog.AddCol(p)
		if idle[of[n]] < 0 {
			idle[of[n]] = j // the dog's first season is where it begins, though it may break limits
		}
	}
	lhs := make([]float64, dogs+limits)
	for _, j := range idle {
		c.basis = append(c.basis, j)
		for k, row := range c.prog.Cols[j].Row {
			lhs[row] += c.prog.Cols[j].At[k]
		}
	}
	for i := range slack {
		if lhs[dogs+i] <= c.prog.Limit[dogs+i] {
			c.basis = append(c.basis, slack[i])
			continue
		}
		over := Col{Gain: -1e3}
		over.Add(dogs+i, -1)
		c.basis = append(c.basis, c.prog.AddCol(over))
	}
	if kind.unbounded {
		free := Col{Gain: 1}
		for i := range limits {
			free.Add(dogs+i, -round(r.Float64()))
		}
		c.prog.AddCol(free)
	}
	return c
}

func TestRevisedSimplexFindsOptimaOfRandomProgramsByDuality(t *testing.T) {
	for _, kind := range lpKinds {
		t.Run(kind.name, func(t *testing.T) {
			for seed := range uint64(lpSeeds) {
				c := randomLP(kind, seed)
				a, err := new(Simplex).Solve(&c.prog, c.basis, nil)
				lpVerdict(t, kind, seed, &c.prog, a, err)
			}
		})
	}
}

func lpVerdict(t *testing.T, kind lpKind, seed uint64, p *Program, a Answer, err error) {
	t.Helper()
	switch {
	case kind.unbounded:
		if !errors.Is(err, ErrUnbounded) {
			t.Errorf("seed %d: there is no end to it, but gain is %v (%v)", seed, a.Gain, err)
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
				warm := new(Simplex)
				for step := range 6 {
					a, err := warm.Solve(&c.prog, c.basis, nil)
					lpVerdict(t, kind, seed, &c.prog, a, err)
					if err != nil {
						break
					}
					again, err := new(Simplex).Solve(&c.prog, a.Basis, nil)
					if err != nil || math.Abs(again.Gain-a.Gain) > lpTol*math.Max(1, math.Abs(a.Gain)) {
						t.Errorf("seed %d, step %d: %v, but afresh %v (%v)", seed, step, a.Gain, again.Gain, err)
					}
					c.basis = append(c.basis[:0], a.Basis...)
					c.growLP(r, kind, a)
				}
			}
		})
	}
}

// growLP adds a limit that the answer breaks by a little, with overtime in the basis, or some columns.
func (c *lpCase) growLP(r *rand.Rand, kind lpKind, a Answer) {
	if r.IntN(2) == 0 {
		at := make([]float64, len(c.prog.Cols))
		var lhs float64
		for j := range at {
			if len(c.prog.Cols[j].Row) > 1 && r.Float64() > kind.zero {
				at[j] = math.Ceil(4*r.Float64()) / 4
				lhs += at[j] * a.X[j]
			}
		}
		row, _ := c.prog.AddLimit(lhs * 0.9)
		for j, v := range at {
			c.prog.Cols[j].Add(row, v)
		}
		over := Col{Gain: -1e3}
		over.Add(row, -1)
		c.basis = append(c.basis, c.prog.AddCol(over))
		return
	}
	for range 1 + r.IntN(4) {
		p := Col{Gain: 4 * r.Float64()}
		for i := range c.prog.Limit {
			switch {
			case c.prog.Equal[i] && i == 0:
				p.Add(i, 1)
			case !c.prog.Equal[i] && r.Float64() > kind.zero:
				p.Add(i, math.Ceil(8*r.Float64())/4)
			}
		}
		c.prog.AddCol(p)
	}
}

// gonum's dense simplex is the referee: where it has an answer it is worth as much. It takes equations only, so slacks stand in
// its columns as they do in ours, and it may begin with the same basis; programs whose limits are not met by what they begin with
// have overtime in it.
func TestGonumFindsTheSameOptima(t *testing.T) {
	asked, answered := 0, 0
	for _, kind := range lpKinds {
		for seed := range uint64(lpSeeds / 12) {
			c := randomLP(kind, seed)
			a, err := new(Simplex).Solve(&c.prog, c.basis, nil)
			asked++
			gain, refErr := referee(&c.prog, c.basis)
			switch {
			case errors.Is(refErr, reference.ErrUnbounded):
				answered++
				if !errors.Is(err, ErrUnbounded) {
					t.Errorf("%s, seed %d: the referee says that there is no end to it, we say %v (%v)", kind.name, seed, a.Gain, err)
				}
			case refErr == nil:
				answered++
				if err != nil || math.Abs(gain-a.Gain) > lpTol*math.Max(1, math.Abs(gain)) {
					t.Errorf("%s, seed %d: the referee says %v, we say %v (%v)", kind.name, seed, gain, a.Gain, err)
				}
			}
		}
	}
	if answered < 9*asked/10 {
		t.Errorf("the referee answered %d of %d only", answered, asked)
	}
}

// refereeTime is how long the referee may take: it has no bound on pivots and may never end.
const refereeTime = 10 * time.Second

func referee(p *Program, basis []int) (gain float64, err error) {
	type said struct {
		gain float64
		err  error
	}
	done := make(chan said, 1)
	go func() {
		g, err := refereeSays(p, basis)
		done <- said{g, err}
	}()
	select {
	case s := <-done:
		return s.gain, s.err
	case <-time.After(refereeTime):
		return 0, errors.New("the referee does not end")
	}
}

// refereeSays is what gonum's simplex says that the program gains at the most.
func refereeSays(p *Program, basis []int) (gain float64, err error) {
	defer func() {
		if r := recover(); r != nil { // it panics where it finds no basis
			err = fmt.Errorf("the referee failed inside: %v", r)
		}
	}()
	a := mat.NewDense(len(p.Limit), len(p.Cols), nil)
	c := make([]float64, len(p.Cols))
	for j := range p.Cols {
		c[j] = -p.Cols[j].Gain
		for k, r := range p.Cols[j].Row {
			a.Set(int(r), j, p.Cols[j].At[k])
		}
	}
	low, _, err := reference.Simplex(c, a, p.Limit, 1e-10, slices.Clone(basis))
	return -low, err
}

// Programs on which a solver failed once, each with what was wrong.
var lpFound = []struct {
	name string
	c    lpCase
	gain float64
}{
	{
		// The perturbation gave less to a limit that the first columns just filled: the start was no longer feasible.
		name: "a limit that is full from the start",
		c: lpCase{
			prog: Program{Limit: []float64{1, 1, 1}, Equal: []bool{true, false, false}, Cols: []Col{
				{Row: []int32{1}, At: []float64{1}},
				{Row: []int32{2}, At: []float64{1}},
				{Gain: 1, Row: []int32{0, 1, 2}, At: []float64{1, 1, 1}},
				{Gain: 3, Row: []int32{0, 1, 2}, At: []float64{1, 0.5, 0.5}},
				{Gain: 2, Row: []int32{0, 2}, At: []float64{1, 2}},
			}},
			basis: []int{2, 0, 1},
		},
		gain: 3,
	},
	{
		// Three quarters of one row's perturbation are the other's: the tie stays.
		name: "a perturbation that comes out even",
		c: lpCase{
			prog: Program{Limit: []float64{1, 0}, Equal: []bool{true, false}, Cols: []Col{
				{Row: []int32{1}, At: []float64{1}},
				{Gain: 2.75, Row: []int32{0, 1}, At: []float64{1, 0.75}},
				{Gain: 3.5, Row: []int32{0}, At: []float64{1}},
				{Gain: -1000, Row: []int32{1}, At: []float64{-1}},
			}},
			basis: []int{1, 3},
		},
		gain: 3.5,
	},
}

func TestProgramsThatFailedOnceAreSolved(t *testing.T) {
	for _, found := range lpFound {
		t.Run(found.name, func(t *testing.T) {
			p := &found.c.prog
			a, err := new(Simplex).Solve(p, found.c.basis, nil)
			if err != nil || math.Abs(a.Gain-found.gain) > lpTol {
				t.Errorf("%v (%v), want %v", a.Gain, err, found.gain)
			} else if fault := lpFault(p, a); fault != "" {
				t.Error(fault)
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
			perm := r.Perm(len(c.prog.Cols))
			if len(perm) < len(c.basis) {
				continue
			}
			a, err := new(Simplex).Solve(&c.prog, perm[:len(c.basis)], nil)
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

// longProgram has so many limits and five times as many columns; its basis is that of the slacks.
func longProgram(limits int) (c lpCase) {
	rng := rand.New(rand.NewPCG(5, 8))
	for range limits {
		_, slack := c.prog.AddLimit(1 + rng.Float64())
		c.basis = append(c.basis, slack)
	}
	for range 5 * limits {
		p := Col{Gain: rng.Float64()}
		p.Add(0, 0.1)
		for i := 1; i < limits; i++ {
			if rng.IntN(6) == 0 {
				p.Add(i, rng.Float64())
			}
		}
		c.prog.AddCol(p)
	}
	return c
}

// A program that is stopped makes no more than a few pivots more, and can be gone on with.
func TestAProgramIsStoppedWhereItIs(t *testing.T) {
	c := longProgram(60)
	full := new(Simplex)
	if _, err := full.Solve(&c.prog, c.basis, nil); err != nil {
		t.Fatal(err)
	}
	asked := 0
	if _, err := new(Simplex).Solve(&c.prog, c.basis, func() bool { asked++; return false }); err != nil || asked < full.Pivots/stopSpan {
		t.Fatalf("in %d pivots it asks only %d times whether to stop: %v", full.Pivots, asked, err)
	}
	for most := range asked {
		n := 0
		s := new(Simplex)
		if _, err := s.Solve(&c.prog, c.basis, func() bool { n++; return n > most }); !errors.Is(err, ErrStopped) || n != most+1 {
			t.Fatalf("stopped when it asks for the %dth time: %v, asked %d times", most+1, err, n)
		}
		if a, err := s.Solve(&c.prog, c.basis, nil); err != nil || lpFault(&c.prog, a) != "" {
			t.Fatalf("stopped and asked again: %v, %s", err, lpFault(&c.prog, a))
		}
	}
}

// The inverse of a basis times the basis is one, however many of its columns have one entry only, and after any pivots.
func TestTheInverseIsOne(t *testing.T) {
	for _, kind := range lpKinds {
		for seed := range uint64(200) {
			c := randomLP(kind, seed)
			s := new(Simplex)
			a, err := s.Solve(&c.prog, c.basis, nil)
			if err != nil {
				continue
			}
			for _, basis := range [][]int{c.basis, a.Basis} {
				var fresh inverse
				if err := fresh.of(&c.prog, basis); err != nil {
					t.Errorf("%s, seed %d: %v", kind.name, seed, err)
					continue
				}
				size := 1.0
				for i, j := range basis {
					w := make([]float64, len(basis))
					fresh.column(&c.prog.Cols[j], w)
					for _, v := range fresh.columns.RawMatrix().Data {
						size = math.Max(size, math.Abs(v))
					}
					for k, v := range w {
						want := 0.0
						if k == i {
							want = 1
						}
						if math.Abs(v-want) > 1e-9*size {
							t.Errorf("%s, seed %d: column %d of the basis comes out as %v at %d", kind.name, seed, i, v, k)
						}
					}
				}
			}
		}
	}
}

// Bases that are none are refused.
func TestASingularBasisIsRefused(t *testing.T) {
	var p Program
	for range 3 {
		p.AddEquation(1)
	}
	for _, at := range [][]float64{{1, 0, 0}, {2, 0, 0}, {1, 1, 0}, {2, 2, 0}, {0, 1, 1}, {1, 2, 1}} {
		var c Col
		for r, v := range at {
			c.Add(r, v)
		}
		p.AddCol(c)
	}
	for _, basis := range [][]int{{0, 1, 4}, {2, 3, 4}, {0, 2, 3}, {2, 4, 5}} {
		if _, err := new(Simplex).Solve(&p, basis, nil); !errors.Is(err, ErrSingular) {
			t.Errorf("basis %v: %v", basis, err)
		}
	}
}
