package reports

import (
	"fmt"
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Entries writes the advice before entries close, by the day on which they do.
func Entries(w io.Writer, kennelName string, all []optimize.Entry, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(kennelName), "entries on "+say.LongDay(today))
	p.Say(0, "", "Advice, how ready the dog will be if it is entered, the range of 8 in 10, and why.")
	if len(all) == 0 {
		p.Say(2, "", "No show ahead is only hoped for.")
	}
	t := layout.Table{Right: map[int]bool{2: true}}
	flush := func() {
		p.Table(2, t)
		t.Rows = nil
	}
	for i, e := range all {
		if i == 0 || e.Show != all[i-1].Show || e.On != all[i-1].On {
			flush()
			p.Heading(closeWords(e, today), fmt.Sprintf("%s on %s, hoped for, %.0f %%", say.Plain(e.Show), say.Day(e.On, today), 100*e.Chance))
		}
		score, band := "", ""
		if e.WorstArea != "" {
			score, band = kennel.ScoreWords(e.Score), kennel.ScoreWords(e.Low)+" to "+kennel.ScoreWords(e.High)
		}
		reason := say.Plain(e.Reason)
		if e.Cure != nil {
			reason = say.Cure(e.Cure, today) + ": " + reason
		}
		t.Add(say.Plain(e.Dog), say.Advice(e), score, band, reason)
	}
	flush()
	p.Blank()
	p.Say(0, "", "What a dog costs the others is found by planning with the entry and without it. It is a judgement of length: illness, weather "+
		"and a judge's eye are not in it. The governing body's rules on entries decide.")
	return p.Done()
}

func closeWords(e optimize.Entry, today kennel.Date) string {
	switch {
	case e.Closes == 0:
		return "NO CLOSING DAY"
	case e.Closes < today:
		return "CLOSED " + say.Day(e.Closes, today)
	}
	return "CLOSES " + say.Day(e.Closes, today)
}

type entriesDoc struct {
	Kennel  string     `json:"kennel"`
	On      string     `json:"on"`
	Entries []entryDoc `json:"entries"`
}

type entryDoc struct {
	Closes string         `json:"entries_close,omitempty"`
	Show   string         `json:"show"`
	On     string         `json:"on"`
	Dog    string         `json:"dog"`
	Named  bool           `json:"named"`
	Chance float64        `json:"chance"`
	Score  float64        `json:"score"`
	Low    float64        `json:"low"`
	High   float64        `json:"high"`
	Likely float64        `json:"likely"`
	Worst  string         `json:"worst_area"`
	Gain   float64        `json:"gain"`
	Own    float64        `json:"own_gain"`
	Cost   float64        `json:"cost_to_others"`
	Hours  float64        `json:"hours"`
	Others []gainDoc      `json:"others"`
	Out    []outOfCoatDoc `json:"out_of_coat"`
	Advice string         `json:"advice"`
	Reason string         `json:"reason"`
	Cure   *cureDoc       `json:"cure"`
}

type gainDoc struct {
	Dog  string  `json:"dog"`
	Gain float64 `json:"gain"`
}

type outOfCoatDoc struct {
	Dog    string  `json:"dog"`
	Show   string  `json:"show"`
	Before float64 `json:"before"`
	After  float64 `json:"after"`
}

// EntriesJSON writes what Entries writes, with points: gain of all dogs together, of the dog itself, and of each other.
func EntriesJSON(w io.Writer, kennelName string, all []optimize.Entry, today kennel.Date) error {
	doc := entriesDoc{Kennel: kennelName, On: today.String(), Entries: []entryDoc{}}
	for _, e := range all {
		x := entryDoc{
			Closes: e.Closes.String(), Show: e.Show, On: e.On.String(), Dog: e.Dog, Named: e.Named, Chance: e.Chance,
			Score: layout.Points(e.Score), Low: layout.Points(e.Low), High: layout.Points(e.High), Likely: layout.Chance(e.Likely),
			Worst: string(e.WorstArea), Gain: layout.Rounded(e.Gain, layout.PointDecimals), Own: layout.Rounded(e.Own, layout.PointDecimals),
			Cost: layout.Rounded(e.Cost(), layout.PointDecimals), Hours: layout.Rounded(float64(e.Hours), layout.HourDecimals), Others: []gainDoc{},
			Out: []outOfCoatDoc{}, Advice: string(e.Advice), Reason: e.Reason, Cure: newCureDoc(e.Cure, today),
		}
		for _, d := range e.Dogs {
			x.Others = append(x.Others, gainDoc{d.Dog, layout.Rounded(d.Gain(), layout.PointDecimals)})
		}
		for _, o := range e.Out {
			x.Out = append(x.Out, outOfCoatDoc{o.Dog, o.Show, layout.Points(o.Before), layout.Points(o.After)})
		}
		doc.Entries = append(doc.Entries, x)
	}
	return layout.JSON(w, doc)
}

// EntriesCSV writes one row for each show and dog.
func EntriesCSV(w io.Writer, all []optimize.Entry, today kennel.Date) error {
	var rows [][]string
	for _, e := range all {
		rows = append(rows, []string{
			e.Closes.String(), layout.Cell(e.Show), e.On.String(), layout.Cell(e.Dog), layout.Number(e.Chance, layout.ScoreDecimals), layout.Number(float64(e.Score), layout.ScoreDecimals),
			layout.Number(float64(e.Low), layout.ScoreDecimals), layout.Number(float64(e.High), layout.ScoreDecimals), layout.Number(layout.Chance(e.Likely), layout.ChanceDecimals),
			layout.Number(e.Gain, layout.PointDecimals), layout.Number(e.Cost(), layout.PointDecimals), say.Advice(e), layout.Cell(e.Reason), layout.Cell(say.Cure(e.Cure, today)),
		})
	}
	header := []string{"entries_close", "show", "on", "dog", "chance", "score", "low", "high", "likely", "gain", "cost_to_others", "advice", "reason", "cure"}
	return layout.CSV(w, header, rows)
}
