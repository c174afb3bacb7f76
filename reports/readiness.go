package reports

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Readiness writes each dog's coat today, the days on which it is in coat left alone and with the plan followed,
// and its readiness for each show.
func Readiness(w io.Writer, r optimize.Result, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(r.Kennel.Name), "readiness on "+say.LongDay(r.On)+" and over "+say.Plural(len(r.Weeks), "week"))
	todayTable(p, r)
	windowsTable(p, r)
	showTable(p, r)
	return p.Done()
}

// showTable lists each show with its dogs as they are expected to be with the plan.
func showTable(p *layout.Page, r optimize.Result) {
	p.Heading("READINESS FOR SHOWS", "0 to 100, to be expected with the plan; the range of 8 in 10 and the chance of being in coat, "+
		"as sessions may be missed, and the dog may grow slower or faster than thought")
	defer youngDogs(p, r)
	defer lostHair(p, r)
	defer ignoredShows(p, r)
	defer laterShows(p, r)
	if len(r.Readiness) == 0 {
		p.Say(2, "", "No dog is named for a show in these weeks.")
		return
	}
	t := layout.Table{Right: map[int]bool{1: true, 3: true}}
	flush := func() {
		p.Table(4, t)
		t.Rows = nil
	}
	for i, s := range r.Readiness {
		if i == 0 || s.Show != r.Readiness[i-1].Show || s.On != r.Readiness[i-1].On {
			flush()
			p.Say(2, "", "%s: %s (%s)", say.Day(s.On, r.On), say.Plain(s.Show), say.Chance(s.Chance)+entryWords(r, s))
		}
		t.Add(say.Plain(s.Dog), kennel.ScoreWords(s.Score), say.Range(s), say.Percent(s.Likely), say.WorstAt(s)+cureWords(s, r.On)+notDoneWords(s))
	}
	flush()
}

// cureWords says what would bring a dog in coat.
func cureWords(s optimize.ShowReadiness, today kennel.Date) string {
	if s.Cure == nil {
		return ""
	}
	return "; in coat with " + say.Cure(s.Cure, today)
}

// notDoneWords says which of a dog's duties before a show find no time.
func notDoneWords(s optimize.ShowReadiness) string {
	if words := say.NotDone(s); words != "" {
		return "; " + words
	}
	return ""
}

// notDoneList lists the shows of the coming days before which some of a dog's duties find no time.
func notDoneList(p *layout.Page, r optimize.Result) {
	last := r.On.AddDays(len(r.Timetable.Days) + kennel.DaysAWeek)
	head := false
	for _, s := range r.Readiness {
		if len(s.NotDone) == 0 || s.On >= last {
			continue
		}
		if !head {
			p.Heading("BEFORE THE SHOWS", "what finds no time")
			head = true
		}
		p.Say(2, "- ", "%s for %s, %s: %s", say.Plain(s.Dog), say.Plain(s.Show), say.Day(s.On, r.On), say.NotDone(s))
	}
}

// atShowsList says what is done at the shows of the coming days, and what to pack for them.
func atShowsList(p *layout.Page, r optimize.Result) {
	for i, s := range say.AtShows(r) {
		if i == 0 {
			p.Heading("AT THE SHOWS", "what is done there, and what to pack")
		}
		p.Say(2, "", "%s", s.Show)
		for _, d := range s.Dogs {
			p.Say(4, box, "%s", d)
		}
		if s.Ring != "" {
			p.Say(4, "", "%s", s.Ring)
		}
		p.Say(4, box, "for all: %s", s.All)
	}
}

// entryWords says until when a show that is only hoped for can still be entered, where that is told.
func entryWords(r optimize.Result, at optimize.ShowReadiness) string {
	for _, s := range r.Kennel.Shows {
		switch {
		case s.Name != at.Show || s.On != at.On || s.Entered() || s.EntriesClose == 0:
		case s.EntriesClose < r.On:
			return ", entries closed " + say.Day(s.EntriesClose, r.On)
		default:
			return ", entries close " + say.Day(s.EntriesClose, r.On)
		}
	}
	return ""
}

