package main

import (
	"context"
	"crypto/rand"
	"crypto/tls"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"tuckup/reports/desk/guard"
	"tuckup/reports/desk/visit"
)

// threeDogs are due on Monday, each for a session and a duty.
const threeDogs = `kennel: Thornfield
plan_from: 2027-01-04
weeks: 6
hands:
  - name: Handler
    hours: {mon: 6}
dogs:
  - {name: Sorrel, pattern: wire-fox-terrier, areas: {all: [{share: 1.0, pulled: 2026-09-28}]}, duties: [{name: nails, minutes: 10, every: 1w}]}
  - {name: Moss, pattern: border-terrier, areas: {all: [{share: 1.0, pulled: 2026-10-05}]}, duties: [{name: nails, minutes: 10, every: 1w}]}
  - {name: Tansy, pattern: wire-fox-terrier, areas: {all: [{share: 1.0, pulled: 2026-10-12}]}, duties: [{name: nails, minutes: 10, every: 1w}]}
shows:
  - {name: Brackenmere, on: 2027-02-13, dogs: [Sorrel, Moss, Tansy]}
`

// phoneDesk is a desk on a book of its own.
func phoneDesk(t *testing.T) (book string, s *served) {
	t.Helper()
	book = phoneBook(t)
	return book, serveDesk(t, "--book", book, "--today", "2027-01-04")
}

// phoneOn is a phone that shows Today at an address, with its plan.
func phoneOn(t *testing.T, base string) *visit.Visit {
	t.Helper()
	v := visit.New(t, base)
	v.Screen(visit.Phone)
	v.Open("/today")
	untilPlanned(v)
	return v
}

// phoneBook is a book with work for several dogs on 2027-01-04.
func phoneBook(t *testing.T) string {
	t.Helper()
	return bookOf(t, threeDogs)
}

// bookOf is a book that a kennel file was imported into.
func bookOf(t *testing.T, kennel string) string {
	t.Helper()
	dir := t.TempDir()
	file, book := filepath.Join(dir, "kennel.yaml"), filepath.Join(dir, "book.db")
	if err := os.WriteFile(file, []byte(kennel), 0o600); err != nil {
		t.Fatal(err)
	}
	if code, _, said := program(context.Background(), "import", file, "--book", book, "--today", "2027-01-04"); code != codeDone {
		t.Fatal(said)
	}
	return book
}

// worked is whose work is written down in the book, a name a line of work, the newest first.
func worked(t *testing.T, book string) (dogs []string) {
	t.Helper()
	code, out, said := program(context.Background(), "work", "list", "--book", book, "--format", "json")
	var list []struct{ Dog string }
	if err := json.Unmarshal([]byte(out), &list); code != codeDone || err != nil {
		t.Fatal(code, err, said)
	}
	for _, w := range list {
		dogs = append(dogs, w.Dog)
	}
	return dogs
}

// network stands between a phone and the desk, and can do what a network does to forms.
type network struct {
	*httptest.Server
	mu    sync.Mutex
	does  string // "" = it lets forms through; else what it does to them
	hung  chan struct{}
	guard *guard.Guard // nil = the phone counts as the desk's own machine
	code  string       // the pairing code that was announced last
}

func (n *network) do(what string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.does = what
}

// between is a network before the desk at base.
func between(t *testing.T, base string) *network {
	t.Helper()
	return betweenWith(t, base, nil)
}

