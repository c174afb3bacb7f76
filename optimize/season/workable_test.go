package season

import (
	"context"
	"math"
	"testing"
)

// What is worth making, as handlers have it: 3 % of an area and 3 minutes.
var worthMaking = Touch{Share: 0.03, Minutes: 3}

// A plan made workable has nothing in it that is not worth making, keeps all limits, and is never worse than the plan gathered at once;
// over all of them it loses a third less at least.
func TestWorkablePlans(t *testing.T) {
	var lost, gathered float64
	seeds, most := uint64(8), 2./3
	if testing.Short() {
		seeds, most = 1, 0.9
	}
	for seed := uint64(1); seed <= seeds; seed++ {
		p := RandomString(seed, Shape{Dogs: 5, Weeks: 13, Hours: 0.5, Hands: 1})
		r, err := Solve(context.Background(), p, Options{Seed: 1, Quick: true, Touch: worthMaking})
		if err != nil {
			t.Fatal(err)
		}
		checkWorkable(t, p, r)
		was, _ := Gather(p, r.Plan, worthMaking)
		now, before := Evaluate(p, r.Workable), Evaluate(p, was)
		if now < before-1e-9 {
			t.Errorf("seed %d: made workable it is worth %.6f, gathered at once %.6f", seed, now, before)
		}
		t.Logf("seed %d: %.3f points; gathered at once %.3f, made workable %.3f", seed, r.Objective, before, now)
		lost, gathered = lost+r.Objective-now, gathered+r.Objective-before
	}
	t.Logf("lost %.3f points, gathered at once %.3f", lost, gathered)
	if lost > most*gathered {
		t.Errorf("%.3f points are lost, and %.3f by gathering at once", lost, gathered)
	}
}

func checkWorkable(t *testing.T, p *Problem, r Result) {
	t.Helper()
	if v := Violations(p, r.Workable, 1e-6); v != nil {
		t.Fatalf("the workable plan: %q", v)
	}
	if r.Bound < Evaluate(p, r.Workable)-1e-9*scale(r.Bound) {
		t.Errorf("the workable plan is above the bound %.9g", r.Bound)
	}
	for _, x := range p.smallTouches(r.Workable, worthMaking) {
		t.Errorf("dog %d, area %d, week %d: %.4f of it", x.dog, x.area, x.week, r.Workable.Shares[x.dog][x.area][x.week])
	}
	for _, x := range p.thinSessions(r.Workable) {
		t.Errorf("dog %d, week %d: a session with %.2f of the pulling it must have", x.dog, x.week, x.part)
	}
	for d := range p.Dogs {
		for a := range p.Dogs[d].Areas {
			for week, share := range r.Workable.Shares[d][a] {
				if share > 0 && r.Workable.Sessions[d][week] == 0 {
					t.Errorf("dog %d, area %d: work in week %d without a session", d, a, week)
				}
			}
		}
	}
}

// A workable plan that is begun with and held to keeps its touches but for a few, and is no worse; what an area has no minutes for any more goes elsewhere.
func TestWorkablePlansAreHeldTo(t *testing.T) {
	moved, touches, others := 0, 0, 0
	for seed := uint64(1); seed <= some(4, 1); seed++ {
		p := RandomString(seed, Shape{Dogs: 4, Weeks: 12, Hours: 0.5, Hands: 1})
		r, err := Solve(context.Background(), p, Options{Seed: 1, Quick: true, Touch: worthMaking})
		if err != nil {
			t.Fatal(err)
		}
		hold := func(p *Problem) Result {
			kept, err := Solve(context.Background(), p, Options{Seed: 1, Keep: true, Start: &r.Workable, Touch: worthMaking})
			if err != nil {
				t.Fatal(err)
			}
			return kept
		}
		same := hold(p)
		checkWorkable(t, p, same)
		if now, before := Evaluate(p, same.Workable), Evaluate(p, r.Workable); now < before-1e-6 {
			t.Errorf("seed %d: held to it is worth %.6f, before %.6f", seed, now, before)
		}
		was, is := touchesOf(r.Workable), touchesOf(same.Workable)
		for k := range is {
			if !was[k] {
				others++
			}
		}
		touches += len(is)
		d, a, week := firstTouch(r.Workable)
		less := *p
		less.Dogs = append([]Dog(nil), p.Dogs...)
		less.Dogs[d].Areas = append([]Area(nil), p.Dogs[d].Areas...)
		less.Dogs[d].Areas[a].Room = make([]float64, p.Weeks)
		for t := range p.Weeks {
			if t != week {
				less.Dogs[d].Areas[a].Room[t] = 1000
			}
		}
		other := hold(&less)
		if v := Violations(&less, other.Workable, 1e-6); v != nil {
			t.Fatalf("seed %d: %q", seed, v)
		}
		for t, share := range other.Workable.Shares[d][a] {
			if t != week && share > 0 && r.Workable.Shares[d][a][t] == 0 {
				moved++
			}
		}
	}
	if moved == 0 {
		t.Error("no work went to another week")
	}
	if others > touches/50 { // a small touch may still be moved
		t.Errorf("%d of %d touches are new", others, touches)
	}
}

