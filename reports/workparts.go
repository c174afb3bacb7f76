package reports

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// WorkPart is one way to look at a workload.
type WorkPart string

// The parts of a workload.
const (
	PartWeek    WorkPart = "week"
	PartDog     WorkPart = "dog"
	PartArea    WorkPart = "area"
	PartOwner   WorkPart = "owner"
	PartHands   WorkPart = "hands"
	PartBalance WorkPart = "balance"
)

// WorkParts lists the parts in the order in which they are told.
func WorkParts() []WorkPart {
	return []WorkPart{PartWeek, PartDog, PartArea, PartOwner, PartHands, PartBalance}
}

// workSum is the work that shares a key: of one week, one dog, and so on.
type workSum struct {
	name                string // as a person or the kennel's file writes it; a date for a week
	week                kennel.Date
	pull, setUp, duties layout.Hundredths
	thereAre            *layout.Hundredths // hours there are, for weeks and hands
}

func (s workSum) all() layout.Hundredths { return s.pull + s.setUp + s.duties }

func (s *workSum) add(kind string, t layout.Hundredths) {
	switch kind {
	case kindPull:
		s.pull += t
	case kindSetUp:
		s.setUp += t
	default:
		s.duties += t
	}
}

// sums are the work by the part's key: weeks, dogs, owners and hands in the kennel's order, also those without work;
// areas in the order in which they first come.
func sums(r optimize.Result, lines []workLine, by WorkPart) []workSum {
	var list []workSum
	at := map[string]int{}
	open := func(s workSum) {
		at[s.name] = len(list)
		list = append(list, s)
	}
	switch by {
	case PartWeek:
		for _, w := range r.Weeks {
			there := layout.HundredthsOf(kennel.Minutes(w.Hours * kennel.MinutesAnHour))
			open(workSum{name: w.Week.String(), week: w.Week, thereAre: &there})
		}
	case PartDog:
		for _, d := range r.Kennel.Dogs {
			open(workSum{name: d.Name})
		}
	case PartOwner:
		for _, d := range r.Kennel.Dogs {
			if _, ok := at[d.Owner]; !ok {
				open(workSum{name: d.Owner})
			}
		}
	case PartHands:
		for _, h := range r.Kennel.Hands {
			var there layout.Hundredths
			for _, w := range r.Weeks {
				for _, x := range w.Hands {
					if x.Hands == h.Name {
						there += layout.HundredthsOf(kennel.Minutes(x.Hours * kennel.MinutesAnHour))
					}
				}
			}
			open(workSum{name: h.Name, thereAre: &there})
		}
	}
	for _, l := range lines {
		key := workKey(l, by)
		if _, ok := at[key]; !ok {
			open(workSum{name: key, week: l.week})
		}
		list[at[key]].add(l.kind, l.time)
	}
	return list
}

func workKey(l workLine, by WorkPart) string {
	switch by {
	case PartWeek:
		return l.week.String()
	case PartDog:
		return l.dog
	case PartOwner:
		return l.owner
	case PartHands:
		return l.hands
	}
	return area(l)
}

// area is what of the coat a line is spent on; set-ups and duties are of no area.
func area(l workLine) string {
	switch l.kind {
	case kindPull:
		return l.area
	case kindSetUp:
		return "(set-ups)"
	}
	return "(duties)"
}

func total(list []workSum) (all workSum) {
	for _, s := range list {
		all.pull += s.pull
		all.setUp += s.setUp
		all.duties += s.duties
	}
	return all
}

// label is what a sum is called.
func (s workSum) label(r optimize.Result, by WorkPart) string {
	switch {
	case by == PartWeek:
		return say.Week(s.week, r.On)
	case s.name == "":
		return "(not told)"
	}
	return say.Plain(s.name)
}

// Workload writes the hours per week against the hours there are, then per dog with its owner, per area, per owner and
// per pair of hands, and how they are shared out.
func Workload(w io.Writer, r optimize.Result, l layout.Look) error {
	return workloadText(w, r, l, WorkParts())
}

// WorkloadBy writes one part of a workload.
func WorkloadBy(w io.Writer, r optimize.Result, l layout.Look, by WorkPart) error {
	return workloadText(w, r, l, []WorkPart{by})
}

