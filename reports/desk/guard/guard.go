// Package guard stands before the pages of the desk and lets through what the handler's own browser asks, on this
// machine or on a phone that was paired with a code from the terminal. A page elsewhere in the same browser, another
// machine on the network and a name that was bent to this address are refused, each with a sentence and what to try.
//
// What it can't do: without Encryption, pages on the network (lan) can be read by who listens to the traffic of that network, and the cookie
// of a paired phone with them. Other people who are logged in on the same machine can open its loopback addresses.
package guard

import (
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/netip"
	"runtime/debug"
	"slices"
	"strings"
	"time"
)

// Options say what the guard lets through. Now, Random and Hosts must be given; the rest may be left zero.
type Options struct {
	Now    func() time.Time
	Random io.Reader // unguessable bytes: crypto/rand.Reader
	Hosts  []string  // host:port under which the desk may be called, as Listen returns them
	LAN    bool      // other machines may ask, once they are paired
	// Encryption is how other machines are answered; without encryption they are then only led to it. nil = all travels plain.
	Encryption Encryption

	CalendarPath string // the one path that a calendar program may fetch with the key instead of a pairing
	CalendarKey  string // from NewKey; "" = no key opens it

	Announce func(Pairing)         // tells the person at the terminal a new pairing code
	Paired   func(from string)     // tells that a machine at the address was paired
	Trouble  func(stack string)    // tells the log what went wrong inside
	MaxBody  int64                 // bytes of a form; 0 = 1 MiB
	Larger   map[string]int64      // bytes of what is posted to a path where files are sent; those of others are MaxBody
	Rate     float64               // requests a second that another machine may ask in the long run; 0 = 50
	Burst    int                   // requests that it may ask at once; 0 = 200
	Limit    func(r *http.Request) // called for every request that was refused as one too many; for the log
}

// The limits that are not the person's business.
const (
	maxBody      = 1 << 20
	rateASecond  = 50
	burstAtOnce  = 200
	pairPath     = "/pair"
	cookieName   = "tuckup"
	sessionsLast = 7 * 24 * time.Hour
)

// Guard is the guard of one desk. Its methods may be called from several goroutines.
type Guard struct {
	o        Options
	own      func(netip.Addr) bool // is this the desk's own machine?
	cross    *http.CrossOriginProtection
	limits   limits
	pairing  pairing
	sessions sessions
}

// New checks the options and returns the guard.
func New(o Options) (*Guard, error) {
	if o.Now == nil || o.Random == nil || len(o.Hosts) == 0 {
		return nil, errors.New("the guard needs a clock, randomness and the hosts that the desk is called by")
	}
	if o.MaxBody == 0 {
		o.MaxBody = maxBody
	}
	if o.Rate == 0 {
		o.Rate = rateASecond
	}
	if o.Burst == 0 {
		o.Burst = burstAtOnce
	}
	g := &Guard{o: o, own: netip.Addr.IsLoopback, cross: http.NewCrossOriginProtection()}
	g.limits.rate, g.limits.burst = o.Rate, o.Burst
	return g, nil
}

