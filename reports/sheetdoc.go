package reports

import (
	"io"

	"tuckup/optimize"
)

type sheetDoc struct {
	Kennel string `json:"kennel"`
	On     string `json:"on"`
	weekDoc
	Cannot []cannotDoc `json:"cannot"`
}

// SheetJSON writes this week's work for programs, under the names that PlanJSON gives it.
func SheetJSON(w io.Writer, r optimize.Result) error {
	return writeJSON(w, sheetDoc{r.Kennel.Name, r.On.String(), newWeekDoc(thisWeek(r)), cannotDocs(r)})
}

// SheetCSV writes one row for each area and duty of this week's work, in working order.
func SheetCSV(w io.Writer, r optimize.Result) error {
	week := thisWeek(r)
	var rows [][]string
	add := func(dog, kind, what, share, words string, minutes float64) {
		rows = append(rows, []string{
			week.Week.String(), number(float64(len(rows)+1), 0), cell(dog), kind, cell(what), share, words, number(minutes, 2),
		})
	}
	for _, d := range week.Dogs {
		add(d.Dog, kindSetUp, "", "", "", hundredthsOf(d.SetUp).minutes())
		for _, a := range d.Areas {
			add(d.Dog, kindPull, string(a.Area), number(float64(a.Share), shareDecimals), shareWords(a.Share), hundredthsOf(a.Minutes).minutes())
		}
	}
	for _, y := range week.Duties {
		add(y.Dog, kindDuty, y.Name, "", "", hundredthsOf(y.Minutes).minutes())
	}
	return writeCSV(w, []string{"week", "order", "dog", "kind", "what", "share", "words", "minutes"}, rows)
}
