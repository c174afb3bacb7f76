package reports

import (
	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

type dayDoc struct {
	Date  string       `json:"date"`
	Hands []dayHandDoc `json:"hands"`
}

type dayHandDoc struct {
	Name  string    `json:"name"`
	Hours float64   `json:"hours"`
	Items []itemDoc `json:"items"`
}

type itemDoc struct {
	Start  string    `json:"start"`
	End    string    `json:"end"`
	Kind   string    `json:"kind"`
	Dog    string    `json:"dog"`
	What   string    `json:"what"`
	SetUp  float64   `json:"set_up"`
	Areas  []workDoc `json:"areas"`
	Lift   string    `json:"lift"`
	Tool   string    `json:"tool"`
	Pinned bool      `json:"pinned"`
	Why    string    `json:"why"`
}

type leftOutDoc struct {
	Week   string  `json:"week"`
	Dog    string  `json:"dog"`
	Area   string  `json:"area"`
	Duty   string  `json:"duty"`
	Share  float64 `json:"share"`
	Words  string  `json:"words"`
	Points float64 `json:"points"`
	Why    string  `json:"why"`
}

type daysWorthDoc struct {
	Objective float64 `json:"objective"`
	Bound     float64 `json:"bound"`
	Gap       float64 `json:"gap"`
}

// timetableDoc is a timetable for programs: clock times as HH:MM of the kennel's clock, 24:00 at the end of a day.
type timetableDoc struct {
	Days      []dayDoc     `json:"days"`
	LeftOut   []leftOutDoc `json:"left_out"`
	DaysWorth daysWorthDoc `json:"days_worth"`
}

func newTimetableDoc(t optimize.Timetable) timetableDoc {
	doc := timetableDoc{Days: []dayDoc{}, LeftOut: []leftOutDoc{}, DaysWorth: daysWorthDoc{
		layout.Rounded(t.Worth.Objective, layout.PointDecimals), layout.Rounded(t.Worth.Bound, layout.PointDecimals), layout.Rounded(t.Worth.Gap, layout.PointDecimals),
	}}
	for _, d := range t.Days {
		day := dayDoc{d.On.String(), []dayHandDoc{}}
		for _, h := range d.Hands {
			hands := dayHandDoc{h.Hands, layout.Rounded(float64(h.Hours), layout.HourDecimals), []itemDoc{}}
			for _, i := range h.Shown() {
				hands.Items = append(hands.Items, newItemDoc(i))
			}
			day.Hands = append(day.Hands, hands)
		}
		doc.Days = append(doc.Days, day)
	}
	for _, l := range t.Missed() {
		left := leftOutDoc{
			Week: l.Week.String(), Dog: l.Dog, Area: string(l.Area), Duty: l.Duty, Share: layout.Rounded(float64(l.Share), layout.ShareDecimals),
			Points: layout.Rounded(l.Points, layout.PointDecimals), Why: l.Why,
		}
		if l.Area != "" {
			left.Words = kennel.ShareWords(l.Share)
		}
		doc.LeftOut = append(doc.LeftOut, left)
	}
	return doc
}

func newItemDoc(i optimize.Item) itemDoc {
	return itemDoc{
		Start: i.Start.String(), End: i.End.String(), Kind: string(i.Kind), Dog: i.Dog, What: i.What,
		SetUp: layout.HundredthsOf(i.SetUp).Minutes(), Areas: workDocs(i.Areas), Lift: i.Lift, Tool: i.Tool, Pinned: i.Pinned, Why: i.Why,
	}
}

func workDocs(areas []optimize.AreaWork) []workDoc {
	docs := []workDoc{}
	for _, a := range areas {
		docs = append(docs, workDoc{
			string(a.Area), layout.Rounded(float64(a.Share), layout.ShareDecimals), a.Words(), layout.HundredthsOf(a.Minutes).Minutes(), string(a.Work),
		})
	}
	return docs
}
