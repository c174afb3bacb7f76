package reports

import (
	"fmt"
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

func balanceText(p *layout.Page, r optimize.Result) {
	b := optimize.BalanceOf(r)
	p.Heading("BALANCE", "each dog's share of the hours beside its share of the need")
	if len(b.Dogs) == 0 {
		p.Say(2, "", "There is no dog.")
		return
	}
	t := layout.Table{Right: map[int]bool{1: true, 2: true, 3: true, 4: true, 5: true}}
	t.Add("", "hours", "share", "need", "share", "ready", "")
	for _, s := range b.Dogs {
		t.Add(say.Plain(s.Dog), fmt.Sprintf("%.2f", float64(s.Planned)), say.Percent(s.PartOfHours), fmt.Sprintf("%.2f", float64(s.Need)),
			say.Percent(s.PartOfNeed), kennel.ScoreWords(s.Score), shownWords(s))
	}
	p.Table(2, t)
	p.Say(2, "", "Served worst: %s; %s.", say.Plain(b.Worst), say.Plain(b.Why))
	p.Say(2, "", "%s", say.Need)
}

func shownWords(s optimize.Served) string {
	if s.Shown {
		return "at its shows"
	}
	return "over the weeks, for no show"
}

type balanceDoc struct {
	Dogs  []servedDoc `json:"dogs"`
	Worst string      `json:"worst"`
	Why   string      `json:"why"`
}

type servedDoc struct {
	Dog         string  `json:"dog"`
	Minutes     float64 `json:"minutes"`
	Need        float64 `json:"need"`
	PartOfHours float64 `json:"part_of_hours"`
	PartOfNeed  float64 `json:"part_of_need"`
	Score       float64 `json:"score"`
	Shown       bool    `json:"shown"`
}

func newBalanceDoc(r optimize.Result) balanceDoc {
	b := optimize.BalanceOf(r)
	doc := balanceDoc{Dogs: []servedDoc{}, Worst: b.Worst, Why: b.Why}
	for _, s := range b.Dogs {
		doc.Dogs = append(doc.Dogs, servedDoc{
			s.Dog, layout.Rounded(float64(s.Planned)*kennel.MinutesAnHour, 2), layout.Rounded(float64(s.Need)*kennel.MinutesAnHour, 2),
			layout.Rounded(s.PartOfHours, layout.ShareDecimals), layout.Rounded(s.PartOfNeed, layout.ShareDecimals), layout.Points(s.Score), s.Shown,
		})
	}
	return doc
}

func balanceCSV(w io.Writer, r optimize.Result) error {
	doc := newBalanceDoc(r)
	var rows [][]string
	for _, s := range doc.Dogs {
		why := ""
		if s.Dog == doc.Worst {
			why = doc.Why
		}
		rows = append(rows, []string{
			layout.Cell(s.Dog), layout.Number(s.Minutes, 2), layout.Number(s.Need, 2), layout.Number(s.PartOfHours, layout.ShareDecimals),
			layout.Number(s.PartOfNeed, layout.ShareDecimals), layout.Number(s.Score, layout.ScoreDecimals), yesNo(s.Shown), layout.Cell(why),
		})
	}
	return layout.CSV(w, []string{"dog", "minutes", "need", "part_of_hours", "part_of_need", "score", "shown", "served_worst_because"}, rows)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
