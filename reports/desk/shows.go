package desk

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/reports/say"
)

type showsPage struct {
	frame
	Shows   []showRow // ahead, with dogs
	Bare    []showRow // ahead, without dogs
	Past    []showRow // the latest first
	Form    *form
	Was     string // key of the show that the form is about; empty = a new one
	Heading string
	Fields  []fieldView
	Dogs    []dogBox
	Draft   *draftView
	Advice  []adviceRow
	Advise  bool // advice can be asked for
	Asking  bool
	AskErr  string
}

type showRow struct {
	Key, Name, Day, Chance, Closes string
	Soon                           bool // entries close within two weeks
	Dogs                           []showDog
	Ago                            string // of a show that is over
	Hoped                          bool
}

// showDog is a dog at a show.
type showDog struct {
	Name, Path, Score, Range, Cure string
	NotDone                        string // duties before it that find no time
	Bad                            bool   // it is expected to be out of coat
	Why                            string // it is
}

type dogBox struct {
	Name, ID string
	On       bool
}

type adviceRow struct{ Show, Dog, Day, Closes, Advice, Reason, Score, Range string }

// soonDays is how many days before entries close a show is told apart.
const soonDays = 14

// showKey names a show of the book: its first day and its name.
func showKey(s kennel.Show) string { return s.On.String() + " " + s.Name }

func showByKey(k kennel.Kennel, key string) (int, bool) {
	i := slices.IndexFunc(k.Shows, func(s kennel.Show) bool { return showKey(s) == key })
	return i, i >= 0
}

func (d *Desk) shows(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	q := r.URL.Query()
	if x, f, err := d.draftAsked(r, l, "the list of shows"); x != nil || err != nil {
		if err == nil {
			d.renderShows(w, r, l, f, x)
		}
		return err
	}
	f := newForm("show", l.version)
	if key := q.Get("show"); key != "" {
		i, ok := showByKey(l.state.Kennel, key)
		if !ok {
			return notFound("show")
		}
		f.fillShow(l.state.Kennel.Shows[i])
		f.set("was", key)
	} else {
		f.fillShow(kennel.UsualShow())
	}
	d.renderShows(w, r, l, f, nil)
	return nil
}

func (d *Desk) renderShows(w http.ResponseWriter, r *http.Request, l look, f *form, x *draft) {
	p := showsPage{frame: d.frame(l, r, "Shows"), Form: f, Was: f.get("was"), Heading: "Add a show"}
	if p.Was != "" {
		p.Heading = "Change " + strings.TrimSpace(p.Was[min(len(p.Was), len("2027-03-20")):])
	}
	p.list(l)
	for i, dog := range l.dogs() {
		p.Dogs = append(p.Dogs, dogBox{dog.Name, fmt.Sprintf("%s-dog-%d", f.ID, i+1), slices.Contains(f.Values["dogs"], dog.Name)})
	}
	p.Fields = fieldViews(f, formFields(fields.Show))
	if x != nil {
		p.Draft = x.view(l.state.Kennel)
		p.Refresh = p.Draft.Working
	}
	p.advice(d, l)
	d.render(w, f.status(), "shows", p)
}

// list lists all shows of the book: each where it is looked for.
func (p *showsPage) list(l look) {
	for _, s := range l.state.Kennel.Shows {
		row, odd := showRowOf(l, s), s.Odd(l.today)
		switch {
		case odd.Past:
			row.Ago = odd.Ago()
			p.Past = append(p.Past, row)
		case odd.NoDogs:
			p.Bare = append(p.Bare, row)
		default:
			p.Shows = append(p.Shows, row)
		}
	}
	byDay := func(a, b showRow) int { return strings.Compare(a.Key, b.Key) }
	slices.SortStableFunc(p.Shows, byDay)
	slices.SortStableFunc(p.Bare, byDay)
	slices.SortStableFunc(p.Past, func(a, b showRow) int { return byDay(b, a) })
}

