package optimize

import (
	"math"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
)

// A dog planned anew from a week on is the same dog: what the weeks from there are worth, and the minutes that they take, are as in the
// whole season.
func TestADogPlannedAnewLaterIsTheSameDog(t *testing.T) {
	k := made.TwoShown()
	k.Dogs[0].All = []kennel.Layer{{Share: 0.6, Pulled: made.Monday.AddDays(-7 * 50)}, {Share: 0.4, Pulled: made.Monday.AddDays(-7 * 9)}}
	l, err := layOut(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	whole := l.problem
	whole.Rows, whole.Dogs, whole.Balance = nil, whole.Dogs[:1], 0
	plan := season.NewPlan(&whole)
	for a := range plan.Shares[0] {
		for w := range plan.Shares[0][a] {
			plan.Shares[0][a][w] = 0.03 * float64(1+(a+w)%3)
		}
	}
	const from = 5
	rest := season.Problem{Weeks: whole.Weeks - from, Kinds: whole.Kinds, Hole: whole.Hole, Dogs: []season.Dog{later(whole.Dogs[0], plan.Shares[0], from)}}
	if err := season.Validate(&rest); err != nil {
		t.Fatal(err)
	}
	after := season.NewPlan(&rest)
	for a := range after.Shares[0] {
		copy(after.Shares[0][a], plan.Shares[0][a][from:])
	}
	same := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %g, in the whole season %g", what, got, want)
		}
	}
	dead := false
	for w := range rest.Weeks {
		same("readiness", season.Readiness(&rest, after, 0, w), season.Readiness(&whole, plan, 0, from+w))
		same("show readiness", season.ShowReadiness(&rest, after, 0, w), season.ShowReadiness(&whole, plan, 0, from+w))
		same("uneven work", season.Uneven(&rest, after, 0, w), season.Uneven(&whole, plan, 0, from+w))
		same("points of shows", rest.Dogs[0].ShowValue[w], whole.Dogs[0].ShowValue[from+w])
		for a := range rest.Dogs[0].Areas {
			area := &rest.Dogs[0].Areas[a]
			same("minutes", area.MinutesOf(after.Shares[0][a])[w], whole.Dogs[0].Areas[a].MinutesOf(plan.Shares[0][a])[from+w])
			dead = dead || area.Dead > 0
		}
	}
	if !dead {
		t.Error("no dead hair is left for the weeks from there")
	}
}
