package reports

import (
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// cautionsShort is the foot of the plan's page.
func cautionsShort(p *layout.Page) {
	p.Blank()
	p.Say(0, "", "%s", say.Caution)
}

func cautionsFoot(p *layout.Page) {
	p.Heading("CAUTIONS", "")
	for _, c := range say.Cautions() {
		p.Say(2, c.About+": ", "%s", c.Words)
	}
}
