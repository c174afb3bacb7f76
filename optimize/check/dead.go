package check

import (
	"math"

	"tuckup/kennel"
)

// deadAge is the age, whole weeks, from which an area's hair is dead: ready and two holds, which growth divides.
func deadAge(a kennel.PatternArea, growth float64) int {
	return int(math.Max(1, math.Round((a.Ready.Value+2*a.Hold.Value)/growth)))
}

// dead is the share of an area's hair in the queue that was as old as that, or that no pull was known of, when the plan began.
func (c *checker) dead(a *checkedArea, q []hair) (sum float64) {
	if a.Kept {
		return 0
	}
	for _, h := range q {
		if a.grown(h.week, 0) >= float64(a.deadAge)-checkTol {
			sum += h.share
		}
	}
	return sum
}

// began is what is on the area when the plan begins. The season counts its dead hair in millionths.
func (c *checker) began(a *checkedArea) []hair {
	q := c.queue(a, 0)
	dead := c.dead(a, q)
	q[0].share += millionths(dead) - dead
	return q
}

// deadIn is how much dead hair a plan of shares takes, week by week: the queue gives up its oldest hair first.
func (c *checker) deadIn(a *checkedArea, share func(t int) float64) []float64 {
	q := c.began(a)
	dead := make([]float64, c.weeks)
	for t := range dead {
		if u := share(t); u > 0 {
			before := c.dead(a, q)
			q = pull(q, u, t)
			dead[t] = before - c.dead(a, q)
		}
	}
	return dead
}

// work is the minutes of pulling a share of which so much is dead.
func (a *checkedArea) work(share, dead float64) float64 {
	return a.strip*dead + a.minutes*(share-dead)
}

// weekWork is the minutes of pulling an area in week t, as printed.
func (a *checkedArea) weekWork(t int) float64 { return a.work(a.shares[t], a.dead[t]) }

// minutesOfPart is the minutes of a share that is pulled in a session of week t: its part of what the week takes of the area, or of what
// it would take if it took that much.
func (c *checker) minutesOfPart(a *checkedArea, t int, share float64) float64 {
	if share <= 0 || t < 0 || t >= c.weeks {
		return 0
	}
	whole := math.Max(share, a.shares[t])
	dead := c.deadIn(a, func(u int) float64 {
		switch {
		case u < t:
			return a.shares[u]
		case u == t:
			return whole
		}
		return 0
	})
	return a.work(whole, dead[t]) * share / whole
}
