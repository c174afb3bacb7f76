package desk

import (
	"bytes"
	"io"
	"mime"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/list"
)

// Papers are what is read, printed or saved of the plan in use and of the book: nothing is planned for them.

type papersPage struct {
	frame
	There    bool // there is a plan in use
	OfPlan   []paperRow
	Lists    []paperRow
	Dogs     []paperRow
	Owners   []paperRow
	Calendar string
}

// paperRow is one paper with the addresses that it is read and saved at; "" = it can't be.
type paperRow struct {
	Name, About string
	Page, Table string
}

// File reports whether the page is a file, which can be saved.
func (p paperRow) File() bool { return strings.HasPrefix(p.Page, papersPath) }

const papersPath = "/papers"

// onPlan are the papers of the plan in use, by the name of their file.
var onPlan = map[string]func(w io.Writer, x *planned, l look) error{
	"sheet.html":     func(w io.Writer, x *planned, _ look) error { return html.Sheet(w, x.Result) },
	"sheet.csv":      func(w io.Writer, x *planned, _ look) error { return reports.SheetCSV(w, x.Result) },
	"season.html":    func(w io.Writer, x *planned, l look) error { return html.Season(w, x.Result, l.records()) },
	"readiness.html": func(w io.Writer, x *planned, _ look) error { return html.Readiness(w, x.Result) },
	"readiness.csv":  func(w io.Writer, x *planned, _ look) error { return reports.ReadinessCSV(w, x.Result) },
	"workload.html":  func(w io.Writer, x *planned, _ look) error { return html.Workload(w, x.Result) },
	"workload.csv":   func(w io.Writer, x *planned, _ look) error { return reports.WorkloadCSV(w, x.Result) },
	"plan.csv":       func(w io.Writer, x *planned, _ look) error { return reports.PlanCSV(w, x.Result) },
}

// onBook are the papers of what the book holds.
var onBook = map[string]func(w io.Writer, l look) error{
	"dogs.csv":  func(w io.Writer, l look) error { return list.DogsCSV(w, l.state.Kennel) },
	"shows.csv": func(w io.Writer, l look) error { return list.ShowsCSV(w, l.state.Kennel) },
	"hours.csv": func(w io.Writer, l look) error { return list.HoursCSV(w, l.state.Kennel) },
	"work.csv": func(w io.Writer, l look) error {
		done := list.WorkDone{Day: l.today}
		for _, x := range slices.Backward(l.state.Work) {
			done.Rows = append(done.Rows, list.WorkRow{ID: x.ID, Work: x.Work})
		}
		return list.WorkCSV(w, done)
	},
}

// records are what was written down of all dogs, with the handler's own notes.
func (l look) records() html.Records {
	x := html.Records{Private: true}
	for _, w := range l.state.Work {
		x.Work = append(x.Work, w.Work)
	}
	for _, m := range l.state.Measures {
		x.Measures = append(x.Measures, m.Measure)
	}
	x.Photos = l.photos
	return x
}

func (d *Desk) paperRoutes() map[string]handler {
	return map[string]handler{
		"GET " + papersPath:                   d.papers,
		"GET " + papersPath + "/{file}":       d.paper,
		"GET " + papersPath + "/dog/{name}":   d.dogPaper,
		"GET " + papersPath + "/owner/{name}": d.ownerPaper,
		"GET " + accountPath:                  d.account,
		"GET " + letterPath:                   d.letter,
		"POST " + photosPath:                  d.savePhoto,
		"GET " + photosPath + "/{digest}":     d.photo,
	}
}

