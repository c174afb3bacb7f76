package reports

import (
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

type planDoc struct {
	Kennel    string          `json:"kennel"`
	On        string          `json:"on"`
	Season    seasonDoc       `json:"season"`
	Weeks     []weekDoc       `json:"weeks"`
	Readiness []showReadyJSON `json:"readiness"`
	Outlooks  []outlookDoc    `json:"outlooks"`
	Ways      []wayDoc        `json:"ways"`
	Cannot    []cannotDoc     `json:"cannot"`
	Ignored   []ignoredDoc    `json:"ignored"`
	TooYoung  []youngDoc      `json:"too_young"`
	Gathered  gatheredDoc     `json:"gathered"`
	Tight     *tightDoc       `json:"tight"`
	timetableDoc
	AtShows []atShowDoc `json:"at_shows"`
	InUse   *inUseDoc   `json:"in_use,omitempty"`
}

type seasonDoc struct {
	Objective float64    `json:"objective"`
	Bound     float64    `json:"bound"`
	Gap       float64    `json:"gap"`
	Seconds   float64    `json:"seconds"`
	Cut       bool       `json:"cut"`
	Rounds    int        `json:"rounds"`
	HourPrice []priceDoc `json:"hour_price"`
}

type priceDoc struct {
	Week          string  `json:"week"`
	Hands         string  `json:"hands"`
	Strip         bool    `json:"strip"`
	PointsPerHour float64 `json:"points_per_hour"`
}

type weekDoc struct {
	Week    string     `json:"week"`
	Hours   float64    `json:"hours"`
	Planned float64    `json:"planned"`
	Hands   []handsDoc `json:"hands"`
	Dogs    []dogDoc   `json:"dogs"`
	Duties  []dutyDoc  `json:"duties"`
}

type handsDoc struct {
	Hands       string  `json:"hands"`
	Hours       float64 `json:"hours"`
	Planned     float64 `json:"planned"`
	MostWork    float64 `json:"most_work"`
	MostPulling float64 `json:"most_pulling"`
	Pulled      float64 `json:"pulled"`
}

type dogDoc struct {
	Dog      string    `json:"dog"`
	Sessions int       `json:"sessions"`
	Minutes  float64   `json:"minutes"`
	SetUp    float64   `json:"set_up"`
	Areas    []workDoc `json:"areas"`
	Lift     string    `json:"lift"`
	Tool     string    `json:"tool"`
	Why      string    `json:"why"`
}

type workDoc struct {
	Area    string  `json:"area"`
	Share   float64 `json:"share"`
	Words   string  `json:"words"`
	Minutes float64 `json:"minutes"`
	Work    string  `json:"work"`
}

type dutyDoc struct {
	Dog     string  `json:"dog"`
	Duty    string  `json:"duty"`
	Minutes float64 `json:"minutes"`
	Why     string  `json:"why"`
}

type cannotDoc struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// ignoredDoc is a show for which no dog is prepared.
type ignoredDoc struct {
	Show   string `json:"show"`
	On     string `json:"on"`
	Why    string `json:"why"`
	Likely string `json:"likely,omitempty"` // the first day that was probably meant
}

type gatheredDoc struct {
	Points float64 `json:"points"`
	Moved  int     `json:"moved"`
}

type tightDoc struct {
	Week          string  `json:"week"`
	Hands         string  `json:"hands"`
	PointsPerHour float64 `json:"points_per_hour"`
	Dog           string  `json:"dog"`
	Show          string  `json:"show"`
}

// PlanJSON writes a whole plan for programs: hours and planned in hours, minutes and set_up in minutes, share 0
// to 1, scores 0 to 100. A dog's minutes are the sum of its areas' as printed, and a week's planned hours are the
// sum of everything printed in it, to four decimals; what is done at shows is beside them, in at_shows.
func PlanJSON(w io.Writer, r optimize.Result) error {
	doc := planDoc{
		Kennel: r.Kennel.Name, On: r.On.String(), Season: newSeasonDoc(r.Season), Weeks: []weekDoc{},
		Readiness: showDocs(r), Outlooks: outlookDocs(r), Ways: wayDocs(r), Cannot: cannotDocs(r), Ignored: ignoredDocs(r), TooYoung: youngDocs(r),
		Gathered: gatheredDoc{layout.Rounded(r.Gathered.Points, layout.PointDecimals), r.Gathered.Moved}, timetableDoc: newTimetableDoc(r.Timetable), AtShows: atShowDocs(optimize.AtShows(r)), InUse: inUseOf(r),
	}
	for _, w := range r.Weeks {
		doc.Weeks = append(doc.Weeks, newWeekDoc(w))
	}
	if t := r.Tight; t != nil {
		doc.Tight = &tightDoc{t.Week.String(), t.Hands, layout.Rounded(t.PointsPerHour, layout.PriceDecimals), t.Dog, t.Show}
	}
	return layout.JSON(w, doc)
}

func ignoredDocs(r optimize.Result) []ignoredDoc {
	docs := []ignoredDoc{}
	for _, s := range ignored(r) {
		odd := s.Odd(r.On)
		docs = append(docs, ignoredDoc{s.Name, s.On.String(), odd.Why(), odd.Likely.String()})
	}
	return docs
}

// youngDoc is a dog that may be too young for a show; from is the day from which it is old enough.
type youngDoc struct {
	Dog  string `json:"dog"`
	Show string `json:"show"`
	On   string `json:"on"`
	From string `json:"from"`
	Why  string `json:"why"`
}

func youngDocs(r optimize.Result) []youngDoc {
	docs := []youngDoc{}
	for _, y := range kennel.TooYoung(r.Kennel) {
		if y.Show.On >= r.On {
			docs = append(docs, youngDoc{y.Dog, y.Show.Name, y.Show.On.String(), y.From.String(), y.Words()})
		}
	}
	return docs
}

func cannotDocs(r optimize.Result) []cannotDoc {
	docs := make([]cannotDoc, 0, len(r.Cannot))
	for _, c := range r.Cannot {
		docs = append(docs, cannotDoc{c.What, c.Why})
	}
	return docs
}

func newSeasonDoc(s optimize.Season) seasonDoc {
	d := seasonDoc{
		Objective: layout.Rounded(s.Objective, layout.PointDecimals), Bound: layout.Rounded(s.Bound, layout.PointDecimals),
		Seconds: layout.Rounded(s.Seconds, 3), Cut: s.Cut, Rounds: s.Rounds, HourPrice: []priceDoc{},
	}
	d.Gap = layout.Rounded((d.Bound-d.Objective)/max(1, d.Bound, -d.Bound), layout.PointDecimals)
	for _, h := range s.HourPrice {
		d.HourPrice = append(d.HourPrice, priceDoc{h.Week.String(), h.Hands, h.Strip, layout.Rounded(h.PointsPerHour, layout.PriceDecimals)})
	}
	return d
}

func newWeekDoc(w optimize.Week) weekDoc {
	d := weekDoc{
		Week: w.Week.String(), Hours: layout.Rounded(float64(w.Hours), layout.HourDecimals),
		Hands: []handsDoc{}, Dogs: []dogDoc{}, Duties: []dutyDoc{},
	}
	var all layout.Hundredths
	for _, h := range w.Hands {
		d.Hands = append(d.Hands, handsDoc{
			h.Hands, layout.Rounded(float64(h.Hours), layout.HourDecimals), layout.Rounded(float64(h.Planned), layout.HourDecimals),
			layout.Rounded(float64(h.MostWork), layout.HourDecimals),
			layout.Rounded(float64(h.MostPulling), layout.HourDecimals), layout.Rounded(float64(h.Pulled()), layout.HourDecimals),
		})
	}
	for _, g := range w.Dogs {
		dog := dogDoc{
			Dog: g.Dog, Sessions: g.Sessions, SetUp: layout.HundredthsOf(g.SetUp).Minutes(), Areas: workDocs(g.Areas),
			Lift: g.Lift, Tool: g.Tool, Why: g.Why,
		}
		var pulling layout.Hundredths
		for _, a := range g.Areas {
			pulling += layout.HundredthsOf(a.Minutes)
		}
		dog.Minutes = pulling.Minutes()
		all += pulling + layout.HundredthsOf(g.SetUp)
		d.Dogs = append(d.Dogs, dog)
	}
	for _, y := range w.Duties {
		m := layout.HundredthsOf(y.Minutes)
		all += m
		d.Duties = append(d.Duties, dutyDoc{y.Dog, y.Name, m.Minutes(), y.Why})
	}
	d.Planned = all.Hours()
	return d
}

// PlanCSV writes one row for each week, dog and area that is worked, in working order.
func PlanCSV(w io.Writer, r optimize.Result) error {
	header := []string{"week", "dog", "order", "area", "share", "words", "minutes", "work"}
	var rows [][]string
	for _, week := range r.Weeks {
		for _, d := range week.Dogs {
			for i, a := range d.Areas {
				rows = append(rows, []string{
					week.Week.String(), layout.Cell(d.Dog), layout.Number(float64(i+1), 0), layout.Cell(string(a.Area)),
					layout.Number(float64(a.Share), layout.ShareDecimals), a.Words(), layout.Number(float64(a.Minutes), 2), string(a.Work),
				})
			}
		}
	}
	return layout.CSV(w, header, rows)
}
