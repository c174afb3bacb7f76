package reports

import (
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// The kinds of minutes that a workload tells apart.
const (
	kindPull  = "pull"
	kindSetUp = "set-up"
	kindDuty  = "duty"
)

// workLine is one stretch of work as the account lists it.
type workLine struct {
	week       kennel.Date
	dog, owner string
	kind       string
	area, duty string       // what of the two was worked; both empty for a set-up
	work       kennel.Skill // what hands must be let near to do it
	hands      string
	time       layout.Hundredths
}

// workload is every stretch of work of a plan, each with one pair of hands. A stretch that two pairs share becomes
// two lines. The lines of a week add up to the plan's minutes of that week to the hundredth.
func workload(r optimize.Result) []workLine {
	owners := map[string]string{}
	for _, d := range r.Kennel.Dogs {
		owners[d.Name] = d.Owner
	}
	var lines []workLine
	for _, w := range r.Weeks {
		var week []workLine
		add := func(l workLine, m kennel.Minutes) {
			l.week, l.owner, l.time = w.Week, owners[l.dog], layout.HundredthsOf(m)
			if l.time != 0 {
				week = append(week, l)
			}
		}
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				add(workLine{dog: d.Dog, kind: kindPull, area: string(a.Area), work: a.Work}, a.Minutes)
			}
			add(workLine{dog: d.Dog, kind: kindSetUp, work: optimize.SetUp}, d.SetUp)
		}
		for _, d := range w.Duties {
			add(workLine{dog: d.Dog, kind: kindDuty, duty: d.Name, work: kennel.SkillDuties}, d.Minutes)
		}
		lines = append(lines, shareOut(week, w.Hands)...)
	}
	return lines
}

// shareOut gives a week's lines to the hands: of each kind of work, the first pair takes lines until its minutes of
// that kind are used up, then the next. The last pair takes what rounding leaves.
func shareOut(lines []workLine, hands []optimize.HandsWeek) []workLine {
	type pair struct {
		name string
		left layout.Hundredths
	}
	queues := map[kennel.Skill][]pair{}
	for _, h := range hands {
		for _, g := range h.Given {
			queues[g.Work] = append(queues[g.Work], pair{h.Hands, layout.HundredthsOf(g.Minutes)})
		}
	}
	var out []workLine
	for _, l := range lines {
		q := queues[l.work]
		for len(q) > 1 && l.time >= q[0].left {
			part := l
			part.hands, part.time = q[0].name, q[0].left
			if part.time > 0 {
				out = append(out, part)
			}
			l.time -= part.time
			q = q[1:]
		}
		queues[l.work] = q
		if l.time == 0 {
			continue
		}
		if len(q) > 0 {
			l.hands = q[0].name
			q[0].left -= l.time
		}
		out = append(out, l)
	}
	return out
}

type workloadDoc struct {
	Kennel  string        `json:"kennel"`
	On      string        `json:"on"`
	Minutes float64       `json:"minutes"`
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
	lines := workload(r)
	doc := workloadDoc{
		Kennel: r.Kennel.Name, On: r.On.String(), Lines: []workLineDoc{}, Parts: newPartsDoc(r, lines), Balance: newBalanceDoc(r),
	}
	var all layout.Hundredths
	for _, l := range lines {
		all += l.time
		doc.Lines = append(doc.Lines, workLineDoc{
			l.week.String(), l.dog, l.owner, l.area, l.duty, l.hands, l.kind, l.time.Minutes(),
		})
	}
	doc.Minutes = all.Minutes()
	return layout.JSON(w, doc)
}

// WorkloadCSV writes one row for each stretch of work.
func WorkloadCSV(w io.Writer, r optimize.Result) error {
	var rows [][]string
	for _, l := range workload(r) {
		rows = append(rows, []string{
			l.week.String(), layout.Cell(l.dog), layout.Cell(l.owner), layout.Cell(l.area), layout.Cell(l.duty), layout.Cell(l.hands), l.kind, layout.Number(l.time.Minutes(), 2),
		})
	}
	return layout.CSV(w, []string{"week", "dog", "owner", "area", "duty", "hands", "kind", "minutes"}, rows)
}