func todayTable(p *layout.Page, r optimize.Result) {
	p.Heading("TODAY", "")
	t := layout.Table{Right: map[int]bool{1: true}}
	for _, o := range r.Outlooks {
		worst := say.WorstArea(o)
		t.Add(say.Plain(o.Dog), kennel.ScoreWords(o.Score), string(o.State), say.Worst(worst.Area, worst.Score, worst.Why))
	}
	p.Table(2, t)
}

func windowsTable(p *layout.Page, r optimize.Result) {
	p.Heading("IN COAT", fmt.Sprintf("readiness of %.0f and more", float64(kennel.ReadyScore)))
	t := layout.Table{}
	for _, o := range r.Outlooks {
		t.Add(say.Plain(o.Dog), "left alone", say.Windows(o.Idle, r.On))
		t.Add("", "with the plan", say.Windows(o.Planned, r.On))
	}
	p.Table(2, t)
}

type readinessDoc struct {
	Kennel    string          `json:"kennel"`
	On        string          `json:"on"`
	Dogs      []outlookDoc    `json:"dogs"`
	Readiness []showReadyJSON `json:"readiness"`
}

type outlookDoc struct {
	Dog       string      `json:"dog"`
	State     string      `json:"state"`
	Score     float64     `json:"score"`
	WorstArea string      `json:"worst_area"`
	WorstWhy  string      `json:"why"`
	Idle      []windowDoc `json:"in_coat_left_alone"`
	Planned   []windowDoc `json:"in_coat_with_plan"`
	Areas     []areaDoc   `json:"areas"`
	Weeks     []weekScore `json:"weeks"`
}

type windowDoc struct {
	From string `json:"from"`
	To   string `json:"to"`
}

type areaDoc struct {
	Area  string     `json:"area"`
	State string     `json:"state"`
	Score float64    `json:"score"`
	Why   string     `json:"why"`
	Ready int        `json:"shows_at_weeks"`
	Over  int        `json:"too_long_at_weeks"`
	Hair  []layerDoc `json:"hair"`
}

// layerDoc is hair of one age; the last of an area may stand for all that is older, too.
type layerDoc struct {
	Weeks int     `json:"weeks"`
	Share float64 `json:"share"`
}

type weekScore struct {
	Week         string  `json:"week"`
	Idle         float64 `json:"left_alone"`
	Planned      float64 `json:"with_plan"`
	IdleState    string  `json:"state_left_alone"`
	PlannedState string  `json:"state_with_plan"`
}

type showReadyJSON struct {
	Dog        string   `json:"dog"`
	Show       string   `json:"show"`
	On         string   `json:"on"`
	Chance     float64  `json:"chance"`
	Score      float64  `json:"score"`
	Low        float64  `json:"low"`
	High       float64  `json:"high"`
	Likely     float64  `json:"likely"`
	Followed   float64  `json:"if_all_is_done"`
	Idle       float64  `json:"left_alone"`
	WorstArea  string   `json:"worst_area"`
	WorstScore float64  `json:"worst_score"`
	Why        string   `json:"why"`
	Cure       *cureDoc `json:"cure"`
	NotDone    []string `json:"not_done,omitempty"`
}

// cureDoc is the work that would bring a dog in coat.
type cureDoc struct {
	Words string        `json:"words"`
	Score float64       `json:"score"`
	Work  []cureWorkDoc `json:"work"`
}

type cureWorkDoc struct {
	Area    string  `json:"area"`
	Share   float64 `json:"share"`
	Minutes float64 `json:"minutes"`
	By      string  `json:"by"`
}

func newCureDoc(c *optimize.Cure, today kennel.Date) *cureDoc {
	if c == nil {
		return nil
	}
	d := &cureDoc{Words: say.Cure(c, today), Score: layout.Points(c.Score)}
	for _, w := range c.Work {
		d.Work = append(d.Work, cureWorkDoc{string(w.Area), layout.Rounded(float64(w.Share), layout.ShareDecimals), layout.HundredthsOf(w.Minutes).Minutes(), w.By.String()})
	}
	return d
}

// ReadinessJSON writes what Readiness writes, for programs.
func ReadinessJSON(w io.Writer, r optimize.Result) error {
	return layout.JSON(w, readinessDoc{
		Kennel: r.Kennel.Name, On: r.On.String(), Dogs: outlookDocs(r), Readiness: showDocs(r),
	})
}