func (d *Desk) papers(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := papersPage{frame: d.frame(l, r, "Papers"), There: l.plan != nil, Lists: []paperRow{
		{Name: "Account", About: "the work done, by owner, dog and day, in minutes and money", Page: accountPath},
		{Name: "Work", About: "every line that was written down", Table: papersPath + "/work.csv"},
		{Name: "Dogs", About: "the string with its coats", Table: papersPath + "/dogs.csv"},
		{Name: "Shows", About: "with weights, days and dogs", Table: papersPath + "/shows.csv"},
		{Name: "Hours", About: "the hands with their weekdays", Table: papersPath + "/hours.csv"},
	}}
	if l.plan != nil {
		at := func(name string) string { return papersPath + "/" + name }
		p.OfPlan = []paperRow{
			{Name: "Sheet", About: "the coming days with boxes to tick, for the wall", Page: at("sheet.html"), Table: at("sheet.csv")},
			{Name: "Season", About: "all of it: what can't be met, every show, every dog, and where the figures come from", Page: at("season.html"), Table: at("plan.csv")},
			{Name: "Readiness", About: "how ready each dog is for each show", Page: at("readiness.html"), Table: at("readiness.csv")},
			{Name: "Workload", About: "the hours by week, dog, area, owner and hands", Page: at("workload.html"), Table: at("workload.csv")},
		}
		owners := map[string]bool{}
		for _, dog := range l.plan.Kennel.Dogs {
			p.Dogs = append(p.Dogs, paperRow{Name: dog.Name, Page: papersPath + "/dog/" + url.PathEscape(dog.Name)})
			if o := dog.Owner; o != "" && !owners[o] {
				owners[o] = true
				p.Owners = append(p.Owners, paperRow{Name: "Letter to " + o, Page: letterPath + "?" + url.Values{"owner": {o}}.Encode()})
				p.Owners = append(p.Owners, paperRow{Name: o, Page: papersPath + "/owner/" + url.PathEscape(o)})
			}
		}
	}
	if d.opt.CalendarKey != "" {
		p.Calendar = CalendarPath + "?key=" + url.QueryEscape(d.opt.CalendarKey)
	}
	d.render(w, http.StatusOK, "papers", p)
	return nil
}

// paper answers with a paper by the name of its file.
func (d *Desk) paper(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("file")
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	var b bytes.Buffer
	switch {
	case onBook[name] != nil:
		err = onBook[name](&b, l)
	case onPlan[name] != nil:
		var x *planned
		if x, err = d.planInUse(r); err != nil {
			return err
		}
		if l.plan == x { // of this book: it is written once for all who ask
			content, err := x.views.paper(name, func(b io.Writer) error { return onPlan[name](b, x, l) })
			if err == nil {
				d.paperOut(w, r, name, content)
			}
			return err
		}
		err = onPlan[name](&b, x, l)
	default:
		return notFound("paper")
	}
	if err != nil {
		return err
	}
	d.paperOut(w, r, name, b.Bytes())
	return nil
}

// dogPaper is the page of one dog, ownerPaper that of an owner's dogs.
func (d *Desk) dogPaper(w http.ResponseWriter, r *http.Request) error {
	return d.paperOf(w, r, "dog", func(b io.Writer, x *planned, l look, name string) error {
		if !slices.Contains(x.Kennel.DogNames(), name) {
			return notFound("dog")
		}
		return html.Dog(b, x.Result, name, l.records())
	})
}

func (d *Desk) ownerPaper(w http.ResponseWriter, r *http.Request) error {
	return d.paperOf(w, r, "owner", func(b io.Writer, x *planned, l look, name string) error {
		if !slices.ContainsFunc(x.Kennel.Dogs, func(d kennel.Dog) bool { return d.Owner == name }) {
			return notFound("owner")
		}
		return html.Owner(b, x.Result, name, l.records())
	})
}

func (d *Desk) paperOf(w http.ResponseWriter, r *http.Request, kind string, write func(io.Writer, *planned, look, string) error) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	x, err := d.planInUse(r)
	if err != nil {
		return err
	}
	name := r.PathValue("name")
	var b bytes.Buffer
	if err := write(&b, x, l, name); err != nil {
		return err
	}
	d.paperOut(w, r, kind+"-"+name+".html", b.Bytes())
	return nil
}

// paperOut answers with a file: to be read, or with "save" in the address to be kept. A page brings its own style, which the policy of
// the desk lets through by its digest alone.
func (d *Desk) paperOut(w http.ResponseWriter, r *http.Request, name string, content []byte) {
	kind, how := "text/csv; charset=utf-8", "attachment"
	if strings.HasSuffix(name, ".html") {
		kind = "text/html; charset=utf-8"
		if r.URL.Query().Get("save") == "" {
			how = "inline"
		}
		letStyle(w.Header(), content)
	}
	d.send(w, kind, mime.FormatMediaType(how, map[string]string{"filename": name}), content)
}
