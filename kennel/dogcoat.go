package kennel

import (
	"fmt"
	"math"
	"slices"
)

// AreaCoatNow is one area of one dog with all that says how ready it is.
type AreaCoatNow struct {
	PatternArea
	Rule  Rule  // with the dog's growth counted in
	Curve Curve // what is on the dog
}

// DogCoat is the coat of one dog, area by area in the pattern's order. It never changes; With makes another.
type DogCoat struct {
	Areas []AreaCoatNow
	week0 Date // Monday of week 0
}

// NewDogCoat is the coat that the dog's layers, growth and spells make on the areas of its pattern. week0 is the Monday
// of week 0. The error is an *InputError and names an area on which nothing is known to be.
func NewDogCoat(d Dog, p Pattern, week0 Date) (DogCoat, error) {
	coat := DogCoat{week0: week0, Areas: make([]AreaCoatNow, len(p.Areas))}
	lean := d.Lean(week0)
	for i, a := range p.Areas {
		layers := d.LayersOf(a)
		if len(layers) == 0 && !a.Kept {
			return DogCoat{}, bareArea(d, a.Name)
		}
		coat.Areas[i] = AreaCoatNow{PatternArea: a, Rule: a.RuleFor(d.Coat.Growth), Curve: NewCurve(layers, week0).On(lean)}
	}
	return coat, nil
}

func bareArea(d Dog, a AreaName) *InputError {
	return &InputError{
		Field: "areas", What: fmt.Sprintf("nothing says when the %s of %s was last pulled", a, d.Name),
		Try: "all: [{share: 1, pulled: 2026-11-09}], with your day, for every area that is not named; or a line " + string(a) + ": like it",
	}
}

// LayersOn is what is on the area: its own layers, or those of every area that is not named.
func (d Dog) LayersOn(a AreaName) []Layer {
	i := slices.IndexFunc(d.Areas, func(c AreaCoat) bool { return c.Area == a })
	if i >= 0 && len(d.Areas[i].Layers) > 0 {
		return d.Areas[i].Layers
	}
	return d.All
}

// LayersOf is what is on an area of the dog's pattern. Of kept hair it is what was lost, by its day: nothing where the
// area has no line of its own, whatever is on the areas that are not named.
func (d Dog) LayersOf(a PatternArea) []Layer {
	if !a.Kept {
		return d.LayersOn(a.Name)
	}
	if i := slices.IndexFunc(d.Areas, func(c AreaCoat) bool { return c.Area == a.Name }); i >= 0 {
		return d.Areas[i].Layers
	}
	return nil
}

// With is the coat after pulling: shares[i][t] of area i (in the pattern's order) in week t = 0, 1, ... Areas past
// the end of shares are left alone.
func (c DogCoat) With(shares [][]float64) DogCoat {
	n := DogCoat{Areas: slices.Clone(c.Areas), week0: c.week0}
	for i := range n.Areas {
		if i < len(shares) {
			n.Areas[i].Curve = n.Areas[i].Curve.With(shares[i])
		}
	}
	return n
}

// Growing is the same hair, pulled at the same times, on a dog with another growth factor.
func (c DogCoat) Growing(growth float64) DogCoat {
	n := DogCoat{Areas: slices.Clone(c.Areas), week0: c.week0}
	for i, a := range n.Areas {
		n.Areas[i].Rule = a.RuleFor(growth)
	}
	return n
}

// Score is the readiness of the dog at the end of week t: the weighted mean of its areas. It says how the coat stands
// in a week without a show; ShowScore is what a judge makes of it.
func (c DogCoat) Score(t int) Score {
	return Score(c.mean(func(a AreaCoatNow) float64 { return float64(a.Score(t)) }))
}

// HoleAllow is how far a dog may be ahead of its worst area at a show, in points: a judge sees the hole, not the mean.
// Common practice, no source.
const HoleAllow Score = 30

// ShowScore is the readiness of the dog for a show at the end of week t: that of Score, but no more than HoleAllow above
// its worst area. A dog in coat has every area at 50 or more.
func (c DogCoat) ShowScore(t int) Score {
	scores := make([]Score, len(c.Areas))
	for i, a := range c.Areas {
		scores[i] = a.Score(t)
	}
	return c.ShowScoreOf(scores)
}

// ShowScoreOf is that readiness with such scores of the areas, in their order.
func (c DogCoat) ShowScoreOf(scores []Score) Score {
	var sum, weights float64
	worst := Score(math.Inf(1))
	for i, a := range c.Areas {
		sum += a.Weight.Value * float64(scores[i])
		weights += a.Weight.Value
		worst = min(worst, scores[i])
	}
	if weights == 0 {
		return 0
	}
	return min(Score(sum/weights), worst+HoleAllow)
}

// mean is the weighted mean of a number of each area.
func (c DogCoat) mean(of func(AreaCoatNow) float64) float64 {
	var sum, weights float64
	for _, a := range c.Areas {
		sum += a.Weight.Value * of(a)
		weights += a.Weight.Value
	}
	if weights == 0 {
		return 0
	}
	return sum / weights
}

// Worst is the area with the lowest readiness at the end of week t, the first of equals, with the plain reason.
func (c DogCoat) Worst(t int) (AreaName, Score, string) {
	if len(c.Areas) == 0 {
		return "", 0, ""
	}
	worst := 0
	for i := range c.Areas {
		if c.Areas[i].Score(t) < c.Areas[worst].Score(t) {
			worst = i
		}
	}
	a := c.Areas[worst]
	return a.Name, a.Score(t), a.Why(t)
}

// State is where the whole dog stands at the end of week t: in coat as for a show, else decided from the weighted means
// of its areas as Rule decides it for one.
func (c DogCoat) State(t int) State {
	young := c.mean(func(a AreaCoatNow) float64 { young, _ := a.Rule.charges(a.Curve, t); return young })
	old := c.mean(func(a AreaCoatNow) float64 { _, old := a.Rule.charges(a.Curve, t); return old })
	blown := c.mean(func(a AreaCoatNow) float64 { return a.Rule.blown(a.Curve, t) })
	return stateOf(c.ShowScore(t), young, old, blown)
}

// Windows are the runs of whole weeks, Monday to Sunday, from week from to week to (both included) at whose ends
// the dog is in coat, as for a show.
func (c DogCoat) Windows(from, to int) []Window {
	var all []Window
	last := from - 2 // the week of the window before, none yet
	for t := from; t <= to; t++ {
		if c.ShowScore(t) < ReadyScore {
			continue
		}
		monday := c.week0.AddDays(t * DaysAWeek)
		if last != t-1 {
			all = append(all, Window{From: monday})
		}
		all[len(all)-1].To = monday.AddDays(DaysAWeek - 1)
		last = t
	}
	return all
}

// Earliest is the first week from week from to week to (both included) at whose end the dog is in coat, as for a show; false
// when there is none.
func (c DogCoat) Earliest(from, to int) (int, bool) {
	for t := from; t <= to; t++ {
		if c.ShowScore(t) >= ReadyScore {
			return t, true
		}
	}
	return 0, false
}

// Score is the area's readiness at the end of week t.
func (a AreaCoatNow) Score(t int) Score { return a.Rule.Score(a.Curve, t) }

// State is where the area stands at the end of week t.
func (a AreaCoatNow) State(t int) State { return a.Rule.State(a.Curve, t) }

// Why is the plain reason of the area's largest charge at the end of week t.
func (a AreaCoatNow) Why(t int) string { return a.Rule.Why(a.Curve, t) }

// Window is a run of days in which a dog is in coat, both ends included.
type Window struct{ From, To Date }
