package desk

import (
	"net/http"

	"tuckup/kennel/book"
)

type historyPage struct {
	frame
	Lines []historyRow
	More  bool
	Undo  string // what is taken back next; empty = nothing
	Would []string
	All   bool
}

type historyRow struct {
	ID              int64
	At, Who, What   string
	Undone, Undoing bool
}

// historyLines is how many changes are shown at first.
const historyLines = 50

func (d *Desk) history(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := historyPage{frame: d.frame(l, r, "History"), All: r.URL.Query().Get("all") != ""}
	n := historyLines + 1
	if p.All {
		n = 0
	}
	lines, err := d.opt.Book.History(r.Context(), n)
	if err != nil {
		return err
	}
	if p.More = !p.All && len(lines) > historyLines; p.More {
		lines = lines[:historyLines]
	}
	for _, x := range lines {
		p.Lines = append(p.Lines, historyRow{x.ID, x.At.Format("2006-01-02 15:04"), x.Who, x.What, x.Undone, x.Undoes != 0})
	}
	if line, done, err := d.opt.Book.TryUndo(r.Context()); err == nil {
		p.Undo = line.What
		for _, c := range done.Changes {
			p.Would = append(p.Would, c.String())
		}
	}
	d.render(w, http.StatusOK, "history", p)
	return nil
}

func (d *Desk) saveHistory(w http.ResponseWriter, r *http.Request) error {
	f, err := readForm(r, "undo")
	if err != nil {
		return err
	}
	if f.get("do") != "undo" {
		return notFound("thing to do with the history")
	}
	once := book.Once{Key: f.Key, Answer: func(book.Done) string { return address(r, "/history", "undone") }}
	_, done, err := d.opt.Book.UndoOnce(r.Context(), f.Version, once)
	if err != nil {
		if _, ok := err.(*book.StaleError); ok { //nolint:errorlint // it is returned as it is
			return &statusError{http.StatusConflict, "The book was changed since you opened this page, so that something else would be taken back; nothing was changed.", "the history again"}
		}
		return err
	}
	d.changed(done)
	lead(w, r, done.Answer)
	return nil
}
