package say

import (
	"tuckup/kennel"
	"tuckup/optimize"
)

// fullWithin is how near to the hours available a week is called full: what one decimal of an hour can't show.
const fullWithin kennel.Hours = 0.05

// Full reports whether a pair of hands has no hours left in its week, beside its meals and breaks.
func Full(h optimize.HandsWeek) bool { return h.Planned > min(h.Hours, h.MostWork)-fullWithin }

// FullWithBreaks reports whether it is breaks that leave no hours.
func FullWithBreaks(h optimize.HandsWeek) bool { return Full(h) && h.Planned <= h.Hours-fullWithin }

// NoMorePulling reports whether a pair of hands has pulled as much in its week as its days allow.
func NoMorePulling(h optimize.HandsWeek) bool {
	return h.MostPulling > 0 && h.Pulled() > h.MostPulling-fullWithin
}

// FullWeek reports whether nobody who works on coats in the week can pull any more; no week without such hands is full.
func FullWeek(r optimize.Result, w optimize.Week) bool {
	full := false
	for i, h := range w.Hands { // in the kennel's order
		if i >= len(r.Kennel.Hands) || h.Hours == 0 || !pulls(r.Kennel.Hands[i]) {
			continue
		}
		if !Full(h) && !NoMorePulling(h) {
			return false
		}
		full = true
	}
	return full
}
