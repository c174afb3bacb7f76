package optimize

import (
	"tuckup/kennel"
	"tuckup/optimize/hours"
)

// AtShow is a show that is gone to: what is done there before the ring, and what to pack.
type AtShow struct {
	Show  kennel.Show
	Hands string // who goes; empty where the kennel has no hands
	Days  []kennel.Date
	Dogs  []DogAtShow // in the kennel's order
	Pack  []string    // whatever the dogs
}

// DogAtShow is one dog at a show.
type DogAtShow struct {
	Dog     string
	Pattern string        // its title; empty where the patterns don't have it
	Work    []kennel.Duty // on each of the days, before the ring
	Pack    []string
}

// Minutes is how long the dog is worked on each day of the show.
func (d DogAtShow) Minutes() (sum kennel.Minutes) {
	for _, w := range d.Work {
		sum += w.Minutes
	}
	return sum
}

// Minutes is how long all dogs together are worked on each day of the show.
func (s AtShow) Minutes() (sum kennel.Minutes) {
	for _, d := range s.Dogs {
		sum += d.Minutes()
	}
	return sum
}

// AtShows are the shows of the plan's weeks that count and that a dog goes to, in the kennel's order, with those of their days that are
// not gone by. What is done there is part of the hours, and takes none of those at home: who travels has none on these days. The first
// pair of hands travels.
func AtShows(r Result) (all []AtShow) {
	end := r.Week0.AddDays(len(r.Weeks) * kennel.DaysAWeek)
	for _, s := range r.Kennel.Shows {
		if s.Chance < kennel.CountedOn || s.Last() < r.On || s.On >= end {
			continue
		}
		x := AtShow{Show: s, Pack: kennel.PackForAll()}
		if len(r.Kennel.Hands) > 0 {
			x.Hands = r.Kennel.Hands[0].Name
		}
		for day := max(s.On, r.On); day <= s.Last() && day < end; day++ {
			x.Days = append(x.Days, day)
		}
		for _, d := range r.Kennel.Dogs {
			if hours.Goes(d, s) {
				p := r.Patterns[d.Pattern]
				x.Dogs = append(x.Dogs, DogAtShow{Dog: d.Name, Pattern: p.Title, Work: d.AtRing(p), Pack: p.Pack})
			}
		}
		if len(x.Dogs) > 0 {
			all = append(all, x)
		}
	}
	return all
}
