package desk

import (
	"errors"
	"net/http"
	"net/url"

	"tuckup/kennel/book"
	"tuckup/reports/say"
)

type copiesPage struct {
	frame
	Copies []copyRow
	Look   *copyLook // the one that is looked into; nil = none
}

type copyRow struct {
	Name, Path string
	Here       bool // it is the one that is looked into
}

// copyLook is what a copy holds, and what going back to it would change.
type copyLook struct {
	Name  string
	Held  string // it was sent; empty = it is one of those beside the book
	Holds []string
	Would []string
}

func (d *Desk) copies(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := copiesPage{frame: d.frame(l, r, "Copies")}
	all, err := book.Copies(d.opt.Book.Path())
	if err != nil {
		return err
	}
	if id := r.URL.Query().Get("held"); id != "" {
		x, ok := d.held.get(id)
		if !ok {
			return errHeldGone
		}
		c, drop, err := book.SentCopy(x.name, x.data)
		if err != nil {
			return err
		}
		defer drop()
		in, err := c.Look(r.Context(), book.Options{Now: d.opt.Now})
		if err != nil {
			return &statusError{http.StatusUnprocessableEntity, "This is not a copy of a book that can be gone back to: " + err.Error() + ".", "a file that was saved with Copy of the book"}
		}
		p.Look = newCopyLook(in, l.state)
		p.Look.Held = id
	}
	name := r.URL.Query().Get("copy")
	for _, c := range all {
		p.Copies = append(p.Copies, copyRow{c.Name, "/copies?copy=" + url.QueryEscape(c.Name), c.Name == name})
	}
	if name != "" {
		c, err := book.FindCopy(d.opt.Book.Path(), name)
		if err != nil {
			return notFound("copy")
		}
		in, err := c.Look(r.Context(), book.Options{Now: d.opt.Now})
		if err != nil {
			return err
		}
		p.Look = newCopyLook(in, l.state)
	}
	d.render(w, http.StatusOK, "copies", p)
	return nil
}

func newCopyLook(in book.Inside, now book.State) *copyLook {
	s := in.State
	v := &copyLook{Name: in.Name, Holds: []string{
		say.Plural(len(s.Kennel.Dogs), "dog"), say.Plural(len(s.Kennel.Shows), "show"), say.Plural(len(s.Work), "line") + " of work",
		say.Plural(int(in.Version), "change"),
	}}
	for _, c := range in.Changes(now) {
		v.Would = append(v.Would, c.String())
	}
	return v
}

func (d *Desk) saveCopies(w http.ResponseWriter, r *http.Request) error {
	if isFile(r) {
		id, err := d.hold(r, LargestCopy)
		if err != nil {
			return err
		}
		lead(w, r, "/copies?held="+url.QueryEscape(id))
		return nil
	}
	f, err := readForm(r, "copies")
	if err != nil {
		return err
	}
	if f.get("do") != "restore" {
		return notFound("thing to do with a copy")
	}
	c, err := book.FindCopy(d.opt.Book.Path(), f.get("copy"))
	if id := f.get("held"); id != "" {
		x, ok := d.held.get(id)
		if !ok {
			return errHeldGone
		}
		var drop func()
		if c, drop, err = book.SentCopy(x.name, x.data); err == nil {
			defer drop()
		}
	}
	if err != nil {
		return notFound("copy")
	}
	done, err := d.opt.Book.RestoreOnce(r.Context(), f.Version, book.Once{Key: f.Key, Answer: func(done book.Done) string {
		if len(done.Changes) == 0 {
			return address(r, "/copies", "nothing")
		}
		return address(r, "/copies", "restored")
	}}, c)
	var stale *book.StaleError
	if errors.As(err, &stale) {
		return &statusError{http.StatusConflict, "The book was changed since you opened this page, so that more would be lost than it said; nothing was changed.", "the copies again"}
	}
	if err != nil {
		return err
	}
	d.changed(done)
	lead(w, r, done.Answer)
	return nil
}
