package reports

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// lostHair names the dogs whose kept hair is not back yet: what is on record for it is read as damage.
func lostHair(p *layout.Page, r optimize.Result) {
	for d, dog := range r.Kennel.Dogs {
		if d >= len(r.Outlooks) {
			return
		}
		for _, a := range r.Patterns[dog.Pattern].Areas {
			layers := dog.LayersOf(a)
			missed := slices.ContainsFunc(r.Outlooks[d].Areas, func(o optimize.AreaOutlook) bool { return o.Area == a.Name && o.Score < fullScore })
			if a.Kept && missed && len(layers) > 0 {
				p.Say(2, "", "%s: %s %s; kept hair is never pulled, and takes most of a year to come back.", say.Plain(dog.Name), a.Name, kennel.LostWords(layers))
			}
		}
	}
}

// fullScore is the readiness of an area that misses nothing.
const fullScore kennel.Score = 100
