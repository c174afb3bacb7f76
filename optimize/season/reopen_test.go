package season

import (
	"context"
	"reflect"
	"slices"
	"testing"
)

// settledBadly is a solver whose string is settled but for the dog with most sessions, which is left out.
func settledBadly(t *testing.T, p *Problem) *solver {
	t.Helper()
	start := solved(t, p, Options{Seed: 1}).Plan
	out, most := 0, -1
	for d, sessions := range start.Sessions {
		n := 0
		for _, z := range sessions {
			n += z
		}
		if n > most {
			out, most = d, n
		}
	}
	start.Sessions[out], start.Shares[out] = make([]int, p.Weeks), NewPlan(p).Shares[out]
	s := newSolver(context.Background(), p, Options{Start: &start})
	m := s.warm()
	if m == nil {
		t.Fatal("nothing is settled")
	}
	s.take(m)
	return s
}

// A dog that was left out is taken in again when all dogs' sessions are chosen anew; the plan is allowed, and what is
// settled is the plan.
func TestReopenTakesInWhoWasLeftOut(t *testing.T) {
	for seed := range uint64(4) {
		p := RandomString(seed, Shape{Dogs: 5, Weeks: 13, Hours: 0.6, Hands: 1})
		s := settledBadly(t, p)
		before := s.value
		s.reopen()
		if !(s.value > before+0.01) {
			t.Errorf("seed %d: chosen anew, %.6g points became %.6g", seed, before, s.value)
		}
		if got := Violations(p, s.best, 1e-6); got != nil {
			t.Errorf("seed %d: the plan breaks %q", seed, got)
		}
		near(t, "the value", s.value, Evaluate(p, s.best))
		if !reflect.DeepEqual(s.fixed, s.best.Sessions) {
			t.Errorf("seed %d: settled are %v, the plan has %v", seed, s.fixed, s.best.Sessions)
		}
	}
}

// An exchange that does not pay is taken back whole: sessions, columns and prices.
func TestExchangeThatDoesNotPayIsTakenBack(t *testing.T) {
	p := RandomString(1, Shape{Dogs: 4, Weeks: 16, Hours: 0.6, Hands: 1})
	start := solved(t, p, Options{Seed: 1}).Plan
	s := newSolver(context.Background(), p, Options{Start: &start})
	s.take(s.warm())
	fixed, pool, centre, value := NewPlan(p).Sessions, make([][]*column, len(p.Dogs)), s.centre, s.value
	for d := range p.Dogs {
		copy(fixed[d], s.fixed[d])
		pool[d] = append(pool[d], s.pool[d]...)
		s.pool[d] = slices.Grow(s.pool[d], maxColumns) // room to write what is to be kept
	}
	s.exchange(idleColumn(p, 2, make([]int, p.Weeks)))
	if s.value != value || !reflect.DeepEqual(s.fixed, fixed) || !reflect.DeepEqual(s.pool, pool) || !reflect.DeepEqual(s.centre, centre) {
		t.Errorf("after an exchange that does not pay the plan is worth %v, was %v; sessions %v, were %v", s.value, value, s.fixed, fixed)
	}
}
