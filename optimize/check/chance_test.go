package check

import "testing"

// A rare chance may never come in the draws of the check; one that is not rare must.
func TestChancesOfTwoSamplesAreHeldAgainstEachOther(t *testing.T) {
	for _, c := range []struct {
		found, says float64
		agrees      bool
	}{
		{0, 6.0 / plannedTimes, true}, {0, 0.1, false}, {0, 1, false}, {1, 1 - 6.0/plannedTimes, true}, {1, 0.9, false}, {0.5, 0.55, true}, {0.5, 0.75, false}, {0, 2, false}, {1, -1, false},
	} {
		off := c.says - c.found
		if off < 0 {
			off = -off
		}
		if got := off <= chanceSlip(c.found, c.says); got != c.agrees {
			t.Errorf("found %v, said %v: agrees %v", c.found, c.says, got)
		}
	}
}
