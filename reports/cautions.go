package reports

import "tuckup/reports/say"

// cautionsShort is the foot of the plan's page.
func cautionsShort(p *page) {
	p.blank()
	p.say(0, "", "%s", say.Caution)
}

func cautionsFoot(p *page) {
	p.heading("CAUTIONS", "")
	for _, c := range say.Cautions() {
		p.say(2, c.About+": ", "%s", c.Words)
	}
}
