package season

import (
	"math"
	"testing"
)

// handMade is a season small enough to be worked out by hand.
func handMade() (*Problem, Plan) {
	p := &Problem{
		Weeks: 3, Kinds: 2, Balance: 0.5,
		Dogs: []Dog{
			{
				Name: "Bramble", SetUp: 10, Minutes: []float64{60, 60, 60}, Most: []int{2, 2, 2},
				SessionCost: 0.01, Value: []float64{0.1, 0.2, 2}, Shows: []float64{0.25, 0, 0.75},
				Kept: []int{0, 1}, Stay: 0.05,
				Areas: []Area{
					{
						Name: "back", Weight: 0.75, Minutes: 60, Past: []float64{0.25, 0.5, 1},
						Most: []float64{1, 1, 1}, Young: []Term{{2, 0.5, 0.8}}, Old: []Term{{1, 0.1, 0.5}},
					},
					{Name: "ears", Kind: 1, Weight: 0.25, Minutes: 20, Most: []float64{1, 1, 1}},
				},
			},
			{
				Name: "Thistle", Minutes: []float64{60, 60, 60}, Most: []int{1, 1, 1},
				Value: []float64{0, 0, 0}, Shows: []float64{0.5, 0, 0.5},
				Areas: []Area{{Name: "back", Weight: 0.6, Minutes: 60, Most: []float64{1, 1, 1}}},
			},
		},
		Rows: []Row{
			{Name: "Handler", Week: 0, Capacity: 100, Kinds: 0b11, SetUps: true},
			{Name: "Handler", Week: 2, Capacity: 80, Kinds: 0b01, Strip: true},
		},
	}
	plan := NewPlan(p)
	plan.Sessions[0] = []int{1, 0, 2}
	plan.Shares[0][0] = []float64{0.2, 0, 0.4}
	return p, plan
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12) {
		t.Errorf("%s is %.15g, want %.15g", what, got, want)
	}
}

// The curve of Bramble's back is P(-2..2) = .25 .5 1.2 1.2 1.6, and 0 before.
//
//	younger than 2 weeks: 1.2-.25 = .95, 1.2-.5 = .7, 1.6-1.2 = .4; over .5, times .8: .36 .16 0
//	younger than 1 week:  1.2-.5 = .7, 0, .4; older over .1, times .5: (.3-.1)/2 = .1, (1-.1)/2 = .45, (.6-.1)/2 = .25
//	the back's readiness: .54 .39 .75; the ears' 1 1 1; the dog's .75*back + .25: .655 .5425 .8125
func TestReadinessByHand(t *testing.T) {
	p, plan := handMade()
	for week, want := range []float64{0.655, 0.5425, 0.8125} {
		near(t, "Bramble's readiness", Readiness(p, plan, 0, week), want)
		near(t, "Thistle's readiness", Readiness(p, plan, 1, week), 0.6)
	}
}

// Bramble's mean is .25*.655 + .75*.8125 = .16375 + .609375; Thistle is .6 ready at all times.
func TestShowMeanByHand(t *testing.T) {
	p, plan := handMade()
	near(t, "Bramble's show mean", ShowMean(p, plan, 0), 0.773125)
	near(t, "Thistle's show mean", ShowMean(p, plan, 1), 0.6)
	p.Dogs[1].Shows = nil
	near(t, "the mean of no shows", ShowMean(p, plan, 1), 0)
}

func TestEvaluateByHand(t *testing.T) {
	p, plan := handMade()
	// .1*.655 + .2*.5425 + 2*.8125 = 1.799; 3 sessions at .01; one session more and one fewer than accepted at .05;
	// the least mean is Thistle's: .5*.6.
	near(t, "the objective", Evaluate(p, plan), 1.799-0.03-0.1+0.3)
	p.Dogs[1].Shows = nil // now the least mean is Bramble's
	near(t, "the objective without Thistle's shows", Evaluate(p, plan), 1.799-0.03-0.1+0.5*0.773125)
	p.Dogs[0].Shows = nil // no dog has shows: no balance
	near(t, "the objective without shows", Evaluate(p, plan), 1.799-0.03-0.1)
	p.Dogs[0].Kept = nil
	near(t, "the objective without accepted sessions", Evaluate(p, plan), 1.799-0.03)
	p.Dogs[0].Kept = []int{3, 3, 3} // 2 + 3 + 1 fewer
	near(t, "the objective with many accepted sessions", Evaluate(p, plan), 1.799-0.03-0.3)
}

// An idle back is wholly old: 1 - .5*(1-.1) = .55 of .75. Taken down twice within two weeks it is younger by 2:
// 1 - .8*(2-.5) = -.2, and in a week's old term 1-1-.1 < 0.
func TestReadinessIsNotClipped(t *testing.T) {
	p, plan := handMade()
	plan.Shares[0][0] = []float64{0, 1, 1}
	near(t, "readiness of a coat taken down twice", Readiness(p, plan, 0, 2), 0.75*-0.2+0.25)
	p.Dogs[0].Areas[0].Past = nil
	near(t, "readiness of a coat without history", Readiness(p, plan, 0, 0), 0.75*0.55+0.25)
}
