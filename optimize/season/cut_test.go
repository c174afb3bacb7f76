package season

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"sync/atomic"
	"testing"
)

// patient is a context that is called off when it has been asked so many times, and counts how often it is asked after.
type patient struct {
	context.Context
	left, after atomic.Int64
}

func (c *patient) Err() error {
	if c.left.Add(-1) >= 0 {
		return nil
	}
	c.after.Add(1)
	return context.Canceled
}

// Whenever a solve is called off, its plan is allowed, its bound valid, and hardly anything asks for the time again:
// each dog's work and each linear program ends where it is.
func TestCalledOffAtAnyMoment(t *testing.T) {
	p := RandomString(4, Shape{Dogs: 5, Weeks: 13, Hours: 0.4, Hands: 2})
	whole := &patient{Context: context.Background()}
	whole.left.Store(math.MaxInt64)
	full, err := Solve(whole, p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	asked := math.MaxInt64 - whole.left.Load()
	if asked < 5000 {
		t.Fatalf("a whole solve asks only %d times", asked)
	}
	const moments = 24
	for i := range int64(moments) {
		c := &patient{Context: context.Background()}
		c.left.Store(asked * i / moments)
		opt := Options{Seed: 1}
		if i%4 == 3 {
			opt.Start = &full.Plan
			c.left.Store(i * 20)
		}
		r, err := Solve(c, p, opt)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Cut {
			t.Errorf("called off at %d of %d, it does not say so", i, moments)
		}
		checkResult(t, p, r)
		if r.Bound < full.Objective-1e-9*scale(full.Objective) {
			t.Errorf("called off at %d of %d, the bound is %.9g, but a plan is worth %.9g", i, moments, r.Bound, full.Objective)
		}
		if after := c.after.Load(); after > 60 {
			t.Errorf("called off at %d of %d, it asks for the time %d times more", i, moments, after)
		}
	}
}

// longProgram has so many limits and five times as many columns; its basis is that of the slacks.
func longProgram(limits int) (c lpCase) {
	rng := rand.New(rand.NewPCG(5, 8))
	for range limits {
		_, slack := c.prog.addLimit(1 + rng.Float64())
		c.basis = append(c.basis, slack)
	}
	for range 5 * limits {
		p := col{gain: rng.Float64()}
		p.add(0, 0.1)
		for i := 1; i < limits; i++ {
			if rng.IntN(6) == 0 {
				p.add(i, rng.Float64())
			}
		}
		c.prog.addCol(p)
	}
	return c
}

// A linear program that is called off makes no more than a few pivots more.
func TestLinearProgramIsCalledOff(t *testing.T) {
	c := longProgram(60)
	full := &revised{}
	if _, err := full.solve(&c.prog, c.basis); err != nil {
		t.Fatal(err)
	}
	asked := 0
	_, err := (&revised{late: func() bool { asked++; return false }}).solve(&c.prog, c.basis)
	if err != nil || asked < 60/lateSpan+10 { // the inverse, then the pivots
		t.Fatalf("the program asks for the time only %d times: %v", asked, err)
	}
	for most := range asked {
		n := 0
		s := &revised{late: func() bool { n++; return n > most }}
		if _, err := s.solve(&c.prog, c.basis); !errors.Is(err, errCut) || n != most+1 {
			t.Fatalf("called off when it asks for the %dth time: %v, asked %d times", most+1, err, n)
		}
		s.late = nil
		if a, err := s.solve(&c.prog, c.basis); err != nil || lpFault(&c.prog, a) != "" {
			t.Fatalf("called off and asked again: %v, %s", err, lpFault(&c.prog, a))
		}
	}
}

// stopsAfter is a solver that is called off after so many programs.
type stopsAfter struct {
	programSolver
	left int
}

func (s *stopsAfter) solve(p *program, basis []int) (answer, error) {
	if s.left--; s.left < 0 {
		return answer{}, errCut
	}
	return s.programSolver.solve(p, basis)
}

// A master that is called off after limits came in, which its mix breaks, offers no plan.
func TestMasterCalledOffOffersNothing(t *testing.T) {
	p := RandomString(4, Shape{Dogs: 5, Weeks: 13, Hours: 0.2, Hands: 1})
	s := newSolver(context.Background(), p, Options{})
	m := newMaster(p, &stopsAfter{&revised{}, 1}, s.fixed)
	s.each(newPrices(p), func(n *dogNets) { // hours that cost nothing
		n.highest(nil, 0, rootNodes)
		c, _ := n.fit(fitTol)
		s.pool[n.d] = append(s.pool[n.d], c)
	})
	for d := range s.pool {
		m.add(s.pool[d][0])
		s.fixed[d] = s.pool[d][0].sessions
	}
	if err := m.solve(); !errors.Is(err, errCut) || len(m.now.y) < len(m.prog.limit) {
		t.Fatalf("%v, %d prices of %d rows", err, len(m.now.y), len(m.prog.limit))
	}
	if m.overtimeUsed() <= overtimeTol {
		t.Error("a mix that breaks limits says that it takes no overtime")
	}
	value := s.value
	s.keep(m)
	if s.take(m); s.value != value {
		t.Errorf("a plan of %v points is offered: %q", s.value, Violations(p, s.best, 1e-6))
	}
}

// The first plan comes before any linear program of the string is solved: with the first answers of the dogs, and it is
// allowed and better than doing nothing.
func TestThereIsAPlanBeforeTheFirstProgram(t *testing.T) {
	for seed := range uint64(6) {
		p := RandomString(seed, Shape{Dogs: 6, Weeks: 26, Hours: 0.4, Hands: 1 + int(seed%3)})
		s := newSolver(context.Background(), p, Options{})
		s.lp = &checked{revised: stub{err: errSingular}}
		idle := s.value
		s.start()
		if !(s.value > idle+0.1*math.Abs(idle)) {
			t.Errorf("seed %d: the first plan is worth %g, doing nothing %g", seed, s.value, idle)
		}
		if got := Violations(p, s.best, 1e-6); got != nil {
			t.Errorf("seed %d: the first plan breaks %q", seed, got)
		}
		near(t, "the first plan's value", s.value, Evaluate(p, s.best))
	}
}
