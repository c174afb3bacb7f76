package kennel

import (
	"fmt"
	"math"
)

// State is where a coat stands.
type State string

// The states of a coat, in the order in which a coat left alone passes through them.
const (
	StateComingIn  State = "coming in"
	StateInCoat    State = "in coat"
	StateGoingOver State = "going over"
	StateBlown     State = "blown"
)

// mostHair is the share of hair past the threshold of a blown coat from which a coat is called blown rather than going
// over: more than half. Common practice, no source.
const mostHair = 0.5

// blownTerm is the place of that threshold among a rule's Old terms.
const blownTerm = 1

// right is the reason given for a coat that nothing is charged against.
const right = "right"

// State is where an area with the curve stands at the end of week t. It is in coat from ReadyScore on; below,
// the larger of what short hair and long hair cost decides.
func (r Rule) State(c Curve, t int) State {
	young, old := r.charges(c, t)
	return stateOf(r.Score(c, t), young, old, r.blown(c, t))
}

func stateOf(score Score, young, old, blown float64) State {
	switch {
	case score >= ReadyScore:
		return StateInCoat
	case young >= old:
		return StateComingIn
	case blown > mostHair:
		return StateBlown
	}
	return StateGoingOver
}

// blown is the share of hair past the threshold of a blown coat.
func (r Rule) blown(c Curve, t int) float64 {
	if len(r.Old) <= blownTerm {
		return 0
	}
	return float64(1 - c.Younger(t, r.Old[blownTerm].Weeks))
}

// Why is the plain reason of the largest charge against an area with the curve at the end of week t, like "58 %
// is under 11 weeks" or "72 % is over 18 weeks", of kept hair "40 % is not back yet", or "right" when there is none.
func (r Rule) Why(c Curve, t int) string {
	why, most := right, 0.0
	charge := func(k Term, share Share, than string) {
		if cost := k.Slope * float64(share-k.Allow); cost > most+smallestCharge {
			most = cost
			why = fmt.Sprintf("%.0f %% is ", math.Round(100*float64(share)))
			if r.Kept() {
				why += "not back yet"
			} else {
				why += fmt.Sprintf("%s %d weeks", than, k.Weeks)
			}
		}
	}
	for _, k := range r.Young {
		charge(k, c.Younger(t, k.Weeks), "under")
	}
	for _, k := range r.Old {
		charge(k, 1-c.Younger(t, k.Weeks), "over")
	}
	return why
}

// smallestCharge is what rounding of shares may leave; it is no reason. A part of 1.
const smallestCharge = 1e-9