func showDocs(r optimize.Result) []showReadyJSON {
	docs := make([]showReadyJSON, 0, len(r.Readiness))
	for _, s := range r.Readiness {
		docs = append(docs, showReadyJSON{
			Dog: s.Dog, Show: s.Show, On: s.On.String(), Chance: s.Chance, Score: layout.Points(s.Score),
			Low: layout.Points(s.Low), High: layout.Points(s.High), Likely: layout.Chance(s.Likely), Followed: layout.Points(s.Followed), Idle: layout.Points(s.Idle),
			WorstArea: string(s.WorstArea), WorstScore: layout.Points(s.WorstScore), Why: s.Why, Cure: newCureDoc(s.Cure, r.On), NotDone: s.NotDone,
		})
	}
	return docs
}

func outlookDocs(r optimize.Result) []outlookDoc {
	docs := make([]outlookDoc, 0, len(r.Outlooks))
	for _, o := range r.Outlooks {
		worst := say.WorstArea(o)
		d := outlookDoc{
			Dog: o.Dog, State: string(o.State), Score: layout.Points(o.Score), WorstArea: string(worst.Area), WorstWhy: worst.Why,
			Idle: windowDocs(o.Idle), Planned: windowDocs(o.Planned), Areas: []areaDoc{}, Weeks: []weekScore{},
		}
		for _, a := range o.Areas {
			d.Areas = append(d.Areas, newAreaDoc(a))
		}
		for t := range min(len(o.IdleScores), len(o.PlannedScores), len(r.Weeks)) {
			d.Weeks = append(d.Weeks, weekScore{
				r.Weeks[t].Week.String(), layout.Points(o.IdleScores[t]), layout.Points(o.PlannedScores[t]), stateAt(o.IdleStates, t), stateAt(o.PlannedStates, t),
			})
		}
		docs = append(docs, d)
	}
	return docs
}

// newAreaDoc tells only the ages of which there is hair.
func newAreaDoc(a optimize.AreaOutlook) areaDoc {
	d := areaDoc{string(a.Area), string(a.State), layout.Points(a.Score), a.Why, int(a.Ready), int(a.Over), []layerDoc{}}
	for age, s := range append(slices.Clone(a.Ages), a.Older) {
		if share := layout.Rounded(float64(s), layout.ShareDecimals); share > 0 {
			d.Hair = append(d.Hair, layerDoc{age, share})
		}
	}
	return d
}

func stateAt(states []kennel.State, t int) string {
	if t < len(states) {
		return string(states[t])
	}
	return ""
}

func windowDocs(ws []kennel.Window) []windowDoc {
	docs := make([]windowDoc, 0, len(ws))
	for _, w := range ws {
		docs = append(docs, windowDoc{w.From.String(), w.To.String()})
	}
	return docs
}

// ReadinessCSV writes one row for each dog and show.
func ReadinessCSV(w io.Writer, r optimize.Result) error {
	header := []string{"dog", "show", "on", "chance", "score", "low", "high", "likely", "left_alone", "worst_area", "worst_score", "why", "cure", "not_done"}
	rows := make([][]string, 0, len(r.Readiness))
	for _, s := range r.Readiness {
		rows = append(rows, []string{
			layout.Cell(s.Dog), layout.Cell(s.Show), s.On.String(), layout.Number(s.Chance, layout.ScoreDecimals), layout.Number(float64(s.Score), layout.ScoreDecimals),
			layout.Number(float64(s.Low), layout.ScoreDecimals), layout.Number(float64(s.High), layout.ScoreDecimals), layout.Number(layout.Chance(s.Likely), layout.ChanceDecimals),
			layout.Number(float64(s.Idle), layout.ScoreDecimals), layout.Cell(string(s.WorstArea)), layout.Number(float64(s.WorstScore), layout.ScoreDecimals),
			layout.Cell(s.Why), layout.Cell(say.Cure(s.Cure, r.On)), layout.Cell(strings.Join(s.NotDone, "; ")),
		})
	}
	return layout.CSV(w, header, rows)
}
