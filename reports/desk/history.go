package desk

import (
	"net/http"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/say"
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
		p.Lines = append(p.Lines, historyRow{x.ID, momentWords(x.At, l), x.Who, say.Dates(x.What, l.today), x.Undone, x.Undoes != 0})
	}
	if line, done, err := d.opt.Book.TryUndo(r.Context()); err == nil {
		p.Undo = say.Dates(line.What, l.today)
		for _, c := range done.Changes {
			p.Would = append(p.Would, say.Dates(c.String(), l.today))
		}
	}
	d.render(w, http.StatusOK, "history", p)
	return nil
}

// momentWords say when something was, by the kennel's clock: "Mon 4 Jan 08:00". A kennel without a zone has that of the world.
func momentWords(at time.Time, l look) string {
	words := " 15:04"
	if zone, err := time.LoadLocation(l.state.Kennel.TimeZone); err == nil && l.state.Kennel.TimeZone != "" {
		at = at.In(zone)
	} else {
		at, words = at.UTC(), words+" UTC"
	}
	return say.Day(kennel.NewDate(at.Year(), at.Month(), at.Day()), l.today) + at.Format(words)
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
