package desk

import (
	"io"
	"net/http"
	"net/url"

	"tuckup/kennel"
	"tuckup/reports/html"
	"tuckup/reports/say"
)

// sheetPath is the sheet of the plan in use, to be printed.
const sheetPath = beginPath + "/sheet"

type beginPlanPage struct {
	beginPage
	Needs  []beginStep // steps without which there is no plan
	Made   bool
	Shows  []beginReady
	Cannot []beginCannot
	Worth  string
	Making bool
}

// beginReady is a dog at its next show.
type beginReady struct {
	Dog, Show, Day, Score string
	Ready                 bool
}

type beginCannot struct{ What, Why string }

func (d *Desk) beginPlan(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := beginPlanPage{beginPage: d.beginning(l, r, stepPlan), Making: l.status.Running}
	for i, done := range d.stepsDone(l) {
		if !done && (i == stepKennel || i == stepDogs) {
			p.Needs = append(p.Needs, p.Steps[i])
		}
	}
	if len(p.Needs) > 0 {
		p.Plan = planNote{}
	}
	if l.plan != nil {
		p.plan(l)
	}
	p.Refresh = l.status.Running && !p.Made
	if p.Stream = streamTo(l, beginNames[stepPlan].path); l.status.Better {
		p.Stream = "/progress?go=" + url.QueryEscape(beginNames[stepPlan].path)
	}
	d.render(w, http.StatusOK, "beginplan", p)
	return nil
}

// plan says what the plan in use comes to.
func (p *beginPlanPage) plan(l look) {
	p.Made, p.Worth = true, say.Worth(l.plan.Result)
	seen := map[string]bool{}
	for _, x := range l.plan.Readiness {
		if seen[x.Dog] {
			continue
		}
		seen[x.Dog] = true
		p.Shows = append(p.Shows, beginReady{x.Dog, x.Show, say.Day(x.On, l.today), kennel.ScoreWords(x.Score), x.Score >= kennel.ReadyScore})
	}
	for _, c := range l.plan.Cannot {
		p.Cannot = append(p.Cannot, beginCannot{c.What, c.Why})
	}
}

type beginPaperPage struct {
	beginPage
	Made  bool
	Sheet string
	LAN   bool
}

func (d *Desk) beginPaper(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := beginPaperPage{beginPage: d.beginning(l, r, stepPaper), Made: l.plan != nil, Sheet: sheetPath, LAN: d.opt.Phones != nil}
	d.render(w, http.StatusOK, "beginpaper", p)
	return nil
}

// sheet is the page to print.
func (d *Desk) sheet(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	if l.plan == nil {
		return &statusError{http.StatusNotFound, "There is no plan to print yet.", "the page Plan"}
	}
	if err := d.alone(w, func(b io.Writer) error { return html.Sheet(b, l.plan.Result) }); err != nil {
		return err
	}
	d.printed.Store(true)
	return nil
}
