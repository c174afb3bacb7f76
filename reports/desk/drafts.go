package desk

import (
	"context"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// draft is an edit that was made on a copy, to see what it would bring. Nothing is written until it is kept.
type draft struct {
	id     int
	page   string // where its form is
	form   *form
	edit   edit
	words  string // what it does
	before optimize.Result
	on     kennel.Date

	mu      sync.Mutex
	ready   chan struct{} // closed when the plan after it is made, or can't be
	after   optimize.Result
	changes *changesView
	err     error
}

// drafts are those that were made since the desk was opened; the oldest are thrown away.
type drafts struct {
	opt  Options
	ctx  context.Context
	mu   sync.Mutex
	all  []*draft
	last int
}

const mostDrafts = 20

// draftWait is how long the answer to a form waits for the plan after it. Longer and people wonder.
const draftWait = 1500 * time.Millisecond

func newDrafts(ctx context.Context, opt Options) *drafts { return &drafts{opt: opt, ctx: ctx} }

func (d *drafts) get(id int) *draft {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, x := range d.all {
		if x.id == id {
			return x
		}
	}
	return nil
}

func (d *drafts) drop(id int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for i, x := range d.all {
		if x.id == id {
			d.all = append(d.all[:i:i], d.all[i+1:]...)
			return
		}
	}
}

// begin makes a draft of an edit whose state is as it would be, and plans it in the background.
func (d *drafts) begin(page string, f *form, e edit, words string, after book.State, l look) *draft {
	x := &draft{page: page, form: f, edit: e, words: words, on: l.today, ready: make(chan struct{})}
	if l.plan != nil {
		x.before = l.plan.whole
	}
	d.mu.Lock()
	d.last++
	x.id = d.last
	d.all = append(d.all, x)
	if len(d.all) > mostDrafts {
		d.all = d.all[1:]
	}
	d.mu.Unlock()
	go func() {
		r, err := d.opt.plan(d.ctx, Wish{State: after, On: l.today, Begin: l.plan.begin(), TimeLimit: d.opt.limit(), Progress: func(_, _, _ float64) {}})
		x.mu.Lock()
		x.after, x.err = r, err
		if err == nil {
			v := newChangesView(x.before, r)
			x.changes = &v
		}
		x.mu.Unlock()
		close(x.ready)
	}()
	return x
}

// done reports whether the plan after the draft is made.
func (x *draft) done() bool {
	select {
	case <-x.ready:
		return true
	default:
		return false
	}
}

// wait waits a short time for the plan after the draft.
func (x *draft) wait(ctx context.Context) {
	ctx, stop := context.WithTimeout(ctx, draftWait)
	defer stop()
	select {
	case <-x.ready:
	case <-ctx.Done():
	}
}

// draftView is what a page says of a draft.
type draftView struct {
	ID       int
	Words    string
	Working  bool
	Changes  *changesView
	Err, Try string
	Version  int64
	Page     string
	Stream   string // tells when the plan after it is made
	At       string
}

func (x *draft) view(k kennel.Kennel) *draftView {
	v := &draftView{ID: x.id, Words: say.Dates(x.words, x.on), Version: x.edit.version, Page: x.page}
	if !x.done() {
		v.Working, v.Stream, v.At = true, fmt.Sprintf("/progress?draft=%d", x.id), draftAddress(x.page, x.id)
		return v
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	v.Changes = x.changes
	if x.err != nil {
		v.Err, v.Try = errorWords(x.err, k)
	}
	return v
}

// keep writes the draft into the book and takes the plan that was looked at with it, in one change. It returns where that leads.
func (d *Desk) keep(r *http.Request, x *draft, key string) (to string, c *conflict, err error) {
	e := x.edit
	e.key = key
	e.lands = func(book.Done) string { return address(r, x.page, "kept") }
	edit := e.do
	planned := x.done() && x.err == nil
	e.do = func(s *book.State) (string, error) {
		what, err := edit(s)
		if err == nil && planned {
			err = s.Take(x.after, x.on, e.version)
		}
		return what, err
	}
	done, c, err := d.carry(r.Context(), e)
	if err != nil || c != nil {
		return "", c, err
	}
	d.drafts.drop(x.id)
	if planned && !done.Again {
		d.plans.taken()
	}
	return done.Answer, nil, nil
}

// try makes a draft of what a form asks for, or notes in the form why it can't be.
func (d *Desk) try(ctx context.Context, page string, f *form, e edit, l look, fields map[string]string) (*draft, error) {
	words := ""
	done, err := d.opt.Book.Try(ctx, func(s *book.State) (err error) {
		words, err = e.do(s)
		return err
	})
	if err != nil {
		return nil, f.take(err, fields)
	}
	if done.Version != l.version {
		f.wrong("", "The book was changed in the meantime. Look again, and try it once more.")
		return nil, nil
	}
	if len(done.Changes) == 0 {
		f.wrong("", notes["nothing"])
		return nil, nil
	}
	e.version = l.version
	x := d.drafts.begin(page, f, e, words, done.State, l)
	x.wait(ctx)
	return x, nil
}

// save carries an edit out that a form asks for, and returns where that leads: to the page, which says so. It is empty
// when the edit can't be; the form then notes why.
func (d *Desk) save(r *http.Request, f *form, e edit, page string, fields map[string]string) (to string, err error) {
	e.key = f.Key
	e.lands = func(done book.Done) string {
		if len(done.Changes) == 0 {
			return address(r, page, "nothing")
		}
		return address(r, page, f.saidOfSaving())
	}
	done, conflict, err := d.carry(r.Context(), e)
	if err != nil {
		return "", f.take(err, fields)
	}
	f.Conflict = conflict
	return done.Answer, nil
}

// saved carries an edit out that a form asks for and leads to the page, which says so. Where the edit can't be, it returns the book as it is now,
// for the page with the form.
func (d *Desk) saved(w http.ResponseWriter, r *http.Request, f *form, e edit, page string, fields map[string]string) (now look, done bool, err error) {
	to, err := d.save(r, f, e, page, fields)
	switch {
	case err != nil:
		return look{}, false, err
	case to != "":
		lead(w, r, to)
		return look{}, true, nil
	}
	now, err = d.look(r.Context())
	return now, false, err
}

// saidOfSaving is what is said of a form that was saved: of a coat also that its layers leave a part out.
func (f *form) saidOfSaving() string {
	words, _ := f.coatWords()
	layers, err := kennel.ParseLayers(words)
	if err == nil && kennel.RestOf(layers) > 0 {
		return "rest"
	}
	return "saved"
}

func draftAddress(page string, id int) string {
	sign := "?"
	if strings.Contains(page, "?") {
		sign = "&"
	}
	return fmt.Sprintf("%s%sdraft=%d", page, sign, id)
}

// draftAsked is the draft that an address names, with its form as of the book that is looked at; nil where it names none.
func (d *Desk) draftAsked(r *http.Request, l look, try string) (*draft, *form, error) {
	id, err := strconv.Atoi(r.URL.Query().Get("draft"))
	if err != nil {
		return nil, nil, nil
	}
	x := d.drafts.get(id)
	if x == nil {
		return nil, nil, noDraft(try)
	}
	f := *x.form
	f.Version = l.version
	return x, &f, nil
}

func noDraft(try string) error {
	return &statusError{http.StatusNotFound, "That draft was kept or thrown away already.", try}
}
