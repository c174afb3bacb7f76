package reports

import (
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// atShowDoc is a show that is gone to; minutes are of all dogs together, on each of its days.
type atShowDoc struct {
	Show    string         `json:"show"`
	On      string         `json:"on"`
	Days    []string       `json:"days"`
	Hands   string         `json:"hands"`
	Minutes float64        `json:"minutes"`
	Dogs    []dogAtShowDoc `json:"dogs"`
	Pack    []string       `json:"pack"`
}

type dogAtShowDoc struct {
	Dog     string      `json:"dog"`
	Minutes float64     `json:"minutes"`
	Work    []atRingDoc `json:"work"`
	Pack    []string    `json:"pack"`
}

type atRingDoc struct {
	Work    string  `json:"work"`
	Minutes float64 `json:"minutes"`
}

func atShowDocs(shows []optimize.AtShow) []atShowDoc {
	docs := []atShowDoc{}
	for _, s := range shows {
		doc := atShowDoc{Show: s.Show.Name, On: s.Show.On.String(), Days: []string{}, Hands: s.Hands, Dogs: []dogAtShowDoc{}, Pack: s.Pack}
		var all layout.Hundredths
		for _, day := range s.Days {
			doc.Days = append(doc.Days, day.String())
		}
		for _, d := range s.Dogs {
			dog := dogAtShowDoc{Dog: d.Dog, Work: []atRingDoc{}, Pack: append([]string{}, d.Pack...)}
			var sum layout.Hundredths
			for _, w := range d.Work {
				m := layout.HundredthsOf(w.Minutes)
				sum += m
				dog.Work = append(dog.Work, atRingDoc{w.Name, m.Minutes()})
			}
			dog.Minutes = sum.Minutes()
			all += sum
			doc.Dogs = append(doc.Dogs, dog)
		}
		doc.Minutes = all.Minutes()
		docs = append(docs, doc)
	}
	return docs
}
