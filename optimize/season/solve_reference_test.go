package season

import (
	"context"
	"math"
	"slices"
	"testing"
)

// checkResult checks what Solve promises of any answer: an allowed plan, its objective, a bound above it, the gap of
// the two, and prices that aren't negative.
func checkResult(t *testing.T, p *Problem, r Result) {
	t.Helper()
	if got := Violations(p, r.Plan, 1e-6); got != nil {
		t.Errorf("the plan breaks %q", got)
		return
	}
	if got := Evaluate(p, r.Plan); !(math.Abs(got-r.Objective) <= 1e-6*scale(got)) {
		t.Errorf("the objective is given as %.9g, but the plan is worth %.9g", r.Objective, got)
	}
	if !(r.Bound >= r.Objective-1e-6*scale(r.Bound)) {
		t.Errorf("the bound %.9g is below the objective %.9g", r.Bound, r.Objective)
	}
	if want := (r.Bound - r.Objective) / math.Max(1, math.Abs(r.Bound)); !(math.Abs(r.Gap-want) <= 1e-9) {
		t.Errorf("the gap is given as %g, but is %g", r.Gap, want)
	}
	if len(r.Prices) != len(p.Rows) {
		t.Errorf("%d prices of %d limits", len(r.Prices), len(p.Rows))
	}
	for i, y := range r.Prices {
		if !(y >= 0) || math.IsInf(y, 1) {
			t.Errorf("the price of limit %d is %g", i, y)
		}
	}
	_, m := mpsOf(t, p)
	v := verified(t, p, m, r.Plan)
	if v.Violation > 1e-6 || v.Fraction > 0 || !(math.Abs(v.Objective+r.Objective) <= 1e-6*scale(r.Objective)) {
		t.Errorf("the model file says of the plan %+v, its objective is given as %.9g", v, r.Objective)
	}
}

// On seasons that a general solver solves to the end, the bound is never below the optimum, the objective never above
// it, and within 1e-4 of the scale; within 0.5 % in the few where the weeks of clearing dead hair were not the best.
func TestSolveAgainstGeneralSolver(t *testing.T) {
	s := generalSolvers[0]
	needSolver(t, s)
	compared, behind, worst := 0, 0, 0.0
	seeds := some(30, 4)
	for seed := range seeds {
		p := smallSeason(seed)
		found, finished := s.prove(t, p)
		if !finished {
			continue
		}
		compared++
		r, err := Solve(context.Background(), p, Options{Seed: 1})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		checkResult(t, p, r)
		optimum := -found.cost
		if r.Bound < optimum-1e-6*scale(optimum) {
			t.Errorf("seed %d: the bound %.9g is below the optimum %.9g", seed, r.Bound, optimum)
		}
		if r.Objective > optimum+1e-6*scale(optimum) {
			t.Errorf("seed %d: the objective %.9g is above the optimum %.9g", seed, r.Objective, optimum)
		}
		short := (optimum - r.Objective) / scale(optimum)
		worst = max(worst, short)
		if short > 1e-4 {
			behind++
		}
		if dead := slices.ContainsFunc(p.Dogs, func(d Dog) bool { return d.hasDead() }); short > 5e-3 || short > 1e-4 && !dead {
			t.Errorf("seed %d: the objective %.9g is %.2g %% below the optimum %.9g", seed, r.Objective, 100*short, optimum)
		}
		t.Logf("seed %d: objective %.6f, optimum %.6f, bound %.6f", seed, r.Objective, optimum, r.Bound)
	}
	if compared < int(seeds)*5/6 {
		t.Errorf("only %d of %d seasons were solved to the end", compared, seeds)
	}
	if behind > 2 {
		t.Errorf("in %d of %d seasons the plan is not the best", behind, compared)
	}
	t.Logf("%d seasons, worst shortfall %.3g %%", compared, 100*worst)
}

// The promises hold on larger random seasons too, and for the same seed the answer is the same.
func TestSolveKeepsItsPromises(t *testing.T) {
	for seed := range some(6, 3) {
		p := Random(seed, 2+int(seed%3), 6+int(seed), []float64{0.2, 0.4, 1.5}[seed%3])
		r, err := Solve(context.Background(), p, Options{Seed: seed})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		checkResult(t, p, r)
		if idle := Evaluate(p, NewPlan(p)); r.Objective < idle {
			t.Errorf("seed %d: the plan is worth %g, doing nothing %g", seed, r.Objective, idle)
		}
		again, err := Solve(context.Background(), p, Options{Seed: seed})
		if err != nil || again.Objective != r.Objective || again.Bound != r.Bound {
			t.Errorf("seed %d: solved again, %g and %g became %g and %g (%v)", seed, r.Objective, r.Bound, again.Objective, again.Bound, err)
		}
	}
}

// A solve that is called off at once still has an allowed plan and a valid bound, and says that it was cut.
func TestSolveCalledOff(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	p := Random(1, 4, 20, 0.4)
	r, err := Solve(ctx, p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Cut {
		t.Error("it doesn't say that it was cut")
	}
	checkResult(t, p, r)
}

func TestSolveRefusesMalformedSeasons(t *testing.T) {
	p, _ := handMade()
	p.Rows[0].Capacity = math.NaN()
	if _, err := Solve(context.Background(), p, Options{}); err == nil {
		t.Error("hours that are not a number are planned")
	}
}
