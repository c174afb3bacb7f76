package desk

import (
	"context"
	"crypto/rand"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/rs/zerolog"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/patterns"
	"tuckup/optimize"
	plans "tuckup/optimize/planned"
)

var monday = kennel.NewDate(2027, time.January, 4)

// room is a desk on a book of its own, as a browser without scripts sees it.
type room struct {
	t    testing.TB
	desk *Desk
	book *book.Book
	day  kennel.Date
	hold chan struct{} // while it is open, plans wait for it

	clock atomic.Int64 // the day, for the desk, which asks for it at any time

	always atomic.Pointer[optimize.Result] // the plan that is made whatever is asked for; nil = a true one
}

// turn makes it another day.
func (r *room) turn(day kennel.Date) {
	r.day = day
	r.clock.Store(int64(day))
}

// twoDogs are two dogs, one of them with a show, one pair of hands for all and one for the rest.
func twoDogs() kennel.Kennel {
	dog := func(name, pattern string, weeksAgo int) kennel.Dog {
		d := kennel.UsualDog()
		d.Name, d.Pattern = name, pattern
		d.All = []kennel.Layer{{Share: 0.5, Pulled: monday.AddDays(-7 * weeksAgo)}, {Share: 0.5, Pulled: monday.AddDays(-7 * (weeksAgo - 6))}}
		d.Duties = []kennel.Duty{{Name: "nails", Minutes: 10, Every: 2}}
		return d
	}
	return kennel.Kennel{
		Name: "Thornfield", Weeks: 8, Units: kennel.UnitsMillimetres,
		Hands: []kennel.Hands{
			{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{2, 2, 2, 2, 2}},
			{Name: "Assistant", Hours: [kennel.DaysAWeek]kennel.Hours{0, 1}, Does: []kennel.Skill{kennel.SkillFurnishings, kennel.SkillDuties}},
		},
		Dogs:  []kennel.Dog{dog("Sorrel", "wire-fox-terrier", 14), dog("Moss", "border-terrier", 16)},
		Shows: []kennel.Show{{Name: "Brackenmere", On: monday.AddDays(54), Days: 1, Weight: 2, Chance: 1, Dogs: []string{"Sorrel"}, EntriesClose: monday.AddDays(10)}},
	}
}

// wished is what a plan is made from.
func wished(w Wish, ps kennel.Patterns) (kennel.Kennel, optimize.Options) {
	opt := optimize.DefaultOptions()
	opt.On, opt.Begin, opt.Weeks = w.On, w.Begin, 8
	opt.Accepted, opt.Done = w.State.Accepted(w.On), w.State.Done(w.On.AddDays(-14), w.On)
	return w.State.Now(ps, w.On).InHand(w.On), opt
}

// made are the plans that were made: of the same string each is sought once for all tests.
var made sync.Map

func planOnce(ctx context.Context, k kennel.Kennel, ps kennel.Patterns, opt optimize.Options) (optimize.Result, error) {
	name, err := plans.Asked(k, ps, opt)
	if err != nil {
		return optimize.Result{}, err
	}
	if r, ok := made.Load(name); ok {
		return r.(optimize.Result), nil //nolint:forcetypeassert // nothing else is put in
	}
	r, err := optimize.Plan(ctx, k, ps, opt)
	if err == nil && ctx.Err() == nil {
		made.Store(name, r)
	}
	return r, err
}

// open is a desk on a book that holds a kennel and no plan.
func open(t testing.TB, k kennel.Kennel) *room {
	t.Helper()
	return openWith(t, k, nil)
}

// inUseOf is a desk on a book that holds a kennel and a plan in use.
func inUseOf(t testing.TB, k kennel.Kennel) *room {
	t.Helper()
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	k, opt := wished(Wish{State: book.State{Kennel: k}, On: monday}, ps)
	use, err := planOnce(t.Context(), k, ps, opt)
	if err != nil {
		t.Fatal(err)
	}
	return openWith(t, k, &use)
}

