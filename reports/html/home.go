package html

import (
	"io"
	"strconv"

	"tuckup/kennel"
	"tuckup/reports/say"
)

// Home writes the card of a dog that is at home, one page to print.
func Home(w io.Writer, kennelName string, c say.HomeCard, today kennel.Date) error {
	sections, err := homeSections(c)
	if err != nil {
		return err
	}
	note := c.DaysWords(today) + "."
	if c.Owner != "" {
		note = "For " + c.Owner + ", " + note
	}
	return writePage(w, pageHead{kennel: kennelName, title: homeTitle(c), note: say.FirstUpper(note), foot: []string{"When in doubt leave it, and ring. The vet decides, not this card."}}, sections...)
}

// HomeParts are the parts of that page.
func HomeParts(c say.HomeCard) ([]Part, error) { return partsOf(homeSections(c)) }

func homeTitle(c say.HomeCard) string {
	if c.RingName != "" {
		return c.Dog + " (" + c.RingName + ") at home"
	}
	return c.Dog + " at home"
}

func homeSections(c say.HomeCard) (sections []section, err error) {
	for i, part := range c.Parts() {
		s := section{id: "home-" + strconv.Itoa(i+1), title: part.Title}
		if s.body, err = bullets(part.Lines); err != nil {
			return nil, err
		}
		sections = append(sections, s)
	}
	return sections, nil
}