// Wrap puts the guard before the pages.
func (g *Guard) Wrap(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		setHeaders(w.Header(), r)
		if !g.own(remote(r)) && !g.sessions.has(r, g.o.Now()) {
			w.Header().Set("Connection", "close") // who is not paired keeps no connection open
		}
		defer g.catch(w)
		if no := g.check(r); no != nil {
			no.write(w, r)
			return
		}
		if r.Body != nil {
			r.Body = http.MaxBytesReader(w, r.Body, g.mostOf(r))
		}
		if g.led(r) {
			g.serveTrust(w, r)
			return
		}
		if g.o.LAN && r.URL.Path == pairPath {
			g.servePair(w, r)
			return
		}
		if no := g.admit(r); no != nil {
			no.write(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// refusal is an answer instead of a page.
type refusal struct {
	status    int
	what, try string
	toPairing bool
}

func (no *refusal) write(w http.ResponseWriter, r *http.Request) {
	if no.toPairing {
		if safe(r.Method) && strings.Contains(r.Header.Get("Accept"), "text/html") {
			http.Redirect(w, r, pairPath, http.StatusSeeOther)
			return
		}
	}
	http.Error(w, no.what+"\nTry: "+no.try, no.status)
}

// check is what every request must pass, whoever asks.
func (g *Guard) check(r *http.Request) *refusal {
	from := remote(r)
	near := g.own(from) || g.o.LAN && (from.IsPrivate() || from.IsLinkLocalUnicast() || from.IsLoopback())
	switch {
	case !near:
		return &refusal{
			status: http.StatusForbidden, what: "The desk answers only its own machine and paired machines on the same network.",
			try: "open it on the machine where tuckup serve runs",
		}
	case !slices.Contains(g.o.Hosts, strings.ToLower(r.Host)):
		return &refusal{status: http.StatusMisdirectedRequest, what: fmt.Sprintf("The desk is not called %q.", r.Host), try: "http://" + g.o.Hosts[0] + "/"}
	case !g.own(from) && !g.limits.allow(from, g.o.Now()):
		if g.o.Limit != nil {
			g.o.Limit(r)
		}
		return &refusal{status: http.StatusTooManyRequests, what: "Too many requests at once.", try: "again in a few seconds"}
	case r.Method != http.MethodGet && r.Method != http.MethodHead && r.Method != http.MethodPost:
		return &refusal{status: http.StatusMethodNotAllowed, what: "The desk takes GET, HEAD and POST.", try: "the forms of its pages"}
	case g.foreign(r):
		return &refusal{status: http.StatusForbidden, what: "This came from a page that is not the desk's.", try: "the same on the desk's own page, " + origin(r) + "/"}
	case r.ContentLength > g.mostOf(r):
		return &refusal{status: http.StatusRequestEntityTooLarge, what: fmt.Sprintf("That is more than %d bytes.", g.mostOf(r)), try: "less at once"}
	}
	return nil
}

// mostOf is how many bytes a request may bring. A larger one must be a file.
func (g *Guard) mostOf(r *http.Request) int64 {
	if most, ok := g.o.Larger[r.URL.Path]; ok && strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		return most
	}
	return g.o.MaxBody
}

// foreign reports whether a request was made by a page of another site: browsers say so themselves, in Sec-Fetch-Site
// where the address counts as secure (the loopback ones) and in Origin with every form that is posted. A form that says
// neither is refused, too. Pages elsewhere may link to the desk, but not use its pages as pictures, frames or scripts.
func (g *Guard) foreign(r *http.Request) bool {
	site := r.Header.Get("Sec-Fetch-Site")
	if safe(r.Method) {
		other := site == "cross-site" || site == "same-site"
		link := r.Header.Get("Sec-Fetch-Mode") == "navigate" && r.Header.Get("Sec-Fetch-Dest") == "document"
		return other && !link
	}
	said := r.Header.Get("Origin")
	if said == "" && site == "" || said != "" && said != origin(r) {
		return true
	}
	return g.cross.Check(r) != nil
}

// origin is the desk as a request calls it: its scheme and host.
func origin(r *http.Request) string {
	if r.TLS != nil {
		return "https://" + strings.ToLower(r.Host)
	}
	return "http://" + strings.ToLower(r.Host)
}

// admit lets in who is on this machine, who was paired, and a calendar program with the key.
func (g *Guard) admit(r *http.Request) *refusal {
	if key := r.URL.Query().Get("key"); r.URL.Path == g.o.CalendarPath && key != "" {
		if !same(key, g.o.CalendarKey) {
			return &refusal{status: http.StatusForbidden, what: "The key of this calendar address is wrong.", try: "the address that the workload page shows"}
		}
		if safe(r.Method) {
			return nil
		}
	}
	if g.own(remote(r)) || public(r) || g.sessions.has(r, g.o.Now()) {
		return nil
	}
	return &refusal{status: http.StatusUnauthorized, what: "This machine is not paired with the desk yet.", try: origin(r) + pairPath, toPairing: true}
}

// same compares two secrets in a time that tells nothing about them.
func same(a, b string) bool {
	x, y := sha256.Sum256([]byte(a)), sha256.Sum256([]byte(b))
	return subtle.ConstantTimeCompare(x[:], y[:]) == 1
}

// catch turns a fault inside into a sentence.
func (g *Guard) catch(w http.ResponseWriter) {
	p := recover()
	if p == nil {
		return
	}
	if err, ok := p.(error); ok && errors.Is(err, http.ErrAbortHandler) {
		panic(p) // the server's own way to break off an answer
	}
	if g.o.Trouble != nil {
		g.o.Trouble(fmt.Sprintf("%v\n%s", p, debug.Stack()))
	}
	http.Error(w, "Something went wrong inside.\nTry: the page again; if it stays, start tuckup serve with --log debug and report what it says", http.StatusInternalServerError)
}

func safe(method string) bool {
	return method == http.MethodGet || method == http.MethodHead
}

// OwnMachine reports whether a request comes from the machine that the desk runs on.
func OwnMachine(r *http.Request) bool { return remote(r).IsLoopback() }

// remote is the address that a request came from; the zero address, which is no one's, when it can't be read.
func remote(r *http.Request) netip.Addr {
	a, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	return a.Addr().Unmap().WithZone("")
}