func openWith(t testing.TB, k kennel.Kennel, use *optimize.Result) *room {
	t.Helper()
	r := &room{t: t}
	r.turn(monday)
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	now := func() time.Time { return time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC) }
	r.book, err = book.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), book.Options{Now: now, Who: "Handler", Patterns: ps, Create: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(k.Hands)+len(k.Dogs) > 0 {
		r.change(func(s *book.State) {
			s.Replace(k, monday)
			if use == nil {
				return
			}
			if err := s.Take(use, monday, 0); err != nil {
				t.Fatal(err)
			}
		})
	}
	r.desk, err = New(Options{
		Book: r.book, Patterns: ps, Now: now, Random: rand.Reader, Log: zerolog.Nop(), CalendarKey: "a key of the test",
		Today: func(kennel.Kennel) (kennel.Date, error) { return kennel.Date(r.clock.Load()), nil },
		Plan: func(ctx context.Context, w Wish) (optimize.Result, error) {
			if w.Progress != nil {
				w.Progress(1.5, 2.5, 3)
			}
			if hold := r.hold; hold != nil {
				select {
				case <-hold:
				case <-ctx.Done():
				}
			}
			if always := r.always.Load(); always != nil {
				return *always, nil
			}
			k, opt := wished(w, ps)
			return planOnce(ctx, k, ps, opt)
		},
		Seen: func(use optimize.Result, w Wish) optimize.Result {
			k, opt := wished(w, ps)
			return optimize.Seen(use, optimize.Now{On: w.On, Kennel: k, Patterns: ps, Options: opt, Done: opt.Done})
		},
		Advise: func(ctx context.Context, w Wish) ([]optimize.Entry, error) {
			opt := optimize.DefaultOptions()
			opt.On = w.On
			return optimize.Entries(ctx, w.State.Now(ps, w.On).InHand(w.On), ps, opt)
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	b := r.book
	t.Cleanup(func() {
		r.desk.Close()
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return r
}

// opened is a desk with a plan in use.
func opened(t testing.TB) *room {
	t.Helper()
	return inUseOf(t, twoDogs())
}

// use is the plan in use as the pages see it; nil for none.
func (r *room) use() *planned {
	r.t.Helper()
	l, err := r.desk.look(context.Background())
	if err != nil || l.unread != nil {
		r.t.Fatal(err, l.unread)
	}
	return l.plan
}

// again asks for a new plan and waits for it.
func (r *room) again() page {
	r.t.Helper()
	r.send("/plan", r.get("/plan").form("main", "start"))
	r.planned()
	return r.get("/plan")
}

// roomy is opened with hours enough for a session to go elsewhere.
func roomy(t testing.TB) *room {
	t.Helper()
	k := twoDogs()
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{4, 4, 4, 4, 4}
	return inUseOf(t, k)
}

// change is a change that somebody else makes.
func (r *room) change(edit func(*book.State)) {
	r.t.Helper()
	if _, err := r.book.Change(context.Background(), book.AnyVersion, "somebody else", func(s *book.State) error { edit(s); return nil }); err != nil {
		r.t.Fatal(err)
	}
}

// another is the same book, opened by somebody who checks no pattern.
func (r *room) another() *book.Book {
	r.t.Helper()
	b, err := book.Open(context.Background(), r.book.Path(), book.Options{Now: r.desk.opt.Now, Who: "another"})
	if err != nil {
		r.t.Fatal(err)
	}
	r.t.Cleanup(func() { b.Close() })
	return b
}

// until waits until planning stands so.
func (r *room) until(so func(status) bool) {
	r.t.Helper()
	limit := time.After(5 * time.Minute) // far more than it takes, also where races are looked for
	for {
		_, s, changed := r.desk.plans.follow()
		if so(s) {
			return
		}
		select {
		case <-changed:
		case <-limit:
			r.t.Fatalf("after five minutes planning stands so: %+v", s)
		}
	}
}

// planned waits until nothing is planned any more.
func (r *room) planned() {
	r.t.Helper()
	if _, err := r.desk.look(context.Background()); err != nil {
		r.t.Fatal(err)
	}
	r.until(func(s status) bool { return !s.Running })
	if _, s, _ := r.desk.plans.follow(); s.Err != nil {
		r.t.Fatal(s.Err)
	}
}

// page is an answer.
type page struct {
	*goquery.Document
	t      testing.TB
	status int
	to     string // where it sends the browser
	kind   string
	body   string
}

func (r *room) ask(method, path string, form url.Values) page {
	r.t.Helper()
	return r.answer(asked(method, path, form))
}

// asScript sends a form as the desk's own script does; to is where it is told that the form led.
func (r *room) asScript(s sent) page {
	r.t.Helper()
	req := asked(http.MethodPost, s.path, s.form)
	req.Header.Set(formHeader, "script")
	return r.answer(req)
}

func asked(method, path string, form url.Values) *http.Request {
	var req *http.Request
	if form == nil {
		req = httptest.NewRequest(method, path, nil)
	} else {
		req = httptest.NewRequest(method, path, strings.NewReader(form.Encode()))
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return req
}

func (r *room) answer(req *http.Request) page {
	r.t.Helper()
	w := httptest.NewRecorder()
	r.desk.ServeHTTP(w, req)
	body := w.Body.String()
	doc, err := goquery.NewDocumentFromReader(strings.NewReader(body))
	if err != nil {
		r.t.Fatal(err)
	}
	return page{doc, r.t, w.Code, w.Header().Get("Location") + w.Header().Get(goHeader), w.Header().Get("Content-Type"), body}
}

func (r *room) get(path string) page {
	r.t.Helper()
	p := r.ask(http.MethodGet, path, nil)
	if p.status != http.StatusOK {
		r.t.Fatalf("GET %s: %d\n%s", path, p.status, p.Find("main").Text())
	}
	return p
}

// form is what the form with a button that does so would send, as a browser fills it in. The form is found in the part of
// the page that the selector names.
func (p page) form(within, do string) url.Values {
	p.t.Helper()
	v := url.Values{}
	f := p.Find(within + " form").FilterFunction(func(_ int, s *goquery.Selection) bool {
		return s.Find(fmt.Sprintf("button[value=%q]", do)).Length() > 0
	}).First()
	if f.Length() == 0 {
		p.t.Fatalf("no form in %q has a button that does %q", within, do)
	}
	f.Find("input[name], select[name]").Each(func(_ int, s *goquery.Selection) {
		name, _ := s.Attr("name")
		value, _ := s.Attr("value")
		kind, _ := s.Attr("type")
		if kind == "checkbox" || kind == "radio" {
			if _, on := s.Attr("checked"); !on {
				return
			}
		}
		if s.Is("select") {
			value, _ = s.Find("option[selected]").Attr("value")
		}
		v.Add(name, value)
	})
	v.Set("do", do)
	return v
}

// send sends a form and follows it to the page that it leads to.
func (r *room) send(path string, form url.Values) page {
	r.t.Helper()
	p := r.ask(http.MethodPost, path, form)
	if p.status != http.StatusSeeOther {
		r.t.Fatalf("POST %s %v: %d, not sent on\n%s", path, form, p.status, strings.Join(strings.Fields(p.Find("main").Text()), " "))
	}
	to, _, _ := strings.Cut(p.to, "#")
	return r.get(to)
}

func (r *room) state() book.State {
	r.t.Helper()
	s, _, err := r.book.Read(context.Background())
	if err != nil {
		r.t.Fatal(err)
	}
	return s
}

func (r *room) version() int64 {
	r.t.Helper()
	v, err := r.book.Version(context.Background())
	if err != nil {
		r.t.Fatal(err)
	}
	return v
}

// says asks that a part of the page says something.
func (p page) says(selector, words string) {
	p.t.Helper()
	text := strings.Join(strings.Fields(p.Find(selector).Text()), " ")
	if !strings.Contains(text, words) {
		p.t.Errorf("%q does not say %q but %q", selector, words, text)
	}
}

// wrongAt asks that an error stands beside a field, that the field names it, and that the field kept what was typed.
func (p page) wrongAt(field, words, typed string) {
	p.t.Helper()
	in := p.Find(fmt.Sprintf("[name=%q][aria-invalid=true]", field))
	if in.Length() != 1 {
		p.t.Errorf("%d fields %q are marked as wrong", in.Length(), field)
		return
	}
	id, _ := in.Attr("aria-describedby")
	said := p.Find("#" + id)
	if said.Length() != 1 || !strings.Contains(said.Text(), words) {
		p.t.Errorf("beside %q stands %q, not %q", field, said.Text(), words)
	}
	if got, _ := in.Attr("value"); !in.Is("select") && got != typed {
		p.t.Errorf("%q kept %q, typed was %q", field, got, typed)
	}
}

func TestEveryPageAnswersBeforeThereIsAPlanAndAfter(t *testing.T) {
	r := open(t, kennel.Kennel{})
	paths := []string{"/", "/today", "/week", "/string", "/shows", "/hours", "/workload", "/papers", "/account", "/bring", "/setup", "/patterns", "/history", "/copies", "/plan", "/work"}
	for _, path := range paths[1:] { // the first leads to the first steps
		p := r.get(path)
		p.says("main", "There is no plan yet")
	}
	r.change(func(s *book.State) { s.Replace(twoDogs(), monday) })
	r.planned()
	for _, path := range append(paths, "/dogs/Sorrel", "/work?dog=Moss", "/today?day=2027-01-05", "/today?hands=Assistant", "/history?all=yes", "/shows?show=2027-02-27+Brackenmere") {
		p := r.get(path)
		if n := p.Find("h1").Length(); n != 1 {
			t.Errorf("%s has %d first headings", path, n)
		}
		if n := p.Find("header nav a").Length(); n != len(menu)-1 { // phones are listed only where there is a network
			t.Errorf("%s has a menu of %d", path, n)
		}
		if p.Find(".plan-note").Length() != 0 {
			t.Errorf("%s says of the plan: %s", path, p.Find(".plan-note").Text())
		}
		if p.Find("script:not([src]), [style], [onclick], style").Length() != 0 {
			t.Errorf("%s has scripts or styles in it", path)
		}
	}
}

// Every name that a link or a form leads to is answered, and every identifier stands there once.
func TestLinksLeadSomewhereAndIdentifiersAreUnique(t *testing.T) {
	r := opened(t)
	seen := map[string]bool{}
	for queue := []string{"/"}; len(queue) > 0; queue = queue[1:] {
		path := queue[0]
		if seen[path] || len(seen) > 60 {
			continue
		}
		seen[path] = true
		p := r.get(path)
		ids := map[string]bool{}
		p.Find("[id]").Each(func(_ int, s *goquery.Selection) {
			id, _ := s.Attr("id")
			if ids[id] {
				t.Errorf("%s: %q appears twice", path, id)
			}
			ids[id] = true
		})
		p.Find("label[for]").Each(func(_ int, s *goquery.Selection) {
			if id, _ := s.Attr("for"); !ids[id] {
				t.Errorf("%s: no field for the label %q", path, s.Text())
			}
		})
		p.Find("input:not([type=hidden]), select").Each(func(_ int, s *goquery.Selection) {
			id, _ := s.Attr("id")
			if s.Closest("label").Length() == 0 && p.Find(fmt.Sprintf("label[for=%q]", id)).Length() != 1 {
				t.Errorf("%s: the field %q has no label", path, id)
			}
		})
		p.Find("a[href]").Each(func(_ int, s *goquery.Selection) {
			to, _ := s.Attr("href")
			to, _, _ = strings.Cut(to, "#")
			if to != "" && !strings.Contains(to, "day=") && !strings.HasSuffix(to, ".csv") && !strings.HasPrefix(to, CalendarPath) {
				queue = append(queue, to)
			}
		})
	}
	if len(seen) < 15 {
		t.Errorf("only %d pages are reached: %v", len(seen), seen)
	}
}

func TestWhatIsNotThereSaysSo(t *testing.T) {
	r := opened(t)
	for _, c := range []struct {
		method, path string
		form         url.Values
		status       int
	}{
		{http.MethodGet, "/nowhere", nil, 404},
		{http.MethodGet, "/dogs/Nobody", nil, 404},
		{http.MethodGet, "/today?day=never", nil, 404},
		{http.MethodGet, "/shows?show=2027-01-01+None", nil, 404},
		{http.MethodGet, "/shows?draft=99", nil, 404},
		{http.MethodGet, "/calendar.ics", nil, 403},
		{http.MethodGet, "/calendar.ics?key=wrong", nil, 403},
		{http.MethodPost, "/shows", url.Values{"do": {"try"}}, 400},
		{http.MethodPost, "/week", url.Values{"version": {"1"}, "session": {"x"}}, 404},
		{http.MethodPost, "/plan", url.Values{"version": {"1"}, "do": {"dance"}}, 404},
		{http.MethodPost, "/dogs/Sorrel", url.Values{"version": {"1"}, "do": {"dance"}}, 404},
		{http.MethodPost, "/hours", url.Values{"version": {"1"}, "do": {"dance"}}, 404},
	} {
		p := r.ask(c.method, c.path, c.form)
		if p.status != c.status {
			t.Errorf("%s %s: %d, want %d", c.method, c.path, p.status, c.status)
		}
		if p.Find("[role=alert]").Text() == "" {
			t.Errorf("%s %s says nothing", c.method, c.path)
		}
	}
	if r.version() != 1 {
		t.Errorf("the book is at change %d", r.version())
	}
}

func TestNothingOfANameIsReadAsHTML(t *testing.T) {
	const bad = `<script>alert(1)</script>"'&{{.}}`
	k := twoDogs()
	k.Name, k.Dogs[0].Name, k.Dogs[0].Owner, k.Hands[0].Name = bad, bad, bad, bad
	k.Shows[0].Name, k.Shows[0].Dogs, k.Dogs[0].Duties[0].Name = bad, []string{bad}, bad
	k.Hands[0].Away = []kennel.Span{{From: monday.AddDays(20), To: monday.AddDays(21), Why: bad}}
	r := open(t, k)
	r.planned()
	r.change(func(s *book.State) {
		s.Record(kennel.Work{Dog: bad, On: monday, Hands: bad, Minutes: 20, Note: bad, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.1}}})
	})
	r.planned()
	paths := []string{"/", "/today", "/week", "/string", dogPath(bad), "/shows", "/hours", "/workload", "/history", "/plan", "/work?dog=" + url.QueryEscape(bad), "/today?day=2027-01-05"}
	for _, path := range paths {
		p := r.get(path)
		if n := p.Find("script:not([src])").Length(); n != 0 {
			t.Errorf("%s holds %d scripts", path, n)
		}
		if strings.Contains(p.body, "<script>alert") {
			t.Errorf("%s holds the name as it is", path)
		}
	}
}

func number64(n int64) string { return strconv.FormatInt(n, 10) }

// An address of a day that was kept from when the day was the first page still leads to it.
func TestAnOldAddressOfADayLeadsToIt(t *testing.T) {
	r := opened(t)
	for from, to := range map[string]string{"/?day=2027-01-05": "/today?day=2027-01-05", "/?said=done&work=1": "/today?said=done&work=1"} {
		if p := r.ask(http.MethodGet, from, nil); p.status != http.StatusSeeOther || p.to != to {
			t.Errorf("%s leads to %q, status %d", from, p.to, p.status)
		}
	}
}

// Lengths are asked for and shown in the kennel's units.
func TestLengthsAreInTheKennelsUnits(t *testing.T) {
	for units, c := range map[kennel.Units]struct{ hint, typed, shown string }{
		kennel.UnitsInches:      {"1.25, 1.25in or 32mm", "1.5", "1.50 in"},
		kennel.UnitsMillimetres: {"32, 32mm or 1.25in", "31", "31 mm"},
	} {
		k := twoDogs()
		k.Units = units
		r := inUseOf(t, k)
		p := r.get("/dogs/Moss")
		p.says("main", c.hint)
		r.get("/work?dog=Moss").says("main", c.hint)
		form := p.form("main", "measure")
		form.Set("measured", "back")
		form.Set("length", c.typed)
		r.send("/dogs/Moss", form).says("main", c.shown)
	}
}

// The history says when something was by the kennel's clock.
func TestTheHistoryGoesByTheKennelsClock(t *testing.T) {
	for zone, want := range map[string]string{"": "Mon 4 Jan 08:00 UTC", "Pacific/Auckland": "Mon 4 Jan 21:00"} {
		k := twoDogs()
		k.TimeZone = zone
		r := inUseOf(t, k)
		r.get("/history").says("time", want)
	}
}
