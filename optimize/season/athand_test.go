package season

import (
	"context"
	"testing"
)

// calledOffAfter is a context that ends when it has been asked so often.
func calledOffAfter(asked int64) context.Context {
	c := &patient{Context: context.Background()}
	c.left.Store(asked)
	return c
}

// A long season of a large string has a plan worth having long before its dogs have given their first good answers: with hours for
// 40 % of the wish it goes three tenths of the way from nothing done to all dogs ready in all weeks.
func TestALongSeasonHasAPlanAtHandAtOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	p := RandomString(1, Shape{Dogs: 40, Weeks: 60, Hours: 0.4, Hands: 3})
	idle := Evaluate(p, NewPlan(p))
	r, err := Solve(calledOffAfter(2000), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkResult(t, p, r)
	if !r.Cut || r.Objective < idle+0.3*(p.ceiling()-idle) {
		t.Errorf("cut %v, worth %g; doing nothing is worth %g, all of it %g", r.Cut, r.Objective, idle, p.ceiling())
	}
}

// A plan at hand keeps the limits, whatever is asked of it.
func TestWhatIsCutBackKeepsTheLimits(t *testing.T) {
	for seed := range uint64(8) {
		p := RandomString(seed, Shape{Dogs: 5, Weeks: 13, Hours: 0.1 + 0.1*float64(seed), Hands: 1 + int(seed%3)})
		s := newSolver(context.Background(), p, Options{})
		cols := make([]*column, len(s.dogs))
		s.each(newPrices(p), func(n *dogNets) { // hours that cost nothing
			n.highest(nil, 0, rootNodes)
			cols[n.d], _ = n.bestMix(mixTol)
		})
		pl := p.cutBack(cols)
		if got := Violations(p, pl, 1e-6); got != nil {
			t.Errorf("seed %d: %q", seed, got)
		}
		if idle := Evaluate(p, NewPlan(p)); Evaluate(p, pl) <= idle {
			t.Errorf("seed %d: it is worth %g, doing nothing %g", seed, Evaluate(p, pl), idle)
		}
	}
}

// The search is the same whether a plan at hand is kept beside it or not.
func TestAPlanAtHandChangesNothingInTheSearch(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	p := RandomString(3, Shape{Dogs: 4, Weeks: 10, Hours: 0.4, Hands: 1})
	plain, err := Solve(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if plain.Cut {
		t.Error("it says that it was cut")
	}
	s := newSolver(context.Background(), p, Options{Seed: 1, Gap: DefaultGap})
	s.rough = incumbent{NewPlan(p), 1e9} // nothing is better: no other is kept
	m := s.root()
	if m == nil || s.best.value >= 1e9 {
		t.Errorf("the search goes on from the plan at hand: %g", s.best.value)
	}
}

// A plan that begins with one made before and is called off at once still has what of it can be kept.
func TestAMendedPlanCalledOffAtOnceKeepsWhatItCan(t *testing.T) {
	p := RandomString(4, Shape{Dogs: 5, Weeks: 13, Hours: 0.4, Hands: 2})
	full, err := Solve(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	p.Dogs[0].Most[3], p.Dogs[1].Most[4] = 0, 0 // days away
	p.Dogs[2].Minutes[5] *= 0.7
	r, err := Solve(calledOffAfter(0), p, Options{Seed: 1, Start: &full.Plan})
	if err != nil {
		t.Fatal(err)
	}
	checkResult(t, p, r)
	if idle := Evaluate(p, NewPlan(p)); r.Objective < idle+0.7*(full.Objective-idle) {
		t.Errorf("worth %g of the %g before; doing nothing is worth %g", r.Objective, full.Objective, idle)
	}
}
