package reports

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

// Workload writes the hours per week against the hours available, then per dog with its owner, per area, per owner and
// per pair of hands, and how they are shared out.
func Workload(w io.Writer, r optimize.Result, l layout.Look) error {
	return workloadText(w, r, l, tally.Parts())
}

// WorkloadBy writes one part of a workload.
func WorkloadBy(w io.Writer, r optimize.Result, l layout.Look, by tally.Part) error {
	return workloadText(w, r, l, []tally.Part{by})
}

func workloadText(w io.Writer, r optimize.Result, l layout.Look, parts []tally.Part) error {
	p := layout.NewPage(w, l)
	lines := tally.Lines(r)
	p.Strong(say.Plain(r.Kennel.Name), fmt.Sprintf("hours planned over %s from %s", say.Plural(len(r.Weeks), "week"), say.LongDay(r.On)))
	for _, by := range parts {
		if by == tally.PartBalance {
			balanceText(p, r)
			continue
		}
		workPartText(p, r, lines, by)
	}
	return p.Done()
}

// workBar is how long a bar of hours is at the end of a line.
const workBar = 20

func workPartText(p *layout.Page, r optimize.Result, lines []tally.Line, by tally.Part) {
	list := tally.Sums(r, lines, by)
	p.Heading("BY "+strings.ToUpper(string(by)), "hours")
	owner := map[string]string{}
	for _, d := range r.Kennel.Dogs {
		owner[d.Name] = say.Plain(d.Owner)
	}
	t := layout.Table{Right: map[int]bool{1: true, 2: true, 3: true, 4: true, 5: true, 6: true}}
	row := func(s tally.Sum, name, note string) {
		t.Add(
			name, layout.HoursWords(s.Pull), layout.HoursWords(s.SetUp), layout.HoursWords(s.Duties), layout.HoursWords(s.Home()), layout.HoursWords(s.Shows),
			layout.HoursWords(s.All()), note,
		)
	}
	last := ""
	if by == tally.PartWeek || by == tally.PartHands {
		last = "at home, of the hours there"
	}
	t.Add("", "pulling", "set-up", "duties", "at home", "shows", "all", last)
	for _, s := range list {
		note := ""
		switch {
		case s.ThereAre != nil:
			note = fmt.Sprintf("of %6s  %s", layout.HoursWords(*s.ThereAre), bar(kennel.Hours(s.Home()), kennel.Hours(*s.ThereAre), workBar))
		case by == tally.PartDog:
			note = owner[s.Name]
		}
		row(s, s.Label(r, by), note)
	}
	row(tally.Total(list), "all", "")
	p.Table(2, t)
}

type partsDoc struct {
	Week  []sumDoc `json:"week"`
	Dog   []sumDoc `json:"dog"`
	Area  []sumDoc `json:"area"`
	Owner []sumDoc `json:"owner"`
	Hands []sumDoc `json:"hands"`
}

type sumDoc struct {
	Name     string   `json:"name"`
	Pulling  float64  `json:"pulling"`
	SetUp    float64  `json:"set_up"`
	Duties   float64  `json:"duties"`
	Shows    float64  `json:"shows"`
	Minutes  float64  `json:"minutes"`
	ThereAre *float64 `json:"there_are"`
}

func newPartsDoc(r optimize.Result, lines []tally.Line) partsDoc {
	of := func(by tally.Part) []sumDoc {
		docs := []sumDoc{}
		for _, s := range tally.Sums(r, lines, by) {
			d := sumDoc{s.Name, s.Pull.Minutes(), s.SetUp.Minutes(), s.Duties.Minutes(), s.Shows.Minutes(), s.All().Minutes(), nil}
			if s.ThereAre != nil {
				m := s.ThereAre.Minutes()
				d.ThereAre = &m
			}
			docs = append(docs, d)
		}
		return docs
	}
	return partsDoc{of(tally.PartWeek), of(tally.PartDog), of(tally.PartArea), of(tally.PartOwner), of(tally.PartHands)}
}

// WorkloadByJSON writes one part of a workload, under the names that WorkloadJSON gives it.
func WorkloadByJSON(w io.Writer, r optimize.Result, by tally.Part) error {
	if by == tally.PartBalance {
		return layout.JSON(w, newBalanceDoc(r))
	}
	all := newPartsDoc(r, tally.Lines(r))
	return layout.JSON(w, map[tally.Part][]sumDoc{
		tally.PartWeek: all.Week, tally.PartDog: all.Dog, tally.PartArea: all.Area, tally.PartOwner: all.Owner, tally.PartHands: all.Hands,
	}[by])
}

// WorkloadByCSV writes one row for each week, dog, area, owner or pair of hands. Times are minutes.
func WorkloadByCSV(w io.Writer, r optimize.Result, by tally.Part) error {
	if by == tally.PartBalance {
		return balanceCSV(w, r)
	}
	var rows [][]string
	for _, s := range tally.Sums(r, tally.Lines(r), by) {
		there := ""
		if s.ThereAre != nil {
			there = layout.Number(s.ThereAre.Minutes(), 2)
		}
		rows = append(rows, []string{
			layout.Cell(s.Name), layout.Number(s.Pull.Minutes(), 2), layout.Number(s.SetUp.Minutes(), 2), layout.Number(s.Duties.Minutes(), 2),
			layout.Number(s.Shows.Minutes(), 2),
			layout.Number(s.All().Minutes(), 2), there,
		})
	}
	return layout.CSV(w, []string{string(by), "pulling", "set_up", "duties", "shows", "minutes", "there_are"}, rows)
}