func workloadText(w io.Writer, r optimize.Result, l layout.Look, parts []WorkPart) error {
	p := layout.NewPage(w, l)
	lines := workload(r)
	p.Strong(say.Plain(r.Kennel.Name), fmt.Sprintf("hours planned over %s from %s", say.Plural(len(r.Weeks), "week"), say.LongDay(r.On)))
	for _, by := range parts {
		if by == PartBalance {
			balanceText(p, r)
			continue
		}
		workPartText(p, r, lines, by)
	}
	return p.Done()
}

// workBar is how long a bar of hours is at the end of a line.
const workBar = 20

func workPartText(p *layout.Page, r optimize.Result, lines []workLine, by WorkPart) {
	list := sums(r, lines, by)
	p.Heading("BY "+strings.ToUpper(string(by)), "hours")
	owner := map[string]string{}
	for _, d := range r.Kennel.Dogs {
		owner[d.Name] = say.Plain(d.Owner)
	}
	t := layout.Table{Right: map[int]bool{1: true, 2: true, 3: true, 4: true}}
	row := func(s workSum, name, note string) {
		t.Add(name, layout.HoursWords(s.pull), layout.HoursWords(s.setUp), layout.HoursWords(s.duties), layout.HoursWords(s.all()), note)
	}
	last := ""
	if by == PartWeek || by == PartHands {
		last = "of the hours there are"
	}
	t.Add("", "pulling", "set-up", "duties", "all", last)
	for _, s := range list {
		note := ""
		switch {
		case s.thereAre != nil:
			note = fmt.Sprintf("of %6s  %s", layout.HoursWords(*s.thereAre), bar(kennel.Hours(s.all()), kennel.Hours(*s.thereAre), workBar))
		case by == PartDog:
			note = owner[s.name]
		}
		row(s, s.label(r, by), note)
	}
	row(total(list), "all", "")
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
	Minutes  float64  `json:"minutes"`
	ThereAre *float64 `json:"there_are"`
}

func newPartsDoc(r optimize.Result, lines []workLine) partsDoc {
	of := func(by WorkPart) []sumDoc {
		docs := []sumDoc{}
		for _, s := range sums(r, lines, by) {
			d := sumDoc{s.name, s.pull.Minutes(), s.setUp.Minutes(), s.duties.Minutes(), s.all().Minutes(), nil}
			if s.thereAre != nil {
				m := s.thereAre.Minutes()
				d.ThereAre = &m
			}
			docs = append(docs, d)
		}
		return docs
	}
	return partsDoc{of(PartWeek), of(PartDog), of(PartArea), of(PartOwner), of(PartHands)}
}

// WorkloadByJSON writes one part of a workload, under the names that WorkloadJSON gives it.
func WorkloadByJSON(w io.Writer, r optimize.Result, by WorkPart) error {
	if by == PartBalance {
		return layout.JSON(w, newBalanceDoc(r))
	}
	all := newPartsDoc(r, workload(r))
	return layout.JSON(w, map[WorkPart][]sumDoc{
		PartWeek: all.Week, PartDog: all.Dog, PartArea: all.Area, PartOwner: all.Owner, PartHands: all.Hands,
	}[by])
}

// WorkloadByCSV writes one row for each week, dog, area, owner or pair of hands. Times are minutes.
func WorkloadByCSV(w io.Writer, r optimize.Result, by WorkPart) error {
	if by == PartBalance {
		return balanceCSV(w, r)
	}
	var rows [][]string
	for _, s := range sums(r, workload(r), by) {
		there := ""
		if s.thereAre != nil {
			there = layout.Number(s.thereAre.Minutes(), 2)
		}
		rows = append(rows, []string{
			layout.Cell(s.name), layout.Number(s.pull.Minutes(), 2), layout.Number(s.setUp.Minutes(), 2), layout.Number(s.duties.Minutes(), 2),
			layout.Number(s.all().Minutes(), 2), there,
		})
	}
	return layout.CSV(w, []string{string(by), "pulling", "set_up", "duties", "minutes", "there_are"}, rows)
}
