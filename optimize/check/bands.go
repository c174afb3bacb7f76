package check

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// surely is how many standard errors two means of draws may be apart: once in a hundred thousand times they are further. A string has
// a hundred such figures, and a false alarm helps nobody.
const surely = 4.5

// What the planner's draws may have and these have not, or the other way round: luck that comes once in some hundred times.
const (
	rareScore  = 1.0  // points of the mean, and of the ends of the range
	rareChance = 0.01 // of being in coat
)

// bands compares what is to be expected of dog d's readiness at the end of week t, and how sure it is, as sessions are missed and growth is
// lognormal around its estimate. The hair on the dog is judged by the thresholds of each growth.
func (c *checker) bands(where string, says planned.ShowReadiness, d, t int) {
	scores := c.triedScores(d, t)
	n := float64(len(scores))
	var mean, squares, in, maybe float64 // in coat; on the very threshold arithmetic decides
	for _, s := range scores {
		mean += s / n
		squares += s * s / n
		if s >= float64(kennel.ReadyScore)+checkTol {
			in += 1 / n
		}
		if s >= float64(kennel.ReadyScore)-checkTol {
			maybe += 1 / n
		}
	}
	slices.Sort(scores)
	open := surely * math.Sqrt(1.0/triedTimes+1.0/plannedTimes) // by a standard deviation of one draw
	slip := open*math.Sqrt(max(0, squares-mean*mean)) + rareScore
	c.atLeast(where, "readiness", float64(says.Score), mean-slip)
	c.atMost(where, "readiness", float64(says.Score), mean+slip)
	between := func(figure string, says kennel.Score, part float64) {
		off := int(n * open * math.Sqrt(part*(1-part)))
		at := int(part * n)
		c.atLeast(where, figure, float64(says), scores[max(0, at-off)]-rareScore)
		c.atMost(where, figure, float64(says), scores[min(len(scores)-1, at+off)]+rareScore)
	}
	between("readiness if things go badly", says.Low, 0.1)
	between("readiness if things go well", says.High, 0.9)
	c.atLeast(where, "chance of being in coat", says.Likely, in-chanceSlip(in, says.Likely))
	c.atMost(where, "chance of being in coat", says.Likely, maybe+chanceSlip(maybe, says.Likely))
}

// chanceSlip is how far apart the chance that was found and the one that a plan says may be: two samples of the same, so that how they scatter is
// taken from both of them. A chance that never came in one need not be none.
func chanceSlip(found, says float64) float64 {
	both := (triedTimes*found + plannedTimes*min(1, max(0, says))) / (triedTimes + plannedTimes)
	return surely*math.Sqrt(both*(1-both)*(1.0/triedTimes+1.0/plannedTimes)) + rareChance
}
