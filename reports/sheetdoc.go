package reports

import (
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

type sheetDoc struct {
	Kennel string `json:"kennel"`
	On     string `json:"on"`
	weekDoc
	timetableDoc
	AtShows []atShowDoc `json:"at_shows"` // those near
	Ways    []wayDoc    `json:"ways"`
	Cannot  []cannotDoc `json:"cannot"`
	Cut     bool        `json:"cut,omitempty"` // the search for the season was cut short
	InUse   *inUseDoc   `json:"in_use,omitempty"`
}

// SheetJSON writes this week's work and the days planned for programs, under the names that PlanJSON gives them.
func SheetJSON(w io.Writer, r optimize.Result) error {
	return layout.JSON(w, sheetDoc{r.Kennel.Name, r.On.String(), newWeekDoc(thisWeek(r)), newTimetableDoc(r.Timetable), atShowDocs(say.ShowsNear(r)), wayDocs(r), cannotDocs(r), r.Season.Cut, inUseOf(r)})
}

// SheetCSV writes one row for each set-up, area, duty, bath, break and journey of the days planned, in order of day,
// hands and clock. Minutes are those of the work; of breaks, baths and duties those of the clock, and of journeys none.
func SheetCSV(w io.Writer, r optimize.Result) error {
	var rows [][]string
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Shown() {
				add := func(kind, what, share, words, minutes string) {
					rows = append(rows, []string{
						d.On.String(), i.Start.String(), i.End.String(), layout.Cell(h.Hands), layout.Number(float64(len(rows)+1), 0), layout.Cell(i.Dog), kind,
						layout.Cell(what), share, words, layout.Cell(i.Why), minutes,
					})
				}
				itemRows(i, add)
			}
		}
	}
	return layout.CSV(w, []string{"date", "start", "end", "hands", "order", "dog", "kind", "what", "share", "words", "why", "minutes"}, rows)
}

func itemRows(i optimize.Item, add func(kind, what, share, words, minutes string)) {
	switch i.Kind {
	case optimize.ItemSession:
		if i.SetUp > 0 { // none after a break
			add(tally.KindSetUp, "", "", "", csvMinutes(i.SetUp))
		}
		for _, a := range i.Areas {
			add(tally.KindPull, string(a.Area), layout.Number(float64(a.Share), layout.ShareDecimals), a.Words(), csvMinutes(a.Minutes))
		}
	case optimize.ItemTravel:
		add(string(i.Kind), i.What, "", "", "")
	default:
		add(string(i.Kind), i.What, "", "", csvMinutes(kennel.Minutes(i.End-i.Start)))
	}
}

func csvMinutes(m kennel.Minutes) string { return layout.Number(layout.HundredthsOf(m).Minutes(), 2) }
