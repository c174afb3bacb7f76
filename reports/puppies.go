package reports

import (
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// puppyRoads writes each puppy's road to its first show coat.
func puppyRoads(p *layout.Page, r optimize.Result) {
	headed := false
	for _, d := range r.Kennel.Dogs {
		road := say.PuppyRoad(r, d)
		if len(road) == 0 {
			continue
		}
		if !headed {
			p.Heading("PUPPIES", "the road to the first show coat")
			headed = true
		}
		p.Say(2, "", "%s", say.Plain(d.Name))
		for _, line := range road {
			p.Say(4, "- ", "%s", say.Plain(line))
		}
	}
}
