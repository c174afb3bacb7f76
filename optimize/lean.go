package optimize

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// A dog's spells slow its growth in some weeks. What the plan says of a coat counts them week by week (kennel.Lean). The season's
// thresholds are the same in all weeks, so it is given a coat that comes as near to that as it can:
//
// Hair that is on the dog when the plan begins is as old as it has grown: exact.
// A threshold of so many weeks of growth lies further back in weeks after a spell that is to come. It becomes one threshold for each
// distance that it has at the dog's shows, each with the part of the slope that those shows are of all of them; of a dog without shows, in all
// weeks. Exact where a dog's shows have all the same distance: all before its spells, or all long after.

// grownPast is the pull curve that an area arrives with, from its first layer to week 0, by how much its hair has grown since.
func grownPast(curve kennel.Curve, lean *kennel.Lean, first int) (p []float64) {
	for n := lean.Age(first, 0); n >= 0; n-- {
		p = append(p, grain(curve.Pulled(-lean.Back(0, kennel.Weeks(n)))))
	}
	return p
}

// leanTerms are terms of one growth on a dog with spells, at the shows of the weeks' values.
func leanTerms(in []season.Term, lean *kennel.Lean, at []float64) (out []season.Term) {
	if lean == nil {
		return in
	}
	for _, k := range in {
		parts := map[int]float64{}
		var all float64
		for t, value := range at {
			back := lean.Back(t, kennel.Weeks(k.Weeks))
			if back > t { // into weeks before the plan, in which the past is counted as it has grown
				back = t + int(math.Ceil(float64(k.Weeks)-lean.Between(0, t)-tinyLean))
			}
			parts[back] += value
			all += value
		}
		var backs []int
		for back, value := range parts {
			if value > 0 {
				backs = append(backs, back)
			}
		}
		slices.Sort(backs)
		for _, back := range backs {
			out = append(out, season.Term{Weeks: max(1, back), Allow: k.Allow, Slope: k.Slope * parts[back] / all})
		}
	}
	return out
}

// tinyLean is arithmetic's part of a week.
const tinyLean = 1e-9

// countedAt are the weeks at whose ends dog d's coat is looked at, by how much that is worth: its shows, or without any all weeks alike.
func (l *layout) countedAt(dog *season.Dog) []float64 {
	if slices.ContainsFunc(dog.ShowValue, func(v float64) bool { return v > 0 }) {
		return dog.ShowValue
	}
	return slices.Repeat([]float64{1}, l.diary.Weeks)
}
