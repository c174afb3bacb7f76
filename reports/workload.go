package reports

import (
	"io"

	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/tally"
)

type workloadDoc struct {
	Kennel  string        `json:"kennel"`
	On      string        `json:"on"`
	Minutes float64       `json:"minutes"`
	AtShows float64       `json:"at_shows"` // of the minutes
	Lines   []workLineDoc `json:"lines"`
	Parts   partsDoc      `json:"by"`
	Balance balanceDoc    `json:"balance"`
}

type workLineDoc struct {
	Week    string  `json:"week"`
	Dog     string  `json:"dog"`
	Owner   string  `json:"owner"`
	Area    string  `json:"area"`
	Duty    string  `json:"duty"`
	Hands   string  `json:"hands"`
	Kind    string  `json:"kind"`
	Minutes float64 `json:"minutes"`
}

// WorkloadJSON writes every stretch of work with its minutes, their sums by week, dog, owner, area and hands, and how
// the hours are shared out. All times are minutes.
func WorkloadJSON(w io.Writer, r optimize.Result) error {
	lines := tally.Lines(r)
	doc := workloadDoc{
		Kennel: r.Kennel.Name, On: r.On.String(), Lines: []workLineDoc{}, Parts: newPartsDoc(r, lines), Balance: newBalanceDoc(r),
	}
	var all, shows layout.Hundredths
	for _, l := range lines {
		all += l.Time
		if l.Kind == tally.KindShow {
			shows += l.Time
		}
		doc.Lines = append(doc.Lines, workLineDoc{
			l.Week.String(), l.Dog, l.Owner, l.Area, l.Duty, l.Hands, l.Kind, l.Time.Minutes(),
		})
	}
	doc.Minutes, doc.AtShows = all.Minutes(), shows.Minutes()
	return layout.JSON(w, doc)
}

// WorkloadCSV writes one row for each stretch of work.
func WorkloadCSV(w io.Writer, r optimize.Result) error {
	var rows [][]string
	for _, l := range tally.Lines(r) {
		rows = append(rows, []string{
			l.Week.String(), layout.Cell(l.Dog), layout.Cell(l.Owner), layout.Cell(l.Area), layout.Cell(l.Duty), layout.Cell(l.Hands), l.Kind, layout.Number(l.Time.Minutes(), 2),
		})
	}
	return layout.CSV(w, []string{"week", "dog", "owner", "area", "duty", "hands", "kind", "minutes"}, rows)
}
