package season

import (
	"context"
	"errors"
	"math"
	"slices"
	"sync/atomic"
	"testing"

	"tuckup/optimize/lp"
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
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
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
		if after := c.after.Load(); after > asked/200 {
			t.Errorf("called off at %d of %d, it asks for the time %d times more", i, moments, after)
		}
	}
}

// A master that is called off after limits came in, which its mix breaks, offers no plan.
func TestMasterCalledOffOffersNothing(t *testing.T) {
	p := RandomString(4, Shape{Dogs: 5, Weeks: 13, Hours: 0.2, Hands: 1})
	s := newSolver(context.Background(), p, Options{})
	var m *master
	m = newMaster(p, func() bool { // once a limit has come in
		return slices.ContainsFunc(m.rows, func(r int) bool { return r >= 0 })
	}, s.fixed)
	s.each(newPrices(p), func(n *dogNets) { // hours that cost nothing
		n.highest(nil, 0, rootNodes)
		c, _ := n.bestMix(mixTol)
		s.columns.useful[n.d] = append(s.columns.useful[n.d], c)
	})
	for d := range s.columns.useful {
		m.addColumn(s.columns.useful[d][0])
		s.fixed[d] = s.columns.useful[d][0].sessions
	}
	if err := m.optimise(); !errors.Is(err, lp.ErrStopped) || len(m.now.Y) < len(m.prog.Limit) {
		t.Fatalf("%v, %d prices of %d rows", err, len(m.now.Y), len(m.prog.Limit))
	}
	if m.overtimeUsed() <= overtimeTol {
		t.Error("a mix that breaks limits says that it takes no overtime")
	}
	value := s.best.value
	s.keep(m)
	if s.offerMix(m, s.fixed); s.best.value != value {
		t.Errorf("a plan of %v points is offered: %q", s.best.value, Violations(p, s.best.plan, 1e-6))
	}
}

// The first plan comes before any linear program of the string is solved: with the first answers of the dogs, and it is
// allowed and better than doing nothing.
func TestThereIsAPlanBeforeTheFirstProgram(t *testing.T) {
	for seed := range some(6, 2) {
		p := RandomString(seed, Shape{Dogs: 6, Weeks: 26, Hours: 0.4, Hands: 1 + int(seed%3)})
		s := newSolver(context.Background(), p, Options{})
		idle := s.best.value
		s.tatonnement()
		if !(s.best.value > idle+0.1*math.Abs(idle)) {
			t.Errorf("seed %d: the first plan is worth %g, doing nothing %g", seed, s.best.value, idle)
		}
		if got := Violations(p, s.best.plan, 1e-6); got != nil {
			t.Errorf("seed %d: the first plan breaks %q", seed, got)
		}
		near(t, "the first plan's value", s.best.value, Evaluate(p, s.best.plan))
	}
}