func showRowOf(l look, s kennel.Show) showRow {
	row := showRow{
		Key: showKey(s), Name: s.Name, Day: say.Day(s.On, l.today), Chance: say.Chance(s.Chance), Hoped: !s.Entered(),
	}
	if s.EntriesClose != 0 {
		row.Closes = say.Day(s.EntriesClose, l.today)
		switch days := int(s.EntriesClose - l.today); {
		case days < 0:
			row.Closes = "closed " + row.Closes
		case days <= soonDays:
			row.Soon = true
			row.Closes += ", in " + say.Plural(days, "day")
		}
	}
	for _, dog := range s.Dogs {
		v := showDog{Name: dog, Path: dogPath(dog)}
		if l.plan != nil {
			for _, x := range l.plan.Readiness {
				if x.Dog == dog && x.Show == s.Name && x.On == s.On {
					v.Score, v.Range, v.Cure, v.NotDone = kennel.ScoreWords(x.Score), say.Range(x), say.Cure(x.Cure, l.today), say.NotDone(x)
					if v.Bad = notReady(x); v.Bad {
						v.Why = whyNotMet(l.plan.Result, x)
						v.Cure = "" // the reason says it
					}
				}
			}
		}
		row.Dogs = append(row.Dogs, v)
	}
	return row
}

func (d *Desk) saveShows(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "show")
	if err != nil {
		return err
	}
	switch f.get("do") {
	case "keep", "discard":
		return d.endDraft(w, r, l, f)
	case "advise":
		d.advice.ask(d, l)
		back(w, r, "/shows#advice", "")
		return nil
	}
	if f.get("do") == "try-leave" {
		if f, err = f.leaving(l); err != nil {
			return err
		}
	}
	f.asMeant(l.today)
	e, ok := f.showEdit(l)
	if !ok {
		f.Version = l.version
		d.renderShows(w, r, l, f, nil)
		return nil
	}
	if do := f.get("do"); do == "save" || do == doPast {
		to, err := d.save(r, f, e, "/shows", showFields)
		if err != nil {
			return err
		}
		if to != "" {
			lead(w, r, to)
			return nil
		}
	} else {
		x, err := d.try(r.Context(), "/shows", f, e, l, showFields)
		if err != nil {
			return err
		}
		if x != nil {
			back(w, r, draftAddress("/shows", x.id)+"#draft", "")
			return nil
		}
	}
	if l, err = d.look(r.Context()); err != nil {
		return err
	}
	f.Version = l.version
	d.renderShows(w, r, l, f, nil)
	return nil
}

// endDraft keeps a draft or throws it away.
func (d *Desk) endDraft(w http.ResponseWriter, r *http.Request, l look, f *form) error {
	id, err := strconv.Atoi(f.get("draft"))
	if err != nil {
		return notFound("draft")
	}
	x := d.drafts.get(id)
	if x == nil {
		return noDraft("the page again")
	}
	if f.get("do") == "discard" {
		d.drafts.drop(id)
		back(w, r, x.page, "gone")
		return nil
	}
	to, conflict, err := d.keep(r, x, f.Key)
	if err != nil {
		return err
	}
	if conflict == nil {
		lead(w, r, to)
		return nil
	}
	typed := *x.form
	typed.Conflict = conflict
	typed.Version = l.version
	d.drafts.drop(id)
	return d.showAgain(w, r, x.page, l, &typed)
}

// showAgain shows the page that a form belongs to with the form in it.
func (d *Desk) showAgain(w http.ResponseWriter, r *http.Request, page string, l look, f *form) error {
	path, _, _ := strings.Cut(page, "?")
	switch path {
	case "/week":
		return d.renderWeek(w, r, l, f, nil)
	case "/shows":
		d.renderShows(w, r, l, f, nil)
	case "/hours":
		d.renderHours(w, r, l, f, nil)
	default:
		return notFound("page")
	}
	return nil
}
