package reports

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// laterShows names the shows after the weeks planned, for which the plan does nothing but spare the coat.
func laterShows(p *layout.Page, r optimize.Result) {
	if len(r.Weeks) == 0 {
		return
	}
	var later []string
	for _, s := range r.Kennel.Shows {
		if kennel.ReadinessWeek(s.On, r.Week0) >= len(r.Weeks) && len(s.Dogs) > 0 {
			later = append(later, fmt.Sprintf("%s on %s", say.Plain(s.Name), say.Day(s.On, r.On)))
		}
	}
	if len(later) > 0 {
		p.Say(2, "", "After the weeks planned, so not prepared for: %s. Plan more weeks to count them.", strings.Join(later, ", "))
	}
}

// ignored are the shows for which no dog is prepared, by date: those that were over before today, and those that name no
// dog.
func ignored(r optimize.Result) []kennel.Show {
	all := slices.Concat(r.Options.Over, r.Kennel.Shows)
	return kennel.ByDate(slices.DeleteFunc(all, func(s kennel.Show) bool { return !s.Odd(r.On).Ignored() }))
}

// youngDogs names the dogs that may be too young for a show to come.
func youngDogs(p *layout.Page, r optimize.Result) {
	for _, words := range say.Young(r) {
		p.Say(2, "", "%s", words)
	}
}

// mostNamed is how many shows of a kind are named on a page; the others are counted.
const mostNamed = 3

// ignoredShows names the shows that the plan does nothing for.
func ignoredShows(p *layout.Page, r optimize.Result) {
	var bare, over []string
	for _, s := range ignored(r) {
		words := fmt.Sprintf("%s on %s", say.Plain(s.Name), say.Day(s.On, r.On))
		if s.Odd(r.On).Past {
			over = append(over, words)
		} else {
			bare = append(bare, words)
		}
	}
	if len(bare) > 0 {
		p.Say(2, "", "Without dogs, so no dog is prepared for: %s.", namedAndCounted(bare))
	}
	if len(over) > 0 {
		slices.Reverse(over) // the latest say most
		p.Say(2, "", "Over, so not planned for: %s.", namedAndCounted(over))
	}
}

// namedAndCounted names the first and counts the others.
func namedAndCounted(all []string) string {
	if len(all) <= mostNamed {
		return strings.Join(all, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:mostNamed], ", "), len(all)-mostNamed)
}
