package kennel

import (
	"math"
	"slices"
)

// seenParts are the parts of a dog whose areas are worked in the same weeks and come in alike, the slowest part first. Of each the first
// area that a pattern has is looked at, for all of the part. Common practice, no source.
var seenParts = [][]AreaName{
	{AreaSkirtLine, AreaRibs},
	{AreaBack, AreaLoin},
	{AreaShoulder, AreaNeck, AreaWithers, AreaForechest},
	{AreaRump, AreaThigh, AreaTail},
	{AreaSkull, AreaCheeks, AreaEars, AreaThroat},
}

// SeenAreas are the areas to look at on a dog of the pattern of which nobody knows when it was pulled.
func (p Pattern) SeenAreas() (all []AreaName) {
	for _, part := range seenParts {
		if a, ok := p.lookedAt(part); ok {
			all = append(all, a)
		}
	}
	return all
}

// lookedAt is the area of a part that is looked at.
func (p Pattern) lookedAt(part []AreaName) (AreaName, bool) {
	i := slices.IndexFunc(part, func(name AreaName) bool {
		a, has := p.Area(name)
		return has && !a.Kept
	})
	if i < 0 {
		return "", false
	}
	return part[i], true
}

// Where hair of a state is between two thresholds of its area, it is taken to be so far on: half of ready where it is too short, a third of hold
// where it is right, a fifth past hold where it is too long, and well past the age of blown hair where it is blown. Of guesses that a look can't
// tell apart these are in the middle.
const (
	seenShort = 0.5 // of ready
	seenRight = 1.0 / 3
	seenLong  = 1.2
	seenBlown = 1.75
)

// CoatAsSeen is the coat of a dog of the pattern by what is seen on its SeenAreas on a day: each area with the hair of the one that was looked at
// in its part, all of one age, as old as hair of that state is. Kept hair is taken as whole. all is for areas that are not named.
func (p Pattern) CoatAsSeen(seen map[AreaName]State, today Date) (all []Layer, areas []AreaCoat) {
	for _, name := range AreaNames() {
		a, has := p.Area(name)
		if !has || a.Kept {
			continue
		}
		i := slices.IndexFunc(seenParts, func(part []AreaName) bool { return slices.Contains(part, name) })
		if i < 0 {
			continue // a pattern of one's own pulls furnishings: all says what is on them
		}
		looked, _ := p.lookedAt(seenParts[i])
		layers := []Layer{{Share: 1, Pulled: today.AddDays(-DaysAWeek * a.ageOf(seen[looked]))}}
		if all == nil {
			all = layers
		}
		if !slices.Equal(layers, all) {
			areas = append(areas, AreaCoat{Area: name, Layers: layers})
		}
	}
	return all, areas
}

// ageOf is how many weeks old the hair of the area is in a state.
func (a PatternArea) ageOf(s State) int {
	weeks := a.Ready.Value * seenShort
	switch s {
	case StateInCoat:
		weeks = a.Ready.Value + seenRight*a.Hold.Value
	case StateGoingOver:
		weeks = a.Ready.Value + seenLong*a.Hold.Value
	case StateBlown:
		weeks = a.Ready.Value + seenBlown*a.Hold.Value
	}
	return int(math.Round(weeks))
}
