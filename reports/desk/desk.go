// Package desk is the local page of a book: the sheet of the day on a phone at the table, and the week, the string, the
// shows, the hours and the history on the laptop. It works on a book and is handed everything that has a clock or plans.
// Who may ask is for package guard, which stands before it.
package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/http"
	"runtime/debug"
	"strings"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/optimize/learn"
	"tuckup/reports"
	"tuckup/reports/desk/assets"
	"tuckup/reports/desk/guard"
)

// Options are what a desk works with. All but Advise, TimeLimit, CalendarKey, Phones, Close, Bring, Export, Learn, Settings, SetSettings, Terms, Sample, MadeUp and Home must be given.
type Options struct {
	Book     *book.Book
	Patterns kennel.Patterns
	Now      func() time.Time
	// Random gives bytes that nobody can foresee, also to several goroutines at once: crypto/rand.Reader.
	Random io.Reader
	// Today is the first day to plan of the kennel.
	Today func(kennel.Kennel) (kennel.Date, error)
	// Plan makes a plan; an ended context ends the search, and what was found by then is the plan.
	Plan func(context.Context, Wish) (optimize.Result, error)
	// TimeLimit is how long any plan may take now, in seconds; 0 = as long as it takes. The first plan of a book is given less. nil = no limit.
	TimeLimit func() float64
	// Seen is a plan that was taken as it is seen with a book on a day. Nothing is planned.
	Seen func(optimize.Result, Wish) optimize.Result
	// Advise says what to enter; nil = there is no advice.
	Advise func(context.Context, Wish) ([]optimize.Entry, error)
	Log    zerolog.Logger
	// Bring reads a file that somebody brings. The error of what is wrong in it is a *kennel.InputError, or says "\nTry: " what. nil = no file can be brought.
	Bring func(context.Context, File) (Brought, error)
	// Export writes what a book holds of the kennel as a kennel file; nil = it can't be written.
	Export func(book.State) ([]byte, error)
	// Learn is what the records up to a day tell of each dog's growth and pace, and of sessions that were missed; nil = nothing is learned.
	Learn func(book.State, kennel.Date) ([]learn.Dog, learn.Estimate, error)
	// Settings are the settings of plans with their ranges, and where each came from.
	Settings func() ([]reports.SettingRow, error)
	// SetSettings writes settings down, "" for the default of one, and from then on plans are made with them; what is wrong with
	// one is returned by its key, and then nothing is changed. nil = no page can change them.
	SetSettings func(given map[string]string) (wrong map[string]string, err error)
	// Terms are how an account counts and rounds work by the settings; nil = as it was written down.
	Terms func() reports.Terms
	// CalendarKey is part of the calendar's address; "" = there is no calendar.
	CalendarKey string
	// Phones are the machines that were paired; nil = no other machine may ask.
	Phones Phones
	// Close ends the desk after a time; when it is called again, whichever comes first. nil = no page can close it.
	Close func(after time.Duration)
	// Sample opens a made-up string on this machine and returns the address of its desk; open already, it returns that. nil = there is none.
	Sample func(context.Context) (address string, err error)
	// MadeUp says that the book holds a made-up string. Home is then the address of the desk that it was opened from; "" = from none.
	MadeUp bool
	Home   string
}

// Phones are the other machines that may ask the desk. A guard is one.
type Phones interface {
	Phones() []guard.Phone
	EndPhone(id int) bool
}

// Wish is a plan that is asked for.
type Wish struct {
	State     book.State
	On        kennel.Date
	Begin     *optimize.Result // the plan in use, which the search begins with; nil = plan afresh
	TimeLimit float64          // of the search, in seconds; 0 = none
	Progress  func(objective, bound, seconds float64)
}

// Desk answers the requests of browsers. Its methods may be called from several goroutines.
type Desk struct {
	opt    Options
	mux    *http.ServeMux
	pages  pageOf
	posts  posts
	plans  *planner
	drafts *drafts
	advice advice
	shelf  shelf
	inUse  inUse
	held   heldFiles
	cal    published
	stop   context.CancelFunc

	closing  atomic.Bool           // somebody closed the desk
	printed  atomic.Bool           // the sheet was fetched to be printed
	uncopied atomic.Pointer[error] // why the book could not be copied before its last change; nil = it was
}

// New is a desk on the book. Close ends what it does in the background.
func New(opt Options) (*Desk, error) {
	if opt.Book == nil || opt.Now == nil || opt.Random == nil || opt.Today == nil || opt.Plan == nil || opt.Seen == nil {
		return nil, errors.New("desk: Book, Now, Random, Today, Plan and Seen must be given")
	}
	ctx, stop := context.WithCancel(context.Background())
	d := &Desk{opt: opt, mux: http.NewServeMux(), stop: stop}
	d.pages = loadPages(d.newKey)
	d.plans = newPlanner(ctx, opt, d.takeFirst)
	d.drafts = newDrafts(ctx, opt)
	d.routes()
	d.plans.all.Go(func() { // the first plan of a book is begun before anybody asks
		if _, err := d.look(ctx); err != nil {
			d.opt.Log.Warn().Err(err).Msg("the book could not be read")
		}
	})
	return d, nil
}

// Close ends planning and drafts. What was saved stands in the book.
func (d *Desk) Close() {
	d.stop()
	d.plans.wait()
}

func (d *Desk) ServeHTTP(w http.ResponseWriter, r *http.Request) { d.mux.ServeHTTP(w, r) }

