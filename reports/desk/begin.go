package desk

import (
	"context"
	"net/http"

	"tuckup/kennel/book"
)

// The first steps lead from an empty book to a sheet on the wall. Each is one page of plain forms, writes what it asks
// into the book at once, and can be left and come back to: which steps are done is seen from the book alone.

const beginPath = "/begin"

// beginStep is a step as the side of the pages shows it.
type beginStep struct {
	Path, Name, Says string
	Here, Done       bool
}

// beginPage is what every page of the first steps has.
type beginPage struct {
	frame
	Steps  []beginStep
	Number int    // of the step, from 1
	Sample string // address that opens the made-up string; empty = it can't be opened from here
}

const (
	stepKennel = iota
	stepDogs
	stepShows
	stepPlan
	stepPaper
)

var beginNames = [...]struct{ path, name, says string }{
	stepKennel: {beginPath + "/kennel", "Kennel", "its name, and your hours"},
	stepDogs:   {beginPath + "/dogs", "Dogs", "a list, or one by one"},
	stepShows:  {beginPath + "/shows", "Shows", "if you know any yet"},
	stepPlan:   {beginPath + "/plan", "Plan", "made for you"},
	stepPaper:  {beginPath + "/paper", "Paper", "the sheet for the wall"},
}

// stepsDone are the steps that need not be done any more.
func (d *Desk) stepsDone(l look) (done [len(beginNames)]bool) {
	k := l.state.Kennel
	done[stepKennel] = len(k.Hands) > 0
	done[stepDogs] = len(l.dogs()) > 0
	done[stepShows] = len(k.Shows) > 0
	done[stepPlan] = l.plan != nil
	done[stepPaper] = d.printed.Load()
	return done
}

// beginning is the frame of a page of the first steps.
func (d *Desk) beginning(l look, r *http.Request, step int) beginPage {
	p := beginPage{frame: d.frame(l, r, beginNames[step].name), Number: step + 1}
	switch {
	case step == stepPaper && p.Plan.Better != "": // who prints may want the better one
		p.Plan.At = beginNames[stepPlan].path
	case step != stepPlan:
		p.Plan, p.Stream = planNote{}, "" // what there is to do now is on the page
	}
	for i, done := range d.stepsDone(l) {
		s := beginNames[i]
		p.Steps = append(p.Steps, beginStep{Path: s.path, Name: s.name, Says: s.says, Here: i == step, Done: done})
	}
	if d.maySample(r) {
		p.Sample = samplePath
	}
	return p
}

// fresh reports whether a book holds so little that its pages have nothing to show.
func fresh(s book.State) bool {
	return len(s.Kennel.Dogs) == 0 && len(s.Kennel.Shows) == 0 && s.Plan.Result == nil
}

// orBegin shows a page, but leads to the first steps where the book is empty.
func (d *Desk) orBegin(page handler) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if r.URL.RawQuery == "" {
			s, _, err := d.shelf.read(r.Context(), d.opt.Book)
			if err != nil {
				return err
			}
			if fresh(s) {
				http.Redirect(w, r, beginPath, http.StatusSeeOther)
				return nil
			}
		}
		return page(w, r)
	}
}

// begin leads to the first step that is not done.
func (d *Desk) begin(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	to := beginNames[stepPaper].path
	for i, done := range d.stepsDone(l) {
		if !done {
			to = beginNames[i].path
			break
		}
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}

type unplannedKey struct{}

// unplanned carries a request out without beginning the first plan: dogs and shows are still to come.
func unplanned(page handler) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		return page(w, r.WithContext(context.WithValue(r.Context(), unplannedKey{}, true)))
	}
}

// beginRoutes are the pages of the first steps.
func (d *Desk) beginRoutes() map[string]handler {
	return map[string]handler{
		"GET " + beginPath:                    unplanned(d.begin),
		"GET " + beginNames[stepKennel].path:  unplanned(d.beginKennel),
		"POST " + beginNames[stepKennel].path: unplanned(d.saveBeginKennel),
		"GET " + beginNames[stepDogs].path:    unplanned(d.beginDogs),
		"POST " + beginNames[stepDogs].path:   unplanned(d.saveBeginDogs),
		"GET " + beginNames[stepShows].path:   unplanned(d.beginShows),
		"POST " + beginNames[stepShows].path:  unplanned(d.saveBeginShows),
		"GET " + listPath:                     d.wasList,
		"POST " + listPath:                    d.wasList,
		"GET " + templatePath:                 d.listTemplate,
		"GET " + beginNames[stepPlan].path:    d.beginPlan,
		"GET " + beginNames[stepPaper].path:   d.beginPaper,
		"GET " + sheetPath:                    d.sheet,
		"GET " + samplePath:                   d.sample,
	}
}
