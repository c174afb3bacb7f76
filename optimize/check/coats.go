package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tuckup/kennel"
)

// A check pulls each area hair by hair: a queue of layers from which the oldest are taken. The planner knows only the
// curve of what was pulled altogether, so the two agree by theorem and not by sharing code.

// hair is a share of an area that was pulled in one week.
type hair struct {
	share float64
	week  int
}

// longAgo is the week of hair that no pull is known of.
const longAgo = math.MinInt / 2

// queue is what is on the area at the end of week t of the hair that was there before the plan, oldest first: what was
// pulled later, and what no pull is known of, was old then.
func (c *checker) queue(a *checkedArea, t int) []hair {
	q, old := []hair(nil), 1.0
	for _, l := range a.layers {
		if w := c.pulledIn(l); w <= t {
			q = append(q, hair{float64(l.Share), w})
			old -= float64(l.Share)
		}
	}
	slices.SortStableFunc(q, func(x, y hair) int { return cmp.Compare(x.week, y.week) })
	return append([]hair{{math.Max(0, old), longAgo}}, q...)
}

// pull takes a share off the front of the queue; it comes back as the youngest layer.
func pull(q []hair, share float64, week int) []hair {
	taken := 0.0
	for len(q) > 0 && taken < share {
		piece := math.Min(share-taken, q[0].share)
		taken += piece
		q[0].share -= piece
		if q[0].share <= 0 {
			q = q[1:]
		}
	}
	return append(q, hair{taken, week})
}

// stand is how one area stands at one time.
type stand struct {
	score, young, old, blown float64 // score 0 to 100, charges and the share past the blown threshold as parts of 1
	charges                  []charge
}

// charge is one threshold's share of hair and what it allows.
type charge struct {
	kennel.Term
	share float64
	over  bool
	kept  bool // of kept hair
}

// standing judges a queue at the end of week t.
func standing(rule kennel.Rule, q []hair, t int, grown growing) stand {
	younger := func(weeks kennel.Weeks) (sum float64) {
		for _, h := range q {
			if grown(h.week, t) < float64(weeks)-checkTol {
				sum += h.share
			}
		}
		return math.Min(1, sum)
	}
	var s stand
	for _, k := range rule.Young {
		share := younger(k.Weeks)
		s.charges = append(s.charges, charge{k, share, false, rule.Kept()})
		s.young += k.Slope * math.Max(0, share-float64(k.Allow))
	}
	for i, k := range rule.Old {
		share := 1 - younger(k.Weeks)
		s.charges = append(s.charges, charge{k, share, true, false})
		s.old += k.Slope * math.Max(0, share-float64(k.Allow))
		if i == 1 {
			s.blown = share
		}
	}
	s.score = 100 * math.Max(0, 1-s.young-s.old)
	return s
}

// stands are by area, from week -1 (which stands at 0) to the last.
type stands [][]stand

// stands are how the dog's areas stand week by week, with the printed shares or left alone.
func (c *checker) stands(d int, worked bool) stands {
	all := make(stands, len(c.dogs[d].areas))
	for i := range all {
		a := &c.dogs[d].areas[i]
		all[i] = append(all[i], standing(a.rule, c.queue(a, -1), -1, a.grown))
		q := c.queue(a, 0)
		for t := range c.weeks {
			if share := a.shares[t]; worked && share > 0 {
				q = pull(q, share, t)
			}
			all[i] = append(all[i], standing(a.rule, q, t, a.grown))
		}
	}
	return all
}

// at is how the areas stand at the end of week t, -1 or later.
func (s stands) at(t int) []stand {
	now := make([]stand, len(s))
	for i := range s {
		now[i] = s[i][t+1]
	}
	return now
}

// mean is the weighted mean over a dog's areas.
func (d checkedDog) mean(now []stand, of func(stand) float64) float64 {
	var sum, weights float64
	for i, a := range d.areas {
		sum += a.Weight.Value * of(now[i])
		weights += a.Weight.Value
	}
	if weights == 0 {
		return 0
	}
	return sum / weights
}

func (d checkedDog) score(now []stand) float64 {
	return d.mean(now, func(s stand) float64 { return s.score })
}

// showScore is the readiness for a show: the mean, but no more than HoleAllow above the worst area.
func (d checkedDog) showScore(now []stand) float64 {
	score := d.score(now)
	for _, s := range now {
		score = math.Min(score, s.score+float64(kennel.HoleAllow))
	}
	return score
}

// whole is the dog's mean stand, with the readiness that counts for a show.
func (d checkedDog) whole(now []stand) stand {
	return stand{
		score: d.showScore(now),
		young: d.mean(now, func(s stand) float64 { return s.young }),
		old:   d.mean(now, func(s stand) float64 { return s.old }),
		blown: d.mean(now, func(s stand) float64 { return s.blown }),
	}
}

// allows reports whether a stand is called by the state; at a threshold, to within arithmetic, both sides are right.
func (s stand) allows(state kennel.State) bool {
	for _, e := range []float64{-checkTol, 0, checkTol} {
		is := kennel.StateGoingOver
		switch {
		case s.score+100*e >= float64(kennel.ReadyScore):
			is = kennel.StateInCoat
		case s.young+e >= s.old:
			is = kennel.StateComingIn
		case s.blown+e > mostHair:
			is = kennel.StateBlown
		}
		if is == state {
			return true
		}
	}
	return false
}

// mostHair is the share of hair past the blown threshold from which a coat is blown: more than half. Common practice.
const mostHair = 0.5

// reasons are the words for the largest charge; where charges are as large, or a percentage is half way, to within
// arithmetic, there are several.
func (s stand) reasons() (words []string) {
	cost := func(c charge) float64 { return c.Slope * (c.share - float64(c.Allow)) }
	most := 0.0
	for _, c := range s.charges {
		most = math.Max(most, cost(c))
	}
	if most <= checkTol {
		words = append(words, "right")
	}
	for _, c := range s.charges {
		if cost(c) < most-checkTol {
			continue
		}
		than := "under"
		if c.over {
			than = "over"
		}
		for _, e := range []float64{-checkTol, checkTol} {
			how := fmt.Sprintf("%s %d weeks", than, c.Weeks)
			if c.kept {
				how = "not back yet"
			}
			words = append(words, fmt.Sprintf("%.0f %% is %s", math.Abs(math.Round(100*(c.share+e))), how))
		}
	}
	return words
}

func (c *checker) reasoned(where, why string, s stand) {
	words := s.reasons()
	c.count(where, "reason", slices.Contains(words, why), quoted(why), quoted(words[0]))
}
