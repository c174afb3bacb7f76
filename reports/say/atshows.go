package say

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// AtShow is what is done at a show, and what to pack for it, in words.
type AtShow struct {
	Show string   // "Quernby Winter Show, Sun 24 Jan: 48 min before the ring"
	Dogs []string // a line a dog
	Ring string   // dogs that meet in one ring; empty where none do
	All  string   // what to pack whatever the dogs
}

// ShowsNear are the shows that begin within the days planned and the two after them, as they are travelled to.
func ShowsNear(r optimize.Result) (near []optimize.AtShow) {
	last := r.On.AddDays(len(r.Timetable.Days) + kennel.RestDays)
	for _, s := range optimize.AtShows(r) {
		if len(r.Timetable.Days) > 0 && s.Show.AwayDays().From < last {
			near = append(near, s)
		}
	}
	return near
}

// HoursAtShows says how long the dogs are worked at the shows of some weeks, which takes none of the hours of these weeks.
func HoursAtShows(r optimize.Result, weeks []optimize.Week) string {
	var parts []string
	for _, s := range optimize.AtShows(r) {
		days := 0
		for _, day := range s.Days {
			if slices.ContainsFunc(weeks, func(w optimize.Week) bool { return w.Week == day.Monday() }) {
				days++
			}
		}
		if minutes := s.Minutes() * kennel.Minutes(days); minutes > 0 {
			parts = append(parts, fmt.Sprintf("%s at %s (%s)", Minutes(minutes), Plain(s.Show.Name), Day(s.Show.On, r.On)))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "At the shows, beside these hours: " + strings.Join(parts, "; ") + "."
}

// AtShows are those shows in words.
func AtShows(r optimize.Result) (all []AtShow) {
	for _, s := range ShowsNear(r) {
		x := AtShow{Show: fmt.Sprintf("%s, %s", Plain(s.Show.Name), Day(s.Show.On, r.On)), All: strings.Join(s.Pack, ", "), Ring: oneRing(s)}
		for _, d := range s.Dogs {
			x.Dogs = append(x.Dogs, atShow(d))
		}
		if m := s.Minutes(); m > 0 {
			x.Show += fmt.Sprintf(": %s before the ring", Minutes(m))
			if s.Show.Days > 1 {
				x.Show += ", on each of its days"
			}
		}
		all = append(all, x)
	}
	return all
}

// oneRing says which dogs of one breed are at the show: they may be called together, and are all done before the first of them.
func oneRing(s optimize.AtShow) string {
	var said []string
	for i, d := range s.Dogs {
		names := []string{Plain(d.Dog)}
		minutes, first := d.Minutes(), d.Pattern != ""
		for j, other := range s.Dogs {
			if j == i || other.Pattern != d.Pattern {
				continue
			}
			first = first && j > i
			names = append(names, Plain(other.Dog))
			minutes += other.Minutes()
		}
		if !first || len(names) < 2 || minutes == 0 {
			continue
		}
		said = append(said, fmt.Sprintf("%s may be in one ring: all are ready before the first goes in, %s together", named(names), Minutes(minutes)))
	}
	return strings.Join(said, "; ")
}

// named are names as a sentence lists them: "Moss, Flint and Ember".
func named(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// atShow is a dog's line: what is done on it, and what to pack for it.
func atShow(d optimize.DogAtShow) string {
	var parts []string
	var work []string
	for _, x := range d.Work {
		work = append(work, Plain(x.Name)+" "+Minutes(x.Minutes))
	}
	if len(work) > 0 {
		parts = append(parts, strings.Join(work, ", "))
	}
	if len(d.Pack) > 0 {
		pack := make([]string, len(d.Pack))
		for i, x := range d.Pack {
			pack[i] = Plain(x)
		}
		parts = append(parts, "pack "+strings.Join(pack, ", "))
	}
	if len(parts) == 0 {
		return Plain(d.Dog)
	}
	return Plain(d.Dog) + ": " + strings.Join(parts, "; ")
}

// UndercoatWords say what is to be known of undercoat. C18 (All-Systems breed page, Miniature Schnauzer; seen).
const UndercoatWords = "Undercoat that is left in shortens how long the coat lasts (C18, seen). Nobody has published by how much, so no readiness is computed " +
	"from it: it is raked out steadily, with the rolling (C18, C20)."
