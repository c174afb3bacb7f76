package check

import (
	"math"

	"tuckup/kennel"
)

// An area with a least length keeps half of its hair at it or longer, whatever is pulled. Hair is followed one by one, as old as it has
// grown.

// shortest is how many weeks' growth the least length of an area is; 0 where it has none.
func (c *checker) shortest(d, a int) float64 {
	return float64(c.dogs[d].LeastWeeks(c.dogs[d].pattern, c.dogs[d].areas[a].PatternArea))
}

// shortNow is the share of an area's hair in a queue that is shorter than its least length at the end of week t.
func (c *checker) shortNow(d, a, t int, q []hair) (short float64) {
	least := c.shortest(d, a)
	for _, h := range q {
		if c.dogs[d].areas[a].grown(h.week, t) < least-checkTol {
			short += h.share
		}
	}
	return short
}

// outlineKept holds a week's pull of an area against its least length: dead hair is no exception.
func (c *checker) outlineKept(where string, d, a, t int) {
	area := &c.dogs[d].areas[a]
	if c.shortest(d, a) == 0 {
		return
	}
	q := c.queue(area, 0)
	for u := 0; u <= t; u++ {
		if area.shares[u] > 0 {
			q = pull(q, area.shares[u], u)
		}
	}
	c.atMost(where, "hair shorter than the outline's least length", c.shortNow(d, a, t, q), float64(1-kennel.OutlineShare)+gripTol)
}

// leastShares are the largest shares that the rule leaves to the weeks of an area: each an even part, less where so much was pulled
// before, and in the weeks before that, that more would leave too much short. nil where the area has no least length.
func (c *checker) leastShares(d, a int) []float64 {
	least := c.shortest(d, a)
	if least == 0 {
		return nil
	}
	area := &c.dogs[d].areas[a]
	all := make([]float64, c.weeks)
	for t := range all {
		short := 0.0
		for _, l := range area.layers {
			if w := c.pulledIn(l); w <= 0 && area.grown(w, t) < least-checkTol {
				short += float64(l.Share)
			}
		}
		for u := range t {
			if area.grown(u, t) < least-checkTol {
				short += all[u]
			}
		}
		if left := math.Min(float64(1-kennel.OutlineShare)/least, float64(1-kennel.OutlineShare)-short); left >= 1e-3 {
			all[t] = left
		}
	}
	return all
}
