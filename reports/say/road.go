package say

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize"
)

// The road of a puppy, step by step from today to its first show coat. Common practice, but for the first class (D5: a UK schedule, seen
// as an excerpt). When the first hair can be taken no source says in weeks: the hand finds out.

// PuppyRoad is the road of a dog that is under 12 months when the plan begins, a line a step; nil for any other.
func PuppyRoad(r optimize.Result, d kennel.Dog) (lines []string) {
	if !d.Puppy(r.On) {
		return nil
	}
	grown := kennel.DateOf(d.Born.Time().AddDate(1, 0, 0))
	lines = append(lines, fmt.Sprintf("To %s, when it is a year old: fingers or stone, no metal knife, for the hair breaks; at most %s on the table, "+
		"and it gets down before it is tired.", Day(grown.AddDays(-1), r.On), Minutes(min(d.Table.Minutes, r.Options.PuppyTable))))
	return append(lines, firstStrip(r, d), firstClass(r, d))
}

// firstStrip says when the puppy coat comes off, and what then.
func firstStrip(r optimize.Result, d kennel.Dog) string {
	const ripe = "The puppy coat is taken off when the hair comes away in the fingers without a tug"
	const then = "What comes in then is all of one length, the hardest coat to start rolling: begin as soon as the new hair can be gripped."
	if d.Coat.RollOnly {
		return ripe + "; it is held to rolling, so the plan does not take it off."
	}
	i := slices.IndexFunc(r.Ways, func(w optimize.Way) bool { return w.Dog == d.Name })
	if i < 0 {
		return ripe + ". " + then
	}
	spells := r.Ways[i].Spells
	down := slices.IndexFunc(spells, func(s optimize.Spell) bool { return s.Kind == optimize.WayStripped || s.Kind == optimize.WayStaged })
	rolled := slices.IndexFunc(spells, func(s optimize.Spell) bool { return s.Kind == optimize.WayRolled })
	switch {
	case down >= 0:
		words := fmt.Sprintf("%s; the plan does so from %s to %s.", ripe, Day(spells[down].From, r.On), Day(spells[down].To, r.On))
		if after := slices.IndexFunc(spells[down:], func(s optimize.Spell) bool { return s.Kind == optimize.WayRolled }); after >= 0 {
			return words + " " + then + " The plan rolls it from " + Day(spells[down+after].From, r.On) + " on."
		}
		return words + " " + then
	case rolled >= 0:
		return fmt.Sprintf("%s; the plan does not take it off at once, it rolls from %s on.", ripe, Day(spells[rolled].From, r.On))
	}
	return ripe + "; the plan does not do so in these weeks. " + then
}

// firstClass says from when it may be shown, and its first show.
func firstClass(r optimize.Result, d kennel.Dog) string {
	from := kennel.OldEnough(d.Born)
	words := "It is over six months old"
	if from > r.On {
		words = "It will be six months old on " + Day(from, r.On)
	}
	words += ", and UK schedules take no puppy before that; classes and ages are the governing body's"
	var first *kennel.Show
	for i, s := range r.Kennel.Shows {
		if s.Has(d.Name) && s.On >= max(r.On, from) && (first == nil || s.On < first.On) {
			first = &r.Kennel.Shows[i]
		}
	}
	if first == nil {
		return words + ". It is named for no show in the plan."
	}
	return fmt.Sprintf("%s. Its first show in the plan is %s on %s, at %s.", words, first.Name, Day(first.On, r.On), kennel.AgeWords(d.Born, first.On))
}
