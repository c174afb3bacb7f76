package desk

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"sync"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/desk/assets"
	"tuckup/reports/say"
)

//go:embed pages/*.html
var pageFiles embed.FS

// pageOf reads the template of a page, with the frame, when the page is first asked for. key gives each form of a page its own key.
type pageOf func(name string) *template.Template

func loadPages(key func() (string, error)) pageOf {
	base := template.Must(template.New("base").Funcs(template.FuncMap{
		"plain": say.Plain, "field": newField, "layerRows": layerRows, "choice": newChoice, "key": key, "percent": func(x float64) string { return fmt.Sprintf("%.0f %%", 100*x) },
		"score": kennel.ScoreWords, "share": kennel.ShareWords, "minutes": say.Minutes, "plural": say.Plural,
		"tick": func(page todayPage, t any) map[string]any { return map[string]any{"Page": page, "Task": t} },
	}).ParseFS(pageFiles, "pages/frame.html", "pages/parts.html", "pages/steps.html"))
	var (
		mu  sync.Mutex
		all = map[string]*template.Template{}
	)
	return func(name string) *template.Template {
		mu.Lock()
		defer mu.Unlock()
		if all[name] == nil {
			all[name] = template.Must(template.Must(base.Clone()).ParseFS(pageFiles, "pages/"+name+".html")) // the files are part of the program
		}
		return all[name]
	}
}

// frame is what every page has around it.
type frame struct {
	Kennel, Title string
	At            string // address of the page
	Version       int64  // of the book that is shown
	Today         kennel.Date
	Units         kennel.Units
	Menu          []menuItem
	Behind        string // what slipped, on the pages of the work; the first thing that is said
	Note          string // what was done just now
	Plan          planNote
	Stream        string // address of the progress that the page follows; empty = none
	Refresh       bool   // without a script the page looks again by itself
	Caution       string
	Locked, Try   string // why nothing can be written down, and what to try; empty = it can
	Uncopied      string // why the book could not be copied before its last change; empty = it was
	Close         bool   // the desk can be closed from this page
	MadeUp        bool   // the string is made up
	Home          string // address of the desk that a made-up string was opened from
	reader        reader
}

// whose is the reader of the page.
func (f frame) whose() reader { return f.reader }

type menuItem struct {
	Path, Name string
	Here       bool
}

// planNote is what every page says of the plan.
type planNote struct {
	None     bool // there is no plan, and none can be made yet
	Making   bool
	First    bool // there is no plan before
	Progress string
	Ready    bool   // a plan waits to be taken
	Better   string // what is said of a better plan than the one that was made in a hurry, while it is looked for and when it is ready; empty = nothing
	At       string // the page of the plan
	Since    string // what has changed since the plan in use was made, and when its days are over; empty = nothing, and they are not
	Behind   string // what slipped of it; empty = nothing
	Unread   bool   // the plan in use can't be read
	Err, Try string
	Stopped  bool
	Can      bool // there are dogs and hands to plan
}

var menu = []menuItem{
	{Path: "/", Name: "Board"},
	{Path: todayPath, Name: "Today"},
	{Path: "/week", Name: "Week"},
	{Path: "/string", Name: "String"},
	{Path: "/shows", Name: "Shows"},
	{Path: "/hours", Name: "Hours"},
	{Path: "/workload", Name: "Workload"},
	{Path: papersPath, Name: "Papers"},
	{Path: "/history", Name: "History"},
	{Path: "/plan", Name: "Plan"},
	{Path: setUpPath, Name: "Set up"},
	{Path: phonesPath, Name: "Phones"},
}

