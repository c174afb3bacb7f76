package desk

import (
	"net/http"
	"time"

	"tuckup/reports/desk/guard"
)

// closedPath is the last page of a desk that is closed.
const closedPath = "/closed"

// How long a desk answers on after it was closed: until the browser has fetched its last page, with a style sheet and
// all; else until nobody comes for that page any more.
const (
	closesAfter  = time.Second
	closesAnyway = 5 * time.Second
)

// mayClose reports whether the page can close the desk: on its own machine, never on a phone.
func (d *Desk) mayClose(r *http.Request) bool {
	return d.opt.Close != nil && guard.OwnMachine(r)
}

// saveClose closes the desk.
func (d *Desk) saveClose(w http.ResponseWriter, r *http.Request) error {
	if !d.mayClose(r) {
		return notFound("page")
	}
	f, l, err := d.posted(r, "close")
	if err != nil {
		return err
	}
	if f.get("do") != "close" {
		return notFound("thing to do with the desk")
	}
	to := closedPath
	if l.status.Running {
		to += "?searching=yes"
	}
	d.closing.Store(true)
	d.opt.Close(closesAnyway)
	lead(w, r, to)
	return nil
}

// closed is the last page.
func (d *Desk) closed(w http.ResponseWriter, r *http.Request) error {
	if !d.closing.Load() {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return nil
	}
	d.render(w, http.StatusOK, "closed", struct {
		frame
		Searching bool
	}{frame{Title: "Closed", At: closedPath, Home: d.opt.Home}, r.URL.Query().Get("searching") != ""})
	d.opt.Close(closesAfter)
	return nil
}
