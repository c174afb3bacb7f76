package check

import (
	"math"

	"tuckup/kennel"
)

// A dog's spells are followed day by day: hair is as old as it has grown.

// growing is how many weeks hair grows from the end of a week to that of another, counted from the plan's first.
type growing func(from, to int) float64

// growing is that of a dog: each day of a spell counts for what the coat grows in it.
func (c *checker) growing(dog kennel.Dog) growing {
	even := func(from, to int) float64 { return float64(to) - float64(from) }
	if len(dog.Spells) == 0 {
		return even
	}
	grown := []float64{0} // from the end of the first week that is followed to that of each
	for t := 1 - farBack; t <= farBack; t++ {
		week := 0.0
		for n := range kennel.DaysAWeek {
			day := 1.0
			for _, s := range dog.Spells {
				if on := c.monday(t).AddDays(n); on >= s.From && (on <= s.To || s.To == 0) {
					day *= s.Growth
				}
			}
			week += day / kennel.DaysAWeek
		}
		grown = append(grown, grown[len(grown)-1]+week)
	}
	return func(from, to int) float64 {
		if from < -farBack || to > farBack {
			return even(from, to)
		}
		return grown[to+farBack] - grown[from+farBack]
	}
}

// farBack is for how many weeks before and after the plan's first spells are followed.
const farBack = 130

// fit reports whether the dog may be worked on the day for all its spells: where the vet decides only if somebody said so.
func (d checkedDog) fit(day kennel.Date) bool {
	for _, s := range d.Spells {
		vet := s.What == kennel.SpellWhelping || s.What == kennel.SpellIllness || s.What == kennel.SpellInjury
		if day >= s.From && (s.To == 0 || day <= s.To) && (s.Table == kennel.AnswerNo || s.Table == "" && vet) {
			return false
		}
	}
	return true
}

// spellAt reports whether the dog is in a spell on a day of the show.
func (d checkedDog) spellAt(show kennel.Show) bool {
	for day := show.On; day <= show.Last(); day++ {
		for _, s := range d.Spells {
			if day >= s.From && (s.To == 0 || day <= s.To) {
				return true
			}
		}
	}
	return false
}

// agedIn is the week in which hair would have been pulled to be as long when the plan begins on a dog without spells.
func (a *checkedArea) agedIn(week int) int {
	if week > 0 {
		return week
	}
	return -int(math.Floor(a.grown(week, 0) + checkTol))
}

// back is how many weeks before a show hair was pulled that has grown so much for it, and for which part of the dog's shows.
type back struct {
	weeks int
	part  float64
}

// backs are these for weeks of growth: at the dog's shows by what they count, of a dog without shows in all weeks alike. The season knows a
// coat with spells only so; before the plan hair is as old as it has grown.
func (c *checker) backs(d, growth int) (all []back) {
	dog := &c.dogs[d]
	if len(dog.Spells) == 0 || len(dog.areas) == 0 {
		return []back{{growth, 1}}
	}
	if known, done := dog.backs[growth]; done {
		return known
	}
	value, sum := c.atShows(d)
	if sum == 0 {
		for t := range value {
			value[t] = 1
		}
		sum = float64(c.weeks)
	}
	grown := dog.areas[0].grown
	for t, v := range value {
		weeks := 0
		for has := 0.0; has < float64(growth)-checkTol; weeks++ {
			if week := t - weeks; week > 0 {
				has += grown(week-1, week)
			} else {
				has++
			}
		}
		if v > 0 {
			all = append(all, back{max(1, weeks), v / sum})
		}
	}
	if dog.backs == nil {
		dog.backs = map[int][]back{}
	}
	dog.backs[growth] = all
	return all
}
