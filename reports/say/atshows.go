package say

import (
	"fmt"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// AtShow is what is done at a show, and what to pack for it.
type AtShow struct {
	Show string   // "Quernby Winter Show, Sun 24 Jan: 48 min before the ring"
	Dogs []string // a line a dog
	All  string   // what to pack whatever the dogs
}

// AtShows are the shows that begin within the days planned and the two after them and that count, as they are travelled to.
func AtShows(r optimize.Result) (all []AtShow) {
	last := r.On.AddDays(len(r.Timetable.Days) + kennel.RestDays)
	for _, s := range r.Kennel.Shows {
		if s.Chance < kennel.CountedOn || s.Last() < r.On || s.AwayDays().From >= last || len(r.Timetable.Days) == 0 {
			continue
		}
		var minutes kennel.Minutes
		x := AtShow{All: strings.Join(kennel.PackForAll(), ", ")}
		for _, d := range r.Kennel.Dogs {
			if !goes(r, d.Name, s) {
				continue
			}
			p := r.Patterns[d.Pattern]
			minutes += d.RingMinutes(p)
			if line := atShow(d, p); line != "" {
				x.Dogs = append(x.Dogs, line)
			}
		}
		if len(x.Dogs) == 0 {
			continue
		}
		x.Show = fmt.Sprintf("%s, %s", Plain(s.Name), Day(s.On, r.On))
		if minutes > 0 {
			x.Show += fmt.Sprintf(": %s before the ring", Minutes(minutes))
		}
		if s.Days > 1 {
			x.Show += ", on each of its days"
		}
		all = append(all, x)
	}
	return all
}

// goes reports whether the plan says how ready the dog is for the show: else it does not go.
func goes(r optimize.Result, dog string, s kennel.Show) bool {
	for _, x := range r.Readiness {
		if x.Dog == dog && x.Show == s.Name && x.On == s.On {
			return true
		}
	}
	return false
}

// atShow is a dog's line: what is done on it, and what to pack for it.
func atShow(d kennel.Dog, p kennel.Pattern) string {
	var parts []string
	var work []string
	for _, x := range d.AtRing(p) {
		work = append(work, Plain(x.Name)+" "+Minutes(x.Minutes))
	}
	if len(work) > 0 {
		parts = append(parts, strings.Join(work, ", "))
	}
	if len(p.Pack) > 0 {
		pack := make([]string, len(p.Pack))
		for i, x := range p.Pack {
			pack[i] = Plain(x)
		}
		parts = append(parts, "pack "+strings.Join(pack, ", "))
	}
	if len(parts) == 0 {
		return ""
	}
	return Plain(d.Name) + ": " + strings.Join(parts, "; ")
}

// UndercoatWords say what is to be known of undercoat. C18 (All-Systems breed page, Miniature Schnauzer; seen).
const UndercoatWords = "Undercoat that is left in shortens how long the coat lasts (C18, seen). Nobody has published by how much, so no readiness is computed " +
	"from it: it is raked out steadily, with the rolling (C18, C20)."
