package kennel

import "math"

// Curve is an area's cumulated pull curve P in weeks: P(t) is the share of the area pulled up to the end of
// week t, counted since before anything still on the dog was pulled. Week 0 is the Monday week that holds the
// day planned from. Hair is pulled oldest first, so everything about an area's length follows from P.
type Curve struct {
	first int       // week of pulled[0]
	sum   []float64 // P(first), P(first+1), ..; 0 before, the last value after
	lean  *Lean     // how the dog's spells slow its growth; nil = it has none
}

// NewCurve is the curve of the layers on an area. week0 is the Monday of week 0. A layer pulled in week 0 or
// later counts for that week.
func NewCurve(layers []Layer, week0 Date) Curve {
	if len(layers) == 0 {
		return Curve{}
	}
	first, last := math.MaxInt, math.MinInt
	for _, l := range layers {
		w := WeekOf(l.Pulled, week0)
		first, last = min(first, w), max(last, w)
	}
	c := Curve{first: first, sum: make([]float64, last-first+1)}
	for _, l := range layers {
		c.sum[WeekOf(l.Pulled, week0)-first] += float64(l.Share)
	}
	for i := 1; i < len(c.sum); i++ {
		c.sum[i] += c.sum[i-1]
	}
	return c
}

// WeekOf is the index of the Monday week that holds d, counted from week0 (a Monday): 0 for that week, -1 for
// the one before.
func WeekOf(d, week0 Date) int {
	n := int(d - week0)
	if n < 0 {
		return -((DaysAWeek - 1 - n) / DaysAWeek)
	}
	return n / DaysAWeek
}

// ReadinessWeek is the week whose end stands for the coat on date d: the end nearest to the day before. A show
// from Thursday on sees its own week's work, one up to Wednesday sees the coat as the week before left it.
func ReadinessWeek(d, week0 Date) int {
	w := WeekOf(d, week0)
	if d.Weekday() <= Wednesday {
		w--
	}
	return w
}

// Pulled is P(t).
func (c Curve) Pulled(t int) float64 {
	if len(c.sum) == 0 || t < c.first {
		return 0
	}
	return c.sum[min(t-c.first, len(c.sum)-1)]
}

// With is the curve after pulling the shares: shares[t] in week t = 0, 1, ... on top of what c has.
func (c Curve) With(shares []float64) Curve {
	if len(shares) == 0 {
		return c
	}
	first := 0
	if len(c.sum) > 0 {
		first = min(c.first, 0)
	}
	last := len(shares) - 1
	if len(c.sum) > 0 {
		last = max(last, c.first+len(c.sum)-1)
	}
	n := Curve{first: first, sum: make([]float64, last-first+1), lean: c.lean}
	var added float64
	for t := first; t <= last; t++ {
		if t >= 0 && t < len(shares) {
			added += shares[t]
		}
		n.sum[t-first] = c.Pulled(t) + added
	}
	return n
}

// Lean is how the dog's spells slow its growth; nil = it has none.
func (c Curve) Lean() *Lean { return c.lean }

// On is the same curve on a dog whose spells slow its growth.
func (c Curve) On(lean *Lean) Curve {
	c.lean = lean
	return c
}

// Younger is the share of hair younger than a weeks at the end of week t, 0 to 1. A week of a spell in which the coat grows half as fast
// counts for half a one.
func (c Curve) Younger(t int, a Weeks) Share {
	return Share(min(1, c.Pulled(t)-c.Pulled(t-c.lean.Back(t, a))))
}

// Term is one threshold of readiness: the share past Weeks beyond Allow costs Slope for each unit.
type Term struct {
	Weeks Weeks
	Allow Share
	Slope float64
}

// Rule says how ready an area is: Young terms charge hair younger than their weeks, Old terms hair that is not
// younger than theirs.
type Rule struct {
	Ready, Hold Weeks // the dog's own, growth counted in
	Dead        Weeks // age from which hair is dead: loose, and first to go; 0 = never, of kept hair
	Young, Old  []Term
}

// The readiness rule is common practice put into numbers: a body jacket counts as full from about 40 % of its
// hair at show length, with layers under it; a hole costs steeply; a little overlong hair is forgiven, a blown
// coat is not. The values are for ready 11 and hold 7 weeks and scale with an area's own ready and hold.
const (
	halfReady  = 8.0 / 11 // of ready: hair so young is a hole
	longHold   = 10.0 / 7 // of hold: hair so old is blown
	holeAllow  = 0.50
	holeSlope  = 0.8
	shortAllow = 0.60
	shortSlope = 1.5
	longAllow  = 0.10
	longSlope  = 0.5
	blownAllow = 0.20
	blownSlope = 0.75
	deadHold   = 2.0 // of hold: hair so old is dead
	deadAllow  = 0.03
	deadSlope  = 1.5
)

// Kept hair is missed as soon as a little of it is gone, and half of it is a season's work. Common practice.
const (
	lostAllow = 0.05 // so much is a tip
	lostSlope = 0.8  // while what was lost is far from back
	thinSlope = 1.0  // until it is back
)

// NewRule is the rule of an area that is ready after so many weeks and then holds for so many, on a dog with
// the growth factor (which divides both). The thresholds are whole weeks, at least 1.
func NewRule(ready, hold, growth float64) Rule {
	if growth <= 0 {
		growth = 1
	}
	week := func(w float64) Weeks { return Weeks(max(1, math.Round(w/growth))) }
	r := Rule{Ready: week(ready), Hold: week(hold), Dead: week(ready + deadHold*hold)}
	r.Young = []Term{
		{week(halfReady * ready), holeAllow, holeSlope},
		{r.Ready, shortAllow, shortSlope},
	}
	r.Old = []Term{
		{week(ready + hold), longAllow, longSlope},
		{week(ready + longHold*hold), blownAllow, blownSlope},
		{r.Dead, deadAllow, deadSlope},
	}
	return r
}

// newKeptRule is the rule of kept hair: what was lost is missed until it is back after so many weeks, and none is ever
// too long.
func newKeptRule(ready, hold, growth float64) Rule {
	r := NewRule(ready, hold, growth)
	r.Dead, r.Old = 0, nil
	r.Young = []Term{{r.Young[0].Weeks, lostAllow, lostSlope}, {r.Ready, lostAllow, thinSlope}}
	return r
}

// Kept reports whether the rule is one of kept hair, which is never too long.
func (r Rule) Kept() bool { return r.Dead == 0 && len(r.Old) == 0 }

// DeadShare is the part of the hair of the curve that is dead at the end of week t, 0 of kept hair.
func (r Rule) DeadShare(c Curve, t int) Share {
	if r.Kept() {
		return 0
	}
	return 1 - c.Younger(t, r.Dead)
}

// Score is the readiness of an area with the curve at the end of week t.
func (r Rule) Score(c Curve, t int) Score {
	young, old := r.charges(c, t)
	return Score(100 * max(0, 1-young-old))
}

// charges are what short hair and long hair take from a full score of 1.
func (r Rule) charges(c Curve, t int) (young, old float64) {
	for _, k := range r.Young {
		young += k.Slope * max(0, float64(c.Younger(t, k.Weeks)-k.Allow))
	}
	for _, k := range r.Old {
		old += k.Slope * max(0, float64(1-c.Younger(t, k.Weeks)-k.Allow))
	}
	return young, old
}
