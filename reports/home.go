package reports

import (
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// HomeText writes the card of a dog that is at home as a page of text.
func HomeText(w io.Writer, c say.HomeCard, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	note := c.DaysWords(today)
	if c.Owner != "" {
		note = "for " + c.Owner + ", " + note
	}
	p.Strong(say.Plain(c.Dog)+" AT HOME", say.Plain(note))
	for _, part := range c.Parts() {
		p.Heading(strings.ToUpper(part.Title), "")
		for _, line := range part.Lines {
			p.Say(2, "- ", "%s", say.Plain(line))
		}
	}
	return p.Done()
}
