package desk

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"net/http"
	"path"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
)

// A list is brought in two steps: the file is read and what it would change is shown, and then it is taken or left. The first changes
// nothing, so its form has no key; what the second one takes is sent along with it.

const (
	listPath     = beginPath + "/list"
	templatePath = beginPath + "/dogs.csv"
)

// listView is the form that brings a list.
type listView struct {
	Can  bool   // lists can be read here
	Back string // the step that it is brought to
	Dogs []string
}

type beginListPage struct {
	beginPage
	File, Back string
	Wrong, Try string // why it can't be read
	Changes    []string
	Form       *form
	Text       string // of the file
	Dogs       []string
	Note       string
}

func (d *Desk) listView(l look, back string) listView {
	return listView{Can: d.opt.Bring != nil, Back: back, Dogs: namesOf(l.dogs())}
}

// stepOf is the step that an address is of, of those to which lists can be brought.
func stepOf(address string) int {
	if address == beginNames[stepShows].path {
		return stepShows
	}
	return stepDogs
}

// beginList shows what a list would change.
func (d *Desk) beginList(w http.ResponseWriter, r *http.Request) error {
	if d.opt.Bring == nil {
		return notFound("page")
	}
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	file, head, err := r.FormFile("list")
	if err != nil {
		return &statusError{http.StatusUnprocessableEntity, "No file was chosen.", "the button that chooses one, then Read it"}
	}
	defer file.Close() //nolint:errcheck // only read
	text, err := io.ReadAll(file)
	if err != nil {
		return err
	}
	return d.showList(w, r, l, newForm("list", l.version), path.Base(strings.ReplaceAll(head.Filename, `\`, "/")), string(text))
}

// showList shows a list with what it would change, or what is wrong in it.
func (d *Desk) showList(w http.ResponseWriter, r *http.Request, l look, f *form, name, text string) error {
	back := r.FormValue("back")
	p := beginListPage{
		beginPage: d.beginning(l, r, stepOf(back)), File: name, Form: f, Text: text, Dogs: r.Form["dogs"],
	}
	p.Title, p.Back = "A list", beginNames[stepOf(back)].path
	status := f.status()
	do, err := d.opt.Bring(r.Context(), File{Name: name, Data: []byte(text), Today: l.today, Dogs: p.Dogs, Chance: 1})
	if err == nil {
		var done book.Done
		done, err = d.opt.Book.Try(r.Context(), func(s *book.State) error { s.Begin(); _, err := do(s); return err })
		for _, c := range done.Changes {
			p.Changes = append(p.Changes, c.String())
		}
	}
	if err != nil {
		if r.Context().Err() != nil {
			return err
		}
		p.Wrong, p.Try, _ = strings.Cut(err.Error(), "\nTry: ")
		if in, ok := isInput(err); ok && p.Try == "" {
			p.Try = in.Try
		}
		status = http.StatusUnprocessableEntity
	}
	d.render(w, status, "beginlist", p)
	return nil
}

// takeBeginList takes a list that was shown.
func (d *Desk) takeBeginList(w http.ResponseWriter, r *http.Request) error {
	if d.opt.Bring == nil {
		return notFound("page")
	}
	f, l, err := d.posted(r, "list")
	if err != nil {
		return err
	}
	name, text := f.get("file"), r.PostForm.Get("text")
	do, err := d.opt.Bring(r.Context(), File{Name: name, Data: []byte(text), Today: l.today, Dogs: f.Values["dogs"], Chance: 1})
	if err != nil {
		return d.showList(w, r, l, f, name, text)
	}
	now, done, err := d.saved(w, r, f, edit{
		version: f.Version, about: func(s book.State) []fact { return listFacts(s.Kennel) },
		do: func(s *book.State) (string, error) { s.Begin(); return do(s) },
	}, beginNames[stepOf(f.get("back"))].path, map[string]string{})
	if err != nil || done {
		return err
	}
	f.Version = now.version
	return d.showList(w, r, now, f, name, text)
}

// listFacts are what a list may change, by name.
func listFacts(k kennel.Kennel) (all []fact) {
	for _, h := range k.Hands {
		all = append(all, fact{"hands", h.Name})
	}
	for _, x := range k.Dogs {
		all = append(all, fact{x.Name, "is in the book"})
	}
	for _, x := range k.Shows {
		all = append(all, fact{showKey(x), "is in the book"})
	}
	return all
}

// listTemplate is a table to fill in: the columns that a dog needs, and two made-up dogs.
func (d *Desk) listTemplate(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "text/csv; charset=utf-8")
	h.Set("Content-Disposition", `attachment; filename="dogs.csv"`)
	c := csv.NewWriter(w)
	weeks := func(n int) string { return l.today.AddDays(-n * kennel.DaysAWeek).String() }
	names := d.opt.Patterns.Names()
	kind := func(want string) string {
		if slices.Contains(names, want) {
			return want
		}
		return names[0]
	}
	const two, three = 104, 156 // weeks old
	for _, row := range [][]string{
		templateColumns,
		{"Example one", kind("border-terrier"), weeks(two), "", "1 " + weeks(14)},
		{"Example two", kind("wire-fox-terrier"), weeks(three), "the owner's name, or nothing", fmt.Sprintf("0.6 %s; 0.4 %s", weeks(16), weeks(6))},
	} {
		if err := c.Write(row); err != nil {
			return err
		}
	}
	c.Flush()
	return errors.Join(c.Error())
}

// templateColumns are the columns of the table: those of the kennel file that a dog needs.
var templateColumns = []string{fields.Dog.Only("name")[0].Name(), fields.Dog.Only("pattern")[0].Name(), fields.Dog.Only("born")[0].Name(), fields.Dog.Only("owner")[0].Name(), "coat"}