// betweenWith is a network before the desk at base, encrypted as the desk would.
func betweenWith(t *testing.T, base string, x guard.Encryption) *network {
	t.Helper()
	desk, err := url.Parse(base)
	if err != nil {
		t.Fatal(err)
	}
	n := &network{hung: make(chan struct{})}
	through := &httputil.ReverseProxy{Rewrite: func(r *httputil.ProxyRequest) {
		r.SetURL(desk) // its Host too: the desk knows only its own name
		if r.In.Header.Get("Origin") != "" {
			r.Out.Header.Set("Origin", base)
		}
	}}
	n.Server = httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		n.mu.Lock()
		does, g := n.does, n.guard
		n.mu.Unlock()
		if g != nil {
			r.RemoteAddr = "192.168.7.7:50000"
			g.Wrap(through).ServeHTTP(w, r)
			return
		}
		if r.Method != http.MethodPost {
			does = ""
		}
		switch does {
		case "":
			through.ServeHTTP(w, r)
		case "drop":
			panic(http.ErrAbortHandler)
		case "lose the answer":
			through.ServeHTTP(httptest.NewRecorder(), r)
			panic(http.ErrAbortHandler)
		case "hang":
			<-n.hung
			panic(http.ErrAbortHandler)
		case "another page":
			w.Header().Set("Content-Type", "text/html")
			w.Write([]byte("<!DOCTYPE html><title>Welcome to the network</title><p>Log in"))
		default: // a status
			http.Error(w, "", map[string]int{"401": 401, "403": 403, "404": 404, "500": 500, "503": 503}[does])
		}
	}))
	if x != nil {
		n.Listener = tls.NewListener(n.Listener, x.Config())
	}
	n.Start()
	if x != nil {
		n.URL = strings.Replace(n.URL, "http://", "https://", 1)
	}
	t.Cleanup(func() { close(n.hung); n.Close() })
	return n
}

// guarded puts a guard before the desk that knows no phone yet, as one that was just started does.
func (n *network) guarded(t *testing.T) { n.guardedWith(t, nil) }