// handler answers a request; its error is told in a page.
type handler func(http.ResponseWriter, *http.Request) error

func (d *Desk) routes() {
	d.mux.Handle("GET "+assets.Prefix, assets.Handler())
	d.mux.Handle("GET "+assets.WorkerPath, assets.Worker())
	pages := map[string]handler{
		"GET /{$}":          d.orBegin(d.board),
		"GET /today":        d.today,
		"GET /work":         d.work,
		"POST /work":        d.saveWork,
		"GET /week":         d.week,
		"POST /week":        d.saveWeek,
		"GET /string":       d.stringPage,
		"POST /string":      d.saveString,
		"GET /dogs/{name}":  d.dog,
		"POST /dogs/{name}": d.saveDog,
		"GET /home/{name}":  d.home,
		"GET /shows":        d.shows,
		"POST /shows":       d.saveShows,
		"GET /hours":        d.hours,
		"POST /hours":       d.saveHours,
		"GET /workload":     d.workload,
		"GET /workload.csv": d.workloadCSV,
		"GET /calendar.ics": d.calendar,
		"GET /history":      d.history,
		"POST /history":     d.saveHistory,
		"GET /phones":       d.phones,
		"POST /phones":      d.savePhones,
		"GET /copies":       d.copies,
		"POST /copies":      d.saveCopies,
		"GET /plan":         d.plan,
		"POST /plan":        d.savePlan,
		"GET /progress":     d.progress,
		"POST /close":       d.saveClose,
		"GET " + closedPath: d.closed,
		"/":                 func(http.ResponseWriter, *http.Request) error { return notFound("page") },
	}
	maps.Copy(pages, d.beginRoutes())
	maps.Copy(pages, d.helpRoutes())
	maps.Copy(pages, d.paperRoutes())
	maps.Copy(pages, d.setUpRoutes())
	for pattern, serve := range pages {
		if strings.HasPrefix(pattern, http.MethodPost) {
			serve = d.once(serve)
		}
		d.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
			if err := serve(w, r); err != nil {
				d.fail(w, r, err)
			}
		})
	}
}

// changed notes of a change whether the book before it could be copied.
func (d *Desk) changed(done book.Done) {
	if done.Again {
		return // nothing was changed now
	}
	if done.Uncopied == nil {
		d.uncopied.Store(nil)
		return
	}
	d.opt.Log.Warn().Err(done.Uncopied).Msg("the change is made, but the book before it could not be copied")
	d.uncopied.Store(&done.Uncopied)
}

// terms are how an account counts and rounds work.
func (d *Desk) terms() reports.Terms {
	if d.opt.Terms == nil {
		return reports.Terms{}
	}
	return d.opt.Terms()
}

// plan makes a plan; what goes wrong inside is told as an error, and in full to the log.
func (o Options) plan(ctx context.Context, w Wish) (r optimize.Result, err error) {
	defer o.inside(&err)
	return o.Plan(ctx, w)
}

// limit is how long any plan may take, in seconds; 0 = as long as it takes.
func (o Options) limit() float64 {
	if o.TimeLimit == nil {
		return 0
	}
	return o.TimeLimit()
}

// advise says what to enter, like plan.
func (o Options) advise(ctx context.Context, w Wish) (all []optimize.Entry, err error) {
	defer o.inside(&err)
	return o.Advise(ctx, w)
}

// inside turns a panic into an error.
func (o Options) inside(err *error) {
	if p := recover(); p != nil {
		o.Log.Error().Str("at", string(debug.Stack())).Msg(fmt.Sprint(p))
		*err = errors.New("something went wrong inside, the terminal says more; nothing was changed")
	}
}

// statusError is an answer with a status other than 200 and a sentence.
type statusError struct {
	status    int
	what, try string
}

func (e *statusError) Error() string { return e.what }

func notFound(what string) error {
	return &statusError{http.StatusNotFound, "There is no such " + what + ".", "the menu above"}
}

// fail answers with a page that says what is wrong.
func (d *Desk) fail(w http.ResponseWriter, r *http.Request, err error) {
	var (
		said    *statusError
		trouble *book.Error
		input   *kennel.InputError
	)
	switch {
	case errors.As(err, &said):
	case errors.As(err, &trouble):
		said = &statusError{http.StatusServiceUnavailable, trouble.What + ".", trouble.Try}
		if trouble.Trouble == book.TroubleNothing {
			said.status = http.StatusUnprocessableEntity
		}
	case errors.As(err, &input):
		said = &statusError{http.StatusUnprocessableEntity, inputWords(input), input.Try}
	case r.Context().Err() != nil:
		return // nobody reads the answer
	default:
		d.opt.Log.Error().Err(err).Str("page", r.URL.Path).Msg("a page could not be made")
		said = &statusError{http.StatusInternalServerError, "Something went wrong inside; nothing was changed.", "the same again; the terminal says more"}
	}
	page := struct {
		frame
		What, Try string
	}{frame{Title: http.StatusText(said.status), At: r.URL.Path}, said.what, said.try}
	if l, err := d.look(r.Context()); err == nil {
		page.frame = d.frame(l, r, page.Title)
		page.Stream = ""
	}
	d.render(w, said.status, "fail", page)
}

// inputWords is what is wrong with what was told, as a sentence.
func inputWords(in *kennel.InputError) string {
	s := in.What
	if in.Value != "" {
		s = fmt.Sprintf("%q %s", in.Value, in.What)
	}
	if in.Field != "" {
		s = in.Field + ": " + s
	}
	return s
}
