package desk

import (
	"net/http"
	"strconv"
	"strings"

	"tuckup/reports/desk/guard"
)

// progress tells how planning stands, as server-sent events, until there is nothing to tell any more. With go=PAGE the page
// is opened again at the end, with stay=yes it stays as it is.
func (d *Desk) progress(w http.ResponseWriter, r *http.Request) error {
	page := r.URL.Query().Get("go")
	if !strings.HasPrefix(page, "/") || strings.HasPrefix(page, "//") || strings.Contains(page, `\`) {
		page = ""
	}
	s, err := guard.OpenStream(w, r)
	if err != nil {
		return err
	}
	if id, err := strconv.Atoi(r.URL.Query().Get("draft")); err == nil {
		if x := d.drafts.get(id); x != nil {
			select {
			case <-x.ready:
				return ignore(s.Send("go", draftAddress(x.page, id)))
			case <-s.Done():
			}
		}
		return nil
	}
	for better := false; ; {
		next, stand, changed := d.plans.follow()
		better = better || stand.Better
		if err := tellProgress(s, stand, next != nil, better); err != nil {
			return nil //nolint:nilerr // the reader has gone
		}
		if !stand.Running {
			switch {
			case page != "":
				return ignore(s.Send("go", page))
			case r.URL.Query().Get("stay") != "":
				return ignore(s.Send("over", ""))
			}
			return ignore(s.Send("end", ""))
		}
		select {
		case <-changed:
		case <-s.Done():
			return nil
		}
	}
}

// ignore is for what is told to a reader who may have gone.
func ignore(error) error { return nil }

func tellProgress(s *guard.Stream, stand status, ready, better bool) error {
	words := progressWords(stand)
	switch {
	case stand.Running:
	case stand.Err != nil:
		words = "No plan could be made."
	case ready && better:
		words = "A better plan is ready."
	case ready:
		words = "It is ready."
	case better:
		words = "No plan was found that is much better than this one."
	default:
		words = "There is a plan."
	}
	objective, bound, seconds := figures(stand)
	for _, e := range []struct{ name, data string }{
		{"progress", words}, {"plan", objective}, {"bound", bound}, {"seconds", seconds}, {"share", strconv.Itoa(percentOf(stand))},
	} {
		if e.data == "" {
			continue
		}
		if err := s.Send(e.name, e.data); err != nil {
			return err
		}
	}
	return nil
}