// frame is the frame of a page of the look.
func (d *Desk) frame(l look, r *http.Request, title string) frame {
	f := frame{
		Kennel: l.state.Kennel.Name, Title: title, At: r.URL.RequestURI(), Version: l.version, Today: l.today, Units: l.state.Kennel.Units, Note: noteOf(r),
		Caution: say.Caution, reader: l.reader(),
	}
	if r.Method != http.MethodGet {
		f.At = r.URL.Path
	}
	for _, m := range menu {
		if m.Path == phonesPath && d.opt.Phones == nil {
			continue
		}
		m.Here = m.Path == r.URL.Path || m.Path == "/string" && strings.HasPrefix(r.URL.Path, "/dogs/") || m.Path == todayPath && r.URL.Path == "/work" ||
			m.Path == "/history" && r.URL.Path == "/copies" || m.Path == papersPath && r.URL.Path == accountPath ||
			m.Path == setUpPath && (r.URL.Path == bringPath && r.FormValue("back") == "" || r.URL.Path == learnPath || strings.HasPrefix(r.URL.Path, patternsPath))
		f.Menu = append(f.Menu, m)
	}
	f.Plan = planNoteOf(l)
	var trouble *book.Error
	if errors.As(d.opt.Book.ReadOnly(), &trouble) {
		f.Locked, f.Try = trouble.What, trouble.Try
	}
	if err := d.uncopied.Load(); err != nil {
		f.Uncopied = (*err).Error()
	}
	f.Stream = streamOf(l.status)
	f.Close, f.MadeUp, f.Home = d.mayClose(r), d.opt.MadeUp, d.opt.Home
	return f
}

func planNoteOf(l look) planNote {
	n := planNote{
		Better: betterWords(l), At: "/plan",
		Making: l.status.Running, First: l.plan == nil, Ready: l.next != nil, Progress: progressWords(l.status), Stopped: l.status.Stopped,
	}
	n.None, n.Can = n.First && !n.Making, len(l.dogs()) > 0 && len(l.state.Kennel.Hands) > 0
	if l.plan != nil {
		n.Since, n.Behind = say.Since(l.plan.InUse, l.today), say.Slipped(l.plan.InUse, l.today)
	}
	switch n.Unread = l.unread != nil && !n.Making && !n.Ready; {
	case l.status.Err != nil:
		n.Err, n.Try = errorWords(l.status.Err, l.state.Kennel)
	case n.Unread:
		n.Err, n.Try = errorWords(l.unread, l.state.Kennel)
	}
	return n
}

// streamOf is the address of the progress for a page that says how it stands; empty = there is none. A search that nobody asked for moves no page.
func streamOf(s status) string {
	switch {
	case !s.Running:
		return ""
	case s.Better:
		return "/progress?stay=yes"
	}
	return "/progress"
}

// progressWords says how far the search is.
func progressWords(s status) string {
	switch {
	case !s.Running:
		return ""
	case s.Better:
		return lookingForBetter
	case s.Stopped:
		return "Stopping: the best plan so far is being written down."
	case !s.Begun:
		return "Looking for the first plan."
	}
	return fmt.Sprintf("After %.0f s: a plan of %.2f points is found, none can pass %.2f.", s.Seconds, s.Objective, s.Bound)
}

// render writes a page.
func (d *Desk) render(w http.ResponseWriter, status int, name string, data any) {
	var b bytes.Buffer
	if err := d.pages(name).ExecuteTemplate(&b, "frame", data); err != nil {
		d.opt.Log.Error().Err(err).Str("page", name).Msg("a page could not be written")
		http.Error(w, "Something went wrong inside; nothing was changed. Try: the same again; the terminal says more.", http.StatusInternalServerError)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	page := b.Bytes()
	if of, ok := data.(interface{ whose() reader }); ok {
		page = of.whose().page(page)
	}
	if _, err := w.Write(page); err != nil {
		d.opt.Log.Debug().Err(err).Msg("the reader has gone")
	}
}

// Assets is the part of the head that brings in style and scripts.
func (frame) Assets() template.HTML { return assets.Head() }

// LengthHint says how a length is written, in the kennel's units first.
func (f frame) LengthHint() string {
	if f.Units == kennel.UnitsInches {
		return "1.25, 1.25in or 32mm"
	}
	return "32, 32mm or 1.25in"
}
