package season

import (
	"math"
	"testing"
)

// What a search has left off the work that was agreed on goes back where nothing is lost by it: shares and sessions, but not where a
// limit has no room for them any more.
func TestGatheringPutsBackWhatWasAgreed(t *testing.T) {
	agreed := []float64{0.1, 0.3, 0.3}
	season := func(capacity float64) (*Problem, Plan) {
		dog := Dog{
			Name: "Sorrel", SetUp: 10, SessionCost: 0.001, Stay: 0.05, Kept: []int{1, 1, 0},
			Minutes: []float64{60, 60, 60, 60}, Most: []int{1, 1, 1, 1}, Value: []float64{0, 0, 0, 0},
			Areas: []Area{{Name: "ribs", Weight: 1, Minutes: 100, Most: []float64{1, 1, 1, 1}, Agreed: agreed, Moved: 0.2}},
		}
		p := &Problem{Weeks: 4, Kinds: 1, Dogs: []Dog{dog}, Rows: []Row{{Name: "hours", Week: 1, Capacity: capacity, Kinds: 1, SetUps: true}}}
		plan := NewPlan(p)
		plan.Sessions[0] = []int{1, 0, 1, 0}
		plan.Shares[0][0] = []float64{0.12, 0, 0.18, 0}
		return p, plan
	}
	p, plan := season(30)
	got, _ := Gather(p, plan, Touch{0.03, 3})
	for week, want := range []float64{0.1, 0.2, 0, 0} {
		if math.Abs(got.Shares[0][0][week]-want) > 1e-9 || got.Sessions[0][week] != []int{1, 1, 0, 0}[week] {
			t.Errorf("week %d: %v in %d sessions, want %v", week, got.Shares[0][0][week], got.Sessions[0][week], want)
		}
	}
	p, plan = season(25)
	if got, _ = Gather(p, plan, Touch{0.03, 3}); got.Shares[0][0][1] > 0.15+1e-9 || Violations(p, got, 1e-6) != nil {
		t.Errorf("%v in the second week, which has room for 0.15: %q", got.Shares[0][0][1], Violations(p, got, 1e-6))
	}
}
