package reports

import (
	"fmt"
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Ahead writes when each dog could be in coat if it came first, and from which day.
func Ahead(w io.Writer, kennelName string, all []optimize.Ahead, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(kennelName), "looking ahead from "+say.LongDay(today))
	p.Heading("COULD BE IN COAT", "if the dog came first: earliest day, its chance as sessions may be missed and it may grow slower or faster, and all such weeks")
	t := layout.Table{Right: map[int]bool{1: true, 3: true}}
	for _, a := range all {
		var earliest, likely, when string
		if a.Earliest == 0 {
			when = fmt.Sprintf("not in these weeks: at best %s in the week of %s (%s: %s)",
				kennel.ScoreWords(a.Most), say.Week(a.MostOn, today), say.Plain(string(a.WorstArea)), say.Plain(a.Why))
		} else {
			earliest, likely, when = aheadWords(a, today)
		}
		t.Add(say.Plain(a.Dog), kennel.ScoreWords(a.Score), earliest, likely, when)
	}
	p.Table(2, t)
	p.Blank()
	p.Say(0, "", "Each week is looked at for itself, with all the hours available and no other dog to share them; one plan does not reach them "+
		"all, nor all dogs at once. tuckup try show add tells what a date would cost.")
	return p.Done()
}

// aheadWords are the earliest day, its chance, and the weeks of a dog that could be in coat.
func aheadWords(a optimize.Ahead, today kennel.Date) (earliest, likely, when string) {
	earliest, when = "from "+say.Day(a.Earliest, today), say.Windows(a.Windows, today)
	if a.Earliest == today {
		earliest = "today"
	}
	if len(a.Windows) == 0 {
		when = "not at the end of this week any more"
	}
	return earliest, say.Percent(a.Likely), when
}

type aheadDoc struct {
	Kennel string        `json:"kennel"`
	On     string        `json:"on"`
	Dogs   []aheadDogDoc `json:"dogs"`
}

type aheadDogDoc struct {
	Dog      string      `json:"dog"`
	State    string      `json:"state"`
	Score    float64     `json:"score"`
	Earliest string      `json:"earliest,omitempty"`
	Likely   float64     `json:"likely"`
	Windows  []windowDoc `json:"could_be_in_coat"`
	Most     float64     `json:"most"`
	MostWeek string      `json:"most_week"`
}

// AheadJSON writes what Ahead writes, for programs. earliest is left out for a dog that can't be in coat in these weeks.
func AheadJSON(w io.Writer, kennelName string, all []optimize.Ahead, today kennel.Date) error {
	doc := aheadDoc{Kennel: kennelName, On: today.String(), Dogs: []aheadDogDoc{}}
	for _, a := range all {
		doc.Dogs = append(doc.Dogs, aheadDogDoc{
			Dog: a.Dog, State: string(a.State), Score: layout.Points(a.Score), Earliest: a.Earliest.String(),
			Likely: layout.Chance(a.Likely), Windows: windowDocs(a.Windows), Most: layout.Points(a.Most), MostWeek: a.MostOn.String(),
		})
	}
	return layout.JSON(w, doc)
}

// AheadCSV writes one row for each dog and run of weeks, one without days for a dog that can't be in coat.
func AheadCSV(w io.Writer, all []optimize.Ahead) error {
	var rows [][]string
	for _, a := range all {
		windows := a.Windows
		if len(windows) == 0 {
			windows = []kennel.Window{{}}
		}
		for _, x := range windows {
			rows = append(rows, []string{
				layout.Cell(a.Dog), layout.Number(float64(a.Score), layout.ScoreDecimals), a.Earliest.String(), layout.Number(layout.Chance(a.Likely), layout.ChanceDecimals), x.From.String(), x.To.String(),
			})
		}
	}
	return layout.CSV(w, []string{"dog", "score", "earliest", "likely", "from", "to"}, rows)
}
