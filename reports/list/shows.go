package list

import (
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Shows writes the shows by date as a page of text; those that are over on the day, or name no dog, are marked.
func Shows(w io.Writer, k kennel.Kennel, on kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(k.Shows) == 0 {
		p.Say(0, "", "no shows yet: tuckup show add NAME --on DATE --dogs NAMES")
	}
	t := layout.Table{Right: map[int]bool{3: true}, Most: map[int]int{1: 36}}
	for _, s := range kennel.ByDate(k.Shows) {
		dogs := make([]string, len(s.Dogs))
		for i, d := range s.Dogs {
			dogs[i] = say.Plain(d)
		}
		note := strings.Join(dogs, ", ")
		if note == "" {
			note = "no dogs"
		}
		if s.Odd(on).Past {
			note = "over; " + note
		}
		if s.EntriesClose != 0 {
			note += "; entries close " + s.EntriesClose.String()
		}
		t.Add(s.On.String(), say.Plain(s.Name), say.Chance(s.Chance), "weight "+kennel.Number(s.Weight), note)
	}
	p.Table(0, t)
	return p.Done()
}

// ShowsJSON writes a list of objects, one for each show by date, with the keys of the kennel file, and with odd where
// no dog is prepared for it on the day: because it was so long ago, or names no dog.
func ShowsJSON(w io.Writer, k kennel.Kennel, on kennel.Date) error {
	docs := []object{}
	for _, s := range kennel.ByDate(k.Shows) {
		doc := toldOf(fields.Show, s)
		if why := s.Odd(on).Why(); why != "" {
			doc = append(doc, member{"odd", why})
		}
		docs = append(docs, doc)
	}
	return layout.JSON(w, docs)
}

// ShowsCSV writes one row for each show by date, its dogs with ; between; import reads it back.
func ShowsCSV(w io.Writer, k kennel.Kennel) error {
	columns, rows := tableOf(fields.Show, kennel.ByDate(k.Shows))
	return layout.CSV(w, columns, rows)
}
