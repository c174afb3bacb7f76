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

// The sessions that branch and bound ends with are sessions that the dog can stand for, though its coat would take hours
// and it stands for 10 minutes twice a week (they were once not), and what a mix makes of them is no more than the bound.
func TestBranchAndBoundEndsWithPossibleSessions(t *testing.T) {
	const weeks, show = 16, 8
	dog := Dog{
		Name: "Dog 1", SetUp: 30, SessionCost: 0.002,
		Minutes: make([]float64, weeks), Most: make([]int, weeks), Value: make([]float64, weeks), Shows: make([]float64, weeks),
		Areas: []Area{
			{Name: "back", Kind: 0, Weight: 0.6, Minutes: 180, Young: []Term{{8, 0.5, 0.8}, {11, 0.6, 1.5}}, Old: []Term{{19, 0.1, 0.5}, {22, 0.2, 0.75}}},
			{Name: "furnishings", Kind: 1, Weight: 0.4, Minutes: 60, Young: []Term{{9, 0.5, 0.8}, {13, 0.6, 1.5}}, Old: []Term{{23, 0.1, 0.5}, {27, 0.2, 0.75}}},
		},
	}
	for a := range dog.Areas {
		for range 30 {
			dog.Areas[a].Past = append(dog.Areas[a].Past, 0.1)
		}
		for w := range weeks {
			most := 1.0
			if w > 4 && w <= show {
				most = 0.05
			}
			dog.Areas[a].Most = append(dog.Areas[a].Most, most)
		}
		dog.Areas[a].Grip = 5
	}
	for w := range weeks {
		dog.Minutes[w], dog.Most[w], dog.Value[w] = 40, 2, 0.025
	}
	dog.Most[show], dog.Value[show], dog.Shows[show] = 0, 3.225, 1
	p := &Problem{Weeks: weeks, Kinds: 2, Dogs: []Dog{dog}, Balance: 1.5}
	twice := 0
	for i := range 16 {
		n, q := newDogNets(p, 0), newPrices(p)
		q.show[0] = 0.1 * float64(i)
		n.setPrices(p.weekPrices(q.row), q)
		bound := n.highest(nil, 2e-3, 100*i+1)
		for w, z := range n.sessions {
			if z > n.dog.Most[w] {
				t.Errorf("at a show price of %v week %d has %d sessions, %d are possible", q.show[0], w, z, n.dog.Most[w])
			}
			if z == 2 {
				twice++
			}
		}
		if _, v := n.bestMix(mixTol); v > bound+1e-9 {
			t.Errorf("a season is worth %v, no more than %v was said to be possible", v, bound)
		}
	}
	if twice < 16 {
		t.Errorf("only %d weeks had two sessions", twice)
	}
}
