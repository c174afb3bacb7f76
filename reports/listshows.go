package reports

import (
	"cmp"
	"io"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// toldShow is a show as lists tell it.
type toldShow struct {
	Name         string    `json:"name"`
	On           string    `json:"on"`
	Days         int       `json:"days"`
	EntriesClose string    `json:"entries_close,omitempty"`
	Weight       float64   `json:"weight"`
	Chance       float64   `json:"chance"`
	Away         *toldSpan `json:"away,omitempty"`
	Dogs         []string  `json:"dogs"`
	Odd          string    `json:"odd,omitempty"` // why no dog is prepared for it
}

func toldShowOf(s kennel.Show) toldShow {
	doc := toldShow{
		Name: s.Name, On: s.On.String(), Days: s.Days, EntriesClose: s.EntriesClose.String(), Weight: s.Weight, Chance: s.Chance,
		Dogs: append([]string{}, s.Dogs...),
	}
	if s.Away != nil {
		doc.Away = &toldSpan{s.Away.From.String(), s.Away.To.String(), s.Away.Why}
	}
	return doc
}

// byDate are the shows in the order of their first days, those of one day as they stand.
func byDate(shows []kennel.Show) []kennel.Show {
	sorted := slices.Clone(shows)
	slices.SortStableFunc(sorted, func(a, b kennel.Show) int { return cmp.Compare(a.On, b.On) })
	return sorted
}

// ShowList writes the shows by date as a page of text; those that are over on the day, or name no dog, are marked.
func ShowList(w io.Writer, k kennel.Kennel, on kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(k.Shows) == 0 {
		p.Say(0, "", "no shows yet: tuckup show add NAME --on DATE --dogs NAMES")
	}
	t := layout.Table{Right: map[int]bool{3: true}, Most: map[int]int{1: 36}}
	for _, s := range byDate(k.Shows) {
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
		t.Add(s.On.String(), say.Plain(s.Name), say.Chance(s.Chance), "weight "+shortest(s.Weight), note)
	}
	p.Table(0, t)
	return p.Done()
}

// ShowListJSON writes a list of objects, one for each show by date, with the keys of the kennel file, and with odd where
// no dog is prepared for it on the day: because it was so long ago, or names no dog.
func ShowListJSON(w io.Writer, k kennel.Kennel, on kennel.Date) error {
	docs := []toldShow{}
	for _, s := range byDate(k.Shows) {
		doc := toldShowOf(s)
		doc.Odd = s.Odd(on).Why()
		docs = append(docs, doc)
	}
	return layout.JSON(w, docs)
}

// ShowListCSV writes one row for each show by date, its dogs with ; between; import reads it back.
func ShowListCSV(w io.Writer, k kennel.Kennel) error {
	var rows [][]string
	for _, s := range byDate(k.Shows) {
		var from, to string
		if s.Away != nil {
			from, to = s.Away.From.String(), s.Away.To.String()
		}
		rows = append(rows, []string{
			layout.Cell(s.Name), s.On.String(), strconv.Itoa(s.Days), s.EntriesClose.String(), shortest(s.Weight), shortest(s.Chance), from, to,
			layout.Cell(strings.Join(s.Dogs, "; ")),
		})
	}
	return layout.CSV(w, []string{"name", "on", "days", "entries_close", "weight", "chance", "away_from", "away_to", "dogs"}, rows)
}
