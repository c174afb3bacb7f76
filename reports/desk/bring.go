package desk

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

const bringPath = "/bring"

// File is a file that somebody brings, and how it is to be read.
type File struct {
	Name  string // its ending says what it is: a kennel file, a table (.csv) or a calendar (.ics)
	Data  []byte
	Today kennel.Date
	// Separator is the sign between the cells of a table: , ; or a tab; "" = the one that its first line has most often.
	Separator string
	// Dates is the order in the dates of a table that could be two days: "day" or "month" first; "" = they are refused.
	Dates   string
	Replace bool     // a kennel file takes the place of all that the book holds of the kennel
	Dogs    []string // that new shows of a table or a calendar are for
	Chance  float64  // that new shows are entered, above 0 to 1
}

// Brought lays what was read over the book and says in words what it did.
type Brought func(*book.State) (what string, err error)

const bringTitle = "Bring a list"

type bringPage struct {
	beginPage // without steps where it is not one of them that the file is brought to
	List      listView
	Form      *form
	Held      string // the file that is looked at; empty = none
	Name      string
	Table     bool // its separator and dates matter
	Whole     bool // it may replace all
	Shows     bool // its shows may have dogs and a chance
	Dogs      []broughtBox
	Changes   []string
	Wrong     string
}

type broughtBox struct {
	Name   string
	Chosen bool
}

func (d *Desk) bring(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("bring", l.version)
	f.Values = r.URL.Query()
	return d.renderBring(w, r, l, f)
}

// renderBring shows what a file would change, read as the form says.
func (d *Desk) renderBring(w http.ResponseWriter, r *http.Request, l look, f *form) error {
	p := bringPage{beginPage: beginPage{frame: d.frame(l, r, bringTitle)}, Form: f, List: listView{Can: true}}
	if step, ok := stepOf(f.get("back")); ok {
		p.beginPage, p.List = d.beginning(l, r, step), d.listView(l, f.get("back"))
		p.Title = bringTitle
	}
	if !f.Values.Has("dates") { // to begin with, the reader's own
		f.set("dates", map[kennel.DateOrder]string{kennel.DayFirst: "day", kennel.MonthFirst: "month"}[l.state.Kennel.Dates])
	}
	x, ok := d.held.get(f.get("held"))
	if !ok && f.get("held") != "" {
		return errHeldGone
	}
	if ok {
		p.Held, p.Name, p.List.More = x.id, x.name, true
		calendar := ending(x.name) == ".ics"
		p.Table = ending(x.name) == ".csv"
		p.Whole = !p.Table && !calendar && len(l.state.Kennel.Dogs) > 0
		for _, dog := range l.dogs() {
			p.Dogs = append(p.Dogs, broughtBox{dog.Name, slices.Contains(f.Values["dogs"], dog.Name)})
		}
		done, err := d.tryBring(r.Context(), l, f, x)
		var in *kennel.InputError
		switch {
		case errors.As(err, &in):
			what, try := errorWords(err, l.state.Kennel)
			if in.Line > 0 { // which names the thing; those of the book are others
				there := *in
				there.Field = in.Field[strings.LastIndex(in.Field, ".")+1:]
				what, try = "Line "+kennel.Number(float64(in.Line))+": "+inputWords(&there), in.Try
			}
			p.Wrong = what + ". Try: " + try
			f.wrong("", p.Wrong)
		case err != nil:
			return err
		}
		p.Shows = calendar || f.Errors["chance"] != ""
		for _, c := range done.Changes {
			p.Changes = append(p.Changes, c.String())
			p.Shows = p.Shows || p.Table && c.Kind == book.DifferenceNew && strings.HasPrefix(c.Thing, "show ")
		}
	}
	d.render(w, f.status(), "bring", p)
	return nil
}

// tryBring reads a file and says what it would change.
func (d *Desk) tryBring(ctx context.Context, l look, f *form, x held) (book.Done, error) {
	lay, err := d.read(ctx, l, f, x)
	if err != nil || f.Bad() {
		return book.Done{}, err
	}
	return d.opt.Book.Try(ctx, func(s *book.State) error { _, err := lay(s); return err })
}

// read reads a file as the form says.
func (d *Desk) read(ctx context.Context, l look, f *form, x held) (Brought, error) {
	if d.opt.Bring == nil {
		return nil, notFound("page")
	}
	file := File{
		Name: x.name, Data: x.data, Today: l.today, Separator: map[string]string{"comma": ",", "semicolon": ";", "tab": "\t"}[f.get("separator")],
		Dates: f.get("dates"), Replace: f.get("replace") != "", Dogs: f.Values["dogs"], Chance: 1,
	}
	if said := f.get("chance"); said != "" {
		chance, err := kennel.ParseChance(said)
		if file.Chance = parsed(f, "chance", chance, err); file.Chance == 0 && err == nil {
			f.wrong("chance", "must be above 0: a show that is not entered need not be brought")
		}
	}
	if f.Bad() {
		return func(*book.State) (string, error) { return "", nil }, nil
	}
	return d.opt.Bring(ctx, file)
}

func (d *Desk) saveBring(w http.ResponseWriter, r *http.Request) error {
	if isFile(r) {
		id, err := d.hold(r, LargestFile)
		if err != nil {
			return err
		}
		to := url.Values{"held": {id}}
		if _, ok := stepOf(r.PostForm.Get("back")); ok {
			to["back"], to["dogs"] = r.PostForm["back"], r.PostForm["dogs"]
		}
		lead(w, r, bringPath+"?"+to.Encode())
		return nil
	}
	f, l, err := d.posted(r, "bring")
	if err != nil {
		return err
	}
	to := bringPath
	if _, ok := stepOf(f.get("back")); ok {
		to = f.get("back")
	}
	x, ok := d.held.get(f.get("held"))
	switch {
	case !ok:
		return errHeldGone
	case f.get("do") == "throw away":
		d.held.drop(x.id)
		back(w, r, to, "gone")
		return nil
	}
	lay, err := d.read(r.Context(), l, f, x)
	if _, is := isInput(err); err != nil && !is {
		return err
	}
	if err != nil || f.Bad() || f.get("do") != "take" {
		f.Version = l.version
		return d.renderBring(w, r, l, f)
	}
	done, err := d.opt.Book.CarryOnce(r.Context(), f.Version, book.Once{Key: f.Key, Answer: func(done book.Done) string {
		if len(done.Changes) == 0 {
			return address(r, to, "nothing")
		}
		return address(r, to, "brought")
	}}, lay)
	var stale *book.StaleError
	if errors.As(err, &stale) {
		f.wrong("", "The book was changed since you looked at what this file changes; nothing was taken. Look again below, then take it.")
		f.Version = l.version
		return d.renderBring(w, r, l, f)
	}
	if err != nil {
		return err
	}
	d.changed(done)
	d.held.drop(x.id)
	lead(w, r, done.Answer)
	return nil
}

// ending is what a file's name ends with, in small letters.
func ending(name string) string { return strings.ToLower(path.Ext(name)) }

// Separators are the signs that may be between the cells.
func (bringPage) Separators() []option {
	return []option{{Value: "", Words: "as the first line shows"}, {Value: "comma", Words: "comma ,"}, {Value: "semicolon", Words: "semicolon ;"}, {Value: "tab", Words: "tab"}}
}

// DateOrders are the orders that dates of numbers may have.
func (bringPage) DateOrders() []option {
	return []option{
		{Value: "", Words: "in one clear way, like 2027-03-20"}, {Value: "day", Words: "day first: 20/03/2027"}, {Value: "month", Words: "month first: 03/20/2027"},
	}
}
