package say

import (
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
)

// A dog that is promised less than its worst area has is explained: so much is expected to be missed.
func TestWhatMissedWorkCostsIsSaidBeforeTheWorstArea(t *testing.T) {
	for _, c := range []struct {
		s    optimize.ShowReadiness
		want string
	}{
		{optimize.ShowReadiness{Score: 73, Followed: 84, WorstArea: kennel.AreaForechest, WorstScore: 79, Why: "50 % is over 10 weeks"}, "all done 84, worst forechest 79: 50 % is over 10 weeks"},
		{optimize.ShowReadiness{Score: 82, Followed: 84, WorstArea: kennel.AreaForechest, WorstScore: 79}, "worst forechest 79"},
		{optimize.ShowReadiness{Score: 90, Followed: 100, WorstArea: kennel.AreaBack, WorstScore: 99.8}, "all done 100, every area right"},
		{optimize.ShowReadiness{Score: 60, Followed: 70}, "all done 70"},
		{optimize.ShowReadiness{}, ""},
	} {
		if got := WorstAt(c.s); got != c.want {
			t.Errorf("%+v is %q, want %q", c.s, got, c.want)
		}
	}
}