// A plan of another size, or none, is nothing to hold to, and there is a workable plan all the same.
func TestAPlanOfAnotherSizeIsNotHeldTo(t *testing.T) {
	p := RandomString(1, Shape{Dogs: 2, Weeks: 8, Hours: 0.5, Hands: 1})
	longer := NewPlan(RandomString(1, Shape{Dogs: 2, Weeks: 10, Hours: 0.5, Hands: 1}))
	fewer := NewPlan(p)
	fewer.Sessions = fewer.Sessions[:1]
	areas := NewPlan(p)
	areas.Shares[0] = areas.Shares[0][:1]
	for _, start := range []*Plan{nil, &longer, &fewer, &areas} {
		r, err := Solve(context.Background(), p, Options{Seed: 1, Quick: true, Keep: true, Start: start, Touch: worthMaking})
		if err != nil {
			t.Fatal(err)
		}
		checkWorkable(t, p, r)
	}
}

// touchesOf are the dogs, areas and weeks in which something is pulled.
func touchesOf(plan Plan) map[[3]int]bool {
	all := map[[3]int]bool{}
	for d := range plan.Shares {
		for a := range plan.Shares[d] {
			for t, share := range plan.Shares[d][a] {
				if share > noTouch {
					all[[3]int{d, a, t}] = true
				}
			}
		}
	}
	return all
}

// firstTouch is one of a plan's touches.
func firstTouch(plan Plan) (d, a, week int) {
	for d := range plan.Shares {
		for a := range plan.Shares[d] {
			for t, share := range plan.Shares[d][a] {
				if share > 0 {
					return d, a, t
				}
			}
		}
	}
	return 0, 0, 0
}

// Called off at any moment, the plan is workable; in the search nothing is said of it.
func TestWorkablePlansCalledOff(t *testing.T) {
	p := RandomString(4, Shape{Dogs: 3, Weeks: 12, Hours: 0.4, Hands: 1})
	whole := &patient{Context: context.Background()}
	whole.left.Store(math.MaxInt64)
	if _, err := Solve(whole, p, Options{Seed: 1, Quick: true, Touch: worthMaking}); err != nil {
		t.Fatal(err)
	}
	asked := math.MaxInt64 - whole.left.Load()
	for _, at := range []int64{0, asked * 9 / 10, asked / 3, asked * 2 / 3, asked - 20}[:some(5, 1)] {
		c := &patient{Context: context.Background()}
		c.left.Store(at)
		r, err := Solve(c, p, Options{Seed: 1, Quick: true, Touch: worthMaking})
		if err != nil {
			t.Fatal(err)
		}
		checkWorkable(t, p, r)
		if !r.Cut {
			t.Errorf("called off at %d of %d, it does not say so", at, asked)
		}
	}
}

// Without a rule of what is worth making there is no workable plan beside the plan.
func TestNoRuleNoWorkablePlan(t *testing.T) {
	p := RandomString(1, Shape{Dogs: 2, Weeks: 8, Hours: 0.5, Hands: 1})
	if r, err := Solve(context.Background(), p, Options{Seed: 1}); err != nil || r.Workable.Sessions != nil || r.Moved != 0 {
		t.Errorf("%v, %v, %d", err, r.Workable.Sessions, r.Moved)
	}
}
