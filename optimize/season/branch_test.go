package season

import (
	"context"
	"testing"
)

// A dog may stand for any number of sessions a week: branch and bound counts them without a limit of its own. (With
// 200 possible sessions a week the bound was once below the plan.)
func TestBoundHoldsForManySessionsAWeek(t *testing.T) {
	p := smallSeason(1)
	for d := range p.Dogs {
		for w, most := range p.Dogs[d].Most {
			if most > 0 {
				p.Dogs[d].Most[w] = 200
			}
		}
	}
	r, err := Solve(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	checkResult(t, p, r)
	idle := Evaluate(p, NewPlan(p))
	if r.Objective <= idle {
		t.Errorf("the plan is worth %v, doing nothing %v", r.Objective, idle)
	}
}
