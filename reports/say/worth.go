package say

import (
	"fmt"
	"math"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Worth compares the plan as shown, after gathering, with the bound.
func Worth(r optimize.Result) string {
	s := r.Season
	shown := r.Worth()
	words := fmt.Sprintf("The plan is worth %.2f points; no plan can be worth more than %.2f", shown, s.Bound)
	if shown > 0 {
		words = fmt.Sprintf("No plan can be more than %s better (%.2f points; no plan can pass %.2f)",
			percentUp(100*(s.Bound-shown)/shown), shown, s.Bound)
	}
	if s.Cut {
		words += "; the search was cut short"
	}
	return words + "."
}

// Gathered says what it cost to gather touches too small to be worth making; empty when there were none.
func Gathered(g optimize.Gathered) string {
	if g.Moved == 0 {
		return ""
	}
	cost := "nothing was lost by it"
	if g.Points > nothingLost {
		cost = "that cost " + Points(g.Points)
	}
	return "Touches too small to be worth making were gathered into fuller ones; " + cost + "."
}

// nothingLost is the most points that gathering may cost without a word of it: half a hundredth, which the two
// decimals of a plan's worth can't show. Gathering can also gain, for it settles what the search had left.
const nothingLost = 0.005

// Points are points with as many decimals as their size needs: two digits that count.
func Points(x float64) string {
	switch a := math.Abs(x); {
	case a >= 10:
		return fmt.Sprintf("%.0f points", x)
	case a >= 0.095:
		return fmt.Sprintf("%.1f points", x)
	case a >= 0.0095:
		return fmt.Sprintf("%.2f points", x)
	case a >= 0.001:
		return fmt.Sprintf("%.3f points", x)
	}
	return "less than 0.001 points"
}

// Tight names the week in which an hour is dearest, or says why there is none.
func Tight(r optimize.Result) string {
	t := r.Tight
	if t == nil {
		if !coatHours(r) {
			return "There are no hours for coat work, so no plan can do more."
		}
		if r.Season.Cut {
			return "The search was cut short before the tight week was found."
		}
		return "No week is short of hours."
	}
	s := fmt.Sprintf("The week of %s is the tight one: one more hour", Week(t.Week, r.On))
	if t.Hands != "" {
		s += " of " + Plain(t.Hands)
	}
	s += fmt.Sprintf(" there is worth %s", Points(t.PointsPerHour))
	if t.Dog != "" {
		s += ", most to " + Plain(t.Dog)
		if t.Show != "" {
			s += " at " + Plain(t.Show)
		}
	}
	return s + "."
}

// coatHours reports whether any hands that are let near a coat have hours in the plan's weeks.
func coatHours(r optimize.Result) bool {
	for _, w := range r.Weeks {
		for i, h := range w.Hands { // in the kennel's order
			if i < len(r.Kennel.Hands) && h.Hours > 0 && pulls(r.Kennel.Hands[i]) {
				return true
			}
		}
	}
	return false
}

func pulls(h kennel.Hands) bool {
	return h.Can(kennel.SkillJacket) || h.Can(kennel.SkillClose) || h.Can(kennel.SkillFurnishings)
}

// LeastPoints is the least difference of points that is worth a word: what two decimals show.
const LeastPoints = 0.005

// Change is what the change is worth in one sentence.
func Change(c optimize.Changes) string {
	switch gain := c.Gain(); {
	case gain >= LeastPoints:
		return fmt.Sprintf("The season gains %.2f points: %.2f before, %.2f after.", gain, c.PointsBefore, c.PointsAfter)
	case gain <= -LeastPoints:
		return fmt.Sprintf("The season loses %.2f points: %.2f before, %.2f after.", -gain, c.PointsBefore, c.PointsAfter)
	}
	return fmt.Sprintf("The season is worth the same, %.2f points.", c.PointsAfter)
}

// Need says what the need of a dog is.
const Need = "The need is a yardstick: what it takes to keep the whole coat rolling while the dog is in hand, every area once " +
	"round before its hair is too long, with set-ups and duties."