func (n *network) guardedWith(t *testing.T, x guard.Encryption) {
	t.Helper()
	_, host, _ := strings.Cut(n.URL, "://")
	g, err := guard.New(guard.Options{
		Now: time.Now, Random: rand.Reader, Hosts: []string{host}, LAN: true, Encryption: x,
		Announce: func(p guard.Pairing) { n.mu.Lock(); n.code = p.Code; n.mu.Unlock() },
	})
	if err != nil {
		t.Fatal(err)
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	n.guard = g
}

// pairs types the code into the page for it, which is open.
func (n *network) pairs(v *visit.Visit) {
	n.mu.Lock()
	code := n.code
	n.mu.Unlock()
	v.Type("#code", code)
	x, y := v.Place("button", "Pair")
	v.Leaves(func() {
		v.Tap(x, y)
		v.Tap(x, y) // as wet hands do; the code works once
	})
}

// untilSays waits for the bar or the note that says so.
func untilSays(v *visit.Visit, css, words string) {
	v.Until(`[...document.querySelectorAll("` + css + `")].some(e => e.innerText.includes("` + words + `"))`)
}

// tryAgain taps on the button, unless what waits was sent by then.
func tryAgain(v *visit.Visit) {
	visit.Ask[bool](v, `(() => { document.querySelector(".waiting[role=alert] button")?.click(); return true })()`)
}

// firstDog is the dog whose button is under the thumb.
func firstDog(v *visit.Visit) string {
	return strings.TrimPrefix(visit.Ask[string](v, `document.querySelector(".day-thumb form.then").dataset.not`), "Not written down: ")
}

// Whatever happens to a tick on its way, the phone says that it is not written down and why until one tap has sent it
// again, and then it is written down once.
func TestATickThatFailsIsSeenAndIsSentAgain(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	n := between(t, s.base)
	v := phoneOn(t, n.URL)
	for _, c := range []struct{ does, words string }{
		{"drop", "The desk does not answer"},
		{"lose the answer", "The desk does not answer"},
		{"403", "The desk refuses it."},
		{"404", "The desk does not have that any more."},
		{"500", "The desk could not do it (500)."},
		{"503", "The desk could not do it (503)."},
		{"another page", "Something else than the desk answers here."},
		{"hang", "The desk has not answered for 10 seconds"},
	} {
		t.Run(c.does, func(t *testing.T) {
			v.Open("/today")
			dog, before := firstDog(v), len(worked(t, book))
			n.do(c.does)
			v.Click(".day-thumb button", "Done: "+dog)
			if c.does == "hang" {
				v.Until(`document.querySelector(".day-thumb form.then button").getAttribute("aria-busy") === "true"`)
				v.Shot("tick-busy-390")
			}
			untilSays(v, ".waiting[role=alert]", "Not written down: "+dog+". "+c.words)
			if busy := visit.Ask[bool](v, `document.querySelector("[aria-busy=true]") !== null`); busy {
				t.Error("it seems to be under way still")
			}
			v.Shot("tick-failed-" + strings.ReplaceAll(c.does, " ", "-") + "-390")
			v.Open("/week") // the bar stays, whatever page is opened
			untilSays(v, ".waiting[role=alert]", "Not written down: "+dog)
			v.Open("/today")
			n.do("")
			tryAgain(v)
			untilSays(v, ".day-thumb .now", dog+" written down")
			if bar := visit.Ask[bool](v, `document.querySelector(".waiting") !== null`); bar {
				t.Error("the bar is still there:", v.Says())
			}
			if got := worked(t, book); len(got) != before+1 || got[0] != dog {
				t.Errorf("the book has the work of %q", got)
			}
			v.Leaves(func() { v.Click(".day-thumb button", "Undo") })
			untilSays(v, ".day-thumb .now", dog+": taken out again")
			if got := worked(t, book); len(got) != before {
				t.Errorf("taken out again, the book has the work of %q", got)
			}
		})
	}
	v.Forgive("Failed to load resource")
	v.Quiet()
}

// The desk is stopped while a phone shows Today, and started again: what was ticked meanwhile is written down once.
func TestATickWhileTheDeskIsStoppedIsSentWhenItIsBack(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	dog := firstDog(v)
	s.ends(t)
	v.Click(".day-thumb button", "Done: "+dog)
	untilSays(v, ".waiting[role=alert]", "Not written down: "+dog+". The desk does not answer")
	v.Click(".waiting button", "Try again")
	v.Until(`document.querySelector(".waiting [aria-busy=true]") === null`)
	untilSays(v, ".waiting[role=alert]", "Not written down: "+dog)
	again := serveDesk(t, "--book", book, "--today", "2027-01-04", "--listen", strings.TrimPrefix(s.base, "http://"))
	if again.base != s.base {
		t.Fatalf("the desk is at %s, was at %s", again.base, s.base)
	}
	tryAgain(v)
	untilSays(v, ".day-thumb .now", dog+" written down")
	if got := worked(t, book); len(got) != 1 || got[0] != dog {
		t.Errorf("the book has the work of %q", got)
	}
	forgiveAClosedDesk(v)
	v.Quiet()
}

// A phone whose pairing has run out is led to the page for it, and what it ticked is written down once it is paired.
func TestATickOfAPhoneThatIsNotPairedAnyMoreIsWrittenDownAfterPairing(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	n := between(t, s.base)
	n.guarded(t)
	v := visit.New(t, n.URL)
	v.Screen(visit.Phone)
	v.Open("/today")
	n.pairs(v)
	v.Open("/today")
	untilPlanned(v)
	dog := firstDog(v)
	n.guarded(t)
	v.Leaves(func() { v.Click(".day-thumb button", "Done: "+dog) })
	if v.At() != "/pair" {
		t.Fatal("it is led to", v.At())
	}
	untilSays(v, "main", "Not written down: "+dog+". It is sent as soon as this phone is paired.")
	v.Shot("tick-pair-390")
	if got := worked(t, book); len(got) != 0 {
		t.Fatalf("without pairing the book has the work of %q", got)
	}
	n.pairs(v)
	untilSays(v, ".day-thumb .now", dog+" written down")
	v.Shot("tick-paired-390")
	v.Open("/today") // and never again
	time.Sleep(time.Second)
	if got := worked(t, book); len(got) != 1 || got[0] != dog {
		t.Errorf("the book has the work of %q", got)
	}
	v.Forgive("401")
	v.Quiet()
}

// A tap on the button of a dog is followed by others at the same place: no other dog is written down, the one that was
// stays so, and after some seconds the next dog's button is there.
func TestASecondTapRecordsNoOtherDog(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	for _, c := range []struct {
		name          string
		button        string
		scripts, calm bool
		taps          []time.Duration // after the first
	}{
		{"bar", ".day-thumb form.then button", true, false, []time.Duration{450 * time.Millisecond}},
		{"bar, again and again", ".day-thumb form.then button", true, false, []time.Duration{150 * time.Millisecond, 450 * time.Millisecond, time.Second, 3 * time.Second}},
		{"bar, less motion", ".day-thumb form.then button", true, true, []time.Duration{450 * time.Millisecond, 3 * time.Second}},
		{"bar, without scripts", ".day-thumb form.then button", false, false, []time.Duration{450 * time.Millisecond}},
		{"bar, without scripts, again and again", ".day-thumb form.then button", false, true, []time.Duration{150 * time.Millisecond, 450 * time.Millisecond, time.Second, 3 * time.Second}},
		{"card", ".task button[value=tick]", true, false, []time.Duration{450 * time.Millisecond, time.Second}},
		{"card, less motion", ".task button[value=tick]", true, true, []time.Duration{450 * time.Millisecond, time.Second}},
		{"card, without scripts", ".task button[value=tick]", false, false, []time.Duration{450 * time.Millisecond, time.Second}},
	} {
		t.Run(c.name, func(t *testing.T) {
			v.Calm(c.calm)
			v.Scripts(c.scripts)
			v.Open("/today")
			before := len(worked(t, book))
			x, y := v.Place(c.button, "Done")
			start := time.Now()
			v.Tap(x, y)
			for _, after := range c.taps {
				time.Sleep(time.Until(start.Add(after)))
				v.Tap(x, y)
			}
			untilSays(v, ".day-thumb .now", "written down")
			if strings.HasPrefix(c.name, "card") { // the page has moved, and another dog's button may lie there
				v.Tap(v.Place(".task:not(.done) button[value=tick]", "Done"))
			}
			time.Sleep(300 * time.Millisecond)
			got := worked(t, book)
			if len(got) != before+1 {
				t.Fatalf("the book has the work of %q", got)
			}
			if strings.HasPrefix(c.name, "bar") {
				hidden := `getComputedStyle(document.querySelector(".day-thumb .place:nth-child(2) .then")).visibility === "hidden"`
				shown := time.Now()
				if !visit.Ask[bool](v, hidden) {
					t.Error("the next dog's button is there at once")
				}
				v.Shot("tick-done-390")
				for visit.Ask[bool](v, hidden) && time.Since(shown) < 20*time.Second {
					time.Sleep(20 * time.Millisecond)
				}
				if lasted := time.Since(start); lasted < 5*time.Second || lasted > 15*time.Second {
					t.Errorf("it comes back %v after the tap", lasted)
				}
			}
			v.Until(`getComputedStyle(document.querySelector(".task.done button")).pointerEvents === "auto"`)
			v.Leaves(func() { v.Click(".task.done button", "Undo") })
			if got := worked(t, book); len(got) != before {
				t.Errorf("taken out again, the book has the work of %q", got)
			}
		})
	}
	v.Quiet()
}

// What Today says after a tick, and of one that failed, is sound for those who do not see it, on a phone and on a laptop.
func TestWhatIsSaidOfATickIsSound(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	axe := visit.AxeScript(t, "../..")
	_, s := phoneDesk(t)
	n := between(t, s.base)
	v := visit.New(t, n.URL)
	v.Open("/today")
	untilPlanned(v)
	for name, width := range map[string]int64{"390": visit.Phone, "1280": visit.Laptop} {
		v.Screen(width)
		v.Open("/today")
		n.do("drop")
		v.Click(".day-thumb button", "Done")
		untilSays(v, ".waiting[role=alert]", "Not written down")
		v.Sound(axe)
		v.Shot("tick-failed-" + name)
		n.do("")
		v.Click(".waiting button", "Try again")
		untilSays(v, ".day-thumb .now", "written down")
		v.Shot("tick-done-" + name)
		v.Sound(axe)
		if focus := visit.Ask[string](v, `document.activeElement.className`); focus != "now" {
			t.Errorf("the focus is on %q", focus)
		}
	}
	v.Forgive("Failed to load resource")
	v.Quiet()
}
