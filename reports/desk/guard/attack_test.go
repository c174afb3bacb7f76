package guard

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"strings"
	"testing"
	"time"
)

const (
	home    = "127.0.0.1:8420"     // the desk by its own machine's name
	network = "192.168.1.7:8420"   // the desk by its name on the network
	phone   = "192.168.1.20:50000" // a machine on the network
	here    = "127.0.0.1:50000"    // the desk's own machine
	key     = "calendar-key-of-this-test"
)

// trial is a guard with its clock, what the terminal was told, and how often the page behind it was reached.
type trial struct {
	*Guard
	now     time.Time
	codes   []Pairing
	paired  []string
	trouble []string
	reached int
	pages   http.Handler
}

func newTrial(t *testing.T, change func(*Options)) *trial {
	t.Helper()
	d := &trial{now: time.Date(2027, 1, 5, 9, 0, 0, 0, time.UTC)}
	o := Options{
		Now: func() time.Time { return d.now }, Random: &counting{}, Hosts: []string{home, "localhost:8420", network},
		CalendarPath: "/calendar.ics", CalendarKey: key,
		Announce: func(p Pairing) { d.codes = append(d.codes, p) },
		Paired:   func(from string) { d.paired = append(d.paired, from) },
		Trouble:  func(s string) { d.trouble = append(d.trouble, s) },
	}
	if change != nil {
		change(&o)
	}
	g, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	d.Guard = g
	d.pages = http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		d.reached++
		io.WriteString(w, "the page")
	})
	return d
}

func lan(o *Options) { o.LAN = true }

// counting is randomness that a test can foresee: no byte pattern comes twice soon.
type counting struct{ n byte }

func (c *counting) Read(b []byte) (int, error) {
	for i := range b {
		c.n += 37
		b[i] = c.n
	}
	return len(b), nil
}

// ask sends a request of a browser on the machine from; the fields are those of its head, name and value in turn.
func (d *trial) ask(from, host, method, target, body string, fields ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.RemoteAddr, r.Host = from, host
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "http://"+host)
	}
	r.Header.Set("Accept", "text/html")
	for i := 0; i < len(fields); i += 2 {
		r.Header.Set(fields[i], fields[i+1])
		if fields[i+1] == "" {
			r.Header.Del(fields[i])
		}
	}
	w := httptest.NewRecorder()
	d.Wrap(d.pages).ServeHTTP(w, r)
	return w
}

// refused fails the test unless an answer has the status, says what to try, and the page was not reached.
func (d *trial) refused(t *testing.T, what string, w *httptest.ResponseRecorder, status int) {
	t.Helper()
	if w.Code != status || d.reached != 0 {
		t.Errorf("%s: status %d, want %d; the page was reached %d times", what, w.Code, status, d.reached)
	}
	if body := w.Body.String(); status != http.StatusSeeOther && (!strings.Contains(body, "\nTry: ") || strings.Contains(body, "the page\n")) {
		t.Errorf("%s: said %q", what, body)
	}
	d.reached = 0
}

func (d *trial) let(t *testing.T, what string, w *httptest.ResponseRecorder) {
	t.Helper()
	if w.Code != http.StatusOK || d.reached != 1 {
		t.Errorf("%s: status %d, the page was reached %d times: %s", what, w.Code, d.reached, w.Body)
	}
	d.reached = 0
}

func TestANameThatWasBentToThisAddressIsRefused(t *testing.T) {
	d := newTrial(t, nil)
	for _, host := range []string{home, "localhost:8420", "LOCALHOST:8420"} {
		d.let(t, host, d.ask(here, host, "GET", "/week", ""))
	}
	for _, host := range []string{"evil.example", "evil.example:8420", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.evil.example:8420", "localhost.:8420", "[::1]:8420", "", "0.0.0.0:8420"} {
		d.refused(t, host, d.ask(here, host, "GET", "/week", ""), http.StatusMisdirectedRequest)
		d.refused(t, host, d.ask(here, host, "POST", "/week", "day=1"), http.StatusMisdirectedRequest)
	}
}

func TestAFormFromAPageElsewhereIsRefused(t *testing.T) {
	d := newTrial(t, nil)
	d.let(t, "own form", d.ask(here, home, "POST", "/week", "day=1", "Sec-Fetch-Site", "same-origin"))
	d.let(t, "own form, by its origin alone", d.ask(here, home, "POST", "/week", "day=1"))
	for what, fields := range map[string][]string{
		"another host":                    {"Origin", "http://evil.example"},
		"another port of this machine":    {"Origin", "http://127.0.0.1:9999"},
		"another name of the desk":        {"Origin", "http://localhost:8420"},
		"another scheme":                  {"Origin", "https://127.0.0.1:8420"},
		"a page without an origin":        {"Origin", "null"},
		"neither origin nor site":         {"Origin", ""},
		"a site that says so":             {"Sec-Fetch-Site", "cross-site"},
		"a site that says so, no origin":  {"Origin", "", "Sec-Fetch-Site", "cross-site"},
		"another port, as browsers say":   {"Origin", "", "Sec-Fetch-Site", "same-site"},
		"a foreign origin called our own": {"Origin", "http://evil.example", "Sec-Fetch-Site", "same-origin"},
		"a name that begins like ours":    {"Origin", "http://127.0.0.1:8420.evil.example"},
		"a script of another page":        {"Origin", "http://evil.example", "Desk-Form", "script"},
	} {
		d.refused(t, what, d.ask(here, home, "POST", "/week", "day=1", fields...), http.StatusForbidden)
	}
}

func TestOtherMethodsAreRefused(t *testing.T) {
	d := newTrial(t, nil)
	d.let(t, "HEAD", d.ask(here, home, "HEAD", "/week", ""))
	for _, method := range []string{"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "post", "FORGED"} {
		d.refused(t, method, d.ask(here, home, method, "/week", "", "Origin", "http://"+home), http.StatusMethodNotAllowed)
	}
}

func TestAPageElsewhereMayLinkToTheDeskButNotUseIt(t *testing.T) {
	d := newTrial(t, nil)
	d.let(t, "a link", d.ask(here, home, "GET", "/week", "", "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"))
	d.let(t, "typed in", d.ask(here, home, "GET", "/week", "", "Sec-Fetch-Site", "none", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"))
	for what, fields := range map[string][]string{
		"script":       {"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors", "Sec-Fetch-Dest", "script"},
		"picture":      {"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors", "Sec-Fetch-Dest", "image"},
		"frame":        {"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "iframe"},
		"fetch":        {"Sec-Fetch-Site", "same-site", "Sec-Fetch-Mode", "cors", "Sec-Fetch-Dest", "empty"},
		"event stream": {"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "cors", "Sec-Fetch-Dest", "empty"},
	} {
		d.refused(t, what, d.ask(here, home, "GET", "/week", "", fields...), http.StatusForbidden)
	}
}

func TestEveryAnswerCarriesThePolicy(t *testing.T) {
	d := newTrial(t, lan)
	broken := newTrial(t, nil)
	broken.pages = http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("broken") })
	openers := map[string]string{"page": "same-origin", "fault": "same-origin"} // where browsers heed it
	for what, w := range map[string]*httptest.ResponseRecorder{
		"page":      d.ask(here, home, "GET", "/week", ""),
		"refusal":   d.ask(here, "evil.example", "GET", "/week", ""),
		"pair page": d.ask(phone, network, "GET", "/pair", ""),
		"redirect":  d.ask(phone, network, "GET", "/week", ""),
		"fault":     broken.ask(here, home, "GET", "/week", ""),
	} {
		h := w.Header()
		csp := map[string]string{}
		for part := range strings.SplitSeq(h.Get("Content-Security-Policy"), ";") {
			name, value, _ := strings.Cut(strings.TrimSpace(part), " ")
			csp[name] = value
		}
		for name, want := range map[string]string{
			"default-src": "'none'", "script-src": "'self'", "style-src": "'self'", "connect-src": "'self'",
			"form-action": "'self'", "base-uri": "'none'", "frame-ancestors": "'none'", "img-src": "'self' data:",
		} {
			if csp[name] != want {
				t.Errorf("%s: %s is %q, want %q", what, name, csp[name], want)
			}
		}
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY", "Referrer-Policy": "same-origin", "Cache-Control": "no-store",
			"Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Embedder-Policy": "require-corp",
		} {
			if got := h.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", what, name, got, want)
			}
		}
		if got := h.Get("Cross-Origin-Opener-Policy"); got != openers[what] {
			t.Errorf("%s: opener policy %q, want %q", what, got, openers[what])
		}
		if strings.Contains(h.Get("Permissions-Policy"), "*") || !strings.Contains(h.Get("Permissions-Policy"), "camera=()") {
			t.Errorf("%s: permissions %q", what, h.Get("Permissions-Policy"))
		}
	}
}

func TestAFormThatIsTooLongIsRefused(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.MaxBody = 100 })
	var read int
	var failed error
	d.pages = http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		b, err := io.ReadAll(r.Body)
		read, failed = len(b), err
	})
	d.refused(t, "told to be long", d.ask(here, home, "POST", "/week", strings.Repeat("a", 101)), http.StatusRequestEntityTooLarge)
	if w := d.ask(here, home, "POST", "/week", strings.Repeat("a", 100)); w.Code != http.StatusOK || read != 100 || failed != nil {
		t.Errorf("of 100 bytes %d were read: status %d, %v", read, w.Code, failed)
	}
	// Of a body whose length nobody told the page gets no more than the limit, and an error.
	r := httptest.NewRequest("POST", "/week", io.MultiReader(strings.NewReader(strings.Repeat("a", 5000))))
	r.RemoteAddr, r.Host, r.ContentLength = here, home, -1
	r.Header.Set("Origin", "http://"+home)
	d.Wrap(d.pages).ServeHTTP(httptest.NewRecorder(), r)
	if read > 100 || failed == nil {
		t.Errorf("%d bytes were read, %v", read, failed)
	}
}

func TestOtherMachinesAreRefusedWithoutLAN(t *testing.T) {
	d := newTrial(t, nil)
	for _, from := range []string{phone, "8.8.4.4:1000", "[2001:db8::1]:1000", "nonsense", ""} {
		d.refused(t, from, d.ask(from, network, "GET", "/week", ""), http.StatusForbidden)
		d.refused(t, from, d.ask(from, home, "GET", "/calendar.ics?key="+key, ""), http.StatusForbidden)
	}
	if w := d.ask(here, home, "GET", "/pair", ""); d.reached != 1 || len(d.codes) != 0 {
		t.Errorf("there is pairing without lan: status %d, codes %v", w.Code, d.codes)
	}
}

func TestMachinesFromBeyondTheNetworkAreRefused(t *testing.T) {
	d := newTrial(t, lan)
	for _, from := range []string{"8.8.4.4:1000", "[2001:db8::1]:1000", "100.64.0.1:1000", "nonsense"} {
		d.refused(t, from, d.ask(from, network, "GET", "/pair", ""), http.StatusForbidden)
	}
	if len(d.codes) != 0 {
		t.Error("a code was shown for them:", d.codes)
	}
}

// pair pairs the phone with the code that the terminal showed last and returns the cookie.
func (d *trial) pair(t *testing.T) *http.Cookie {
	t.Helper()
	if w := d.ask(phone, network, "GET", "/pair", ""); w.Code != http.StatusOK {
		t.Fatal("no page to pair on:", w.Code)
	}
	w := d.tryCode(d.codes[len(d.codes)-1].Code)
	cookies := w.Result().Cookies()
	if w.Code != http.StatusSeeOther || len(cookies) != 1 {
		t.Fatalf("the code from the terminal does not pair: status %d, %v", w.Code, cookies)
	}
	return cookies[0]
}

func (d *trial) tryCode(code string) *httptest.ResponseRecorder {
	return d.ask(phone, network, "POST", "/pair", url.Values{"code": {code}}.Encode())
}

func TestAMachineThatIsNotPairedSeesNothing(t *testing.T) {
	d := newTrial(t, lan)
	d.refused(t, "page", d.ask(phone, network, "GET", "/week", ""), http.StatusSeeOther)
	d.refused(t, "form", d.ask(phone, network, "POST", "/week", "day=1"), http.StatusUnauthorized)
	d.refused(t, "form that a script sends", d.ask(phone, network, "POST", "/week", "day=1", "Desk-Form", "script"), http.StatusUnauthorized)
	d.refused(t, "data", d.ask(phone, network, "GET", "/workload.csv", "", "Accept", "*/*"), http.StatusUnauthorized)
	d.refused(t, "a cookie of its own making", d.ask(phone, network, "GET", "/week", "", "Cookie", cookieName+"=AAAA"), http.StatusSeeOther)
	d.refused(t, "an empty cookie", d.ask(phone, network, "GET", "/week", "", "Cookie", cookieName+"="), http.StatusSeeOther)
	d.refused(t, "a path that looks like a file's", d.ask(phone, network, "POST", "/assets/week", ""), http.StatusUnauthorized)
	d.refused(t, "an address that claims to be here", d.ask(phone, network, "GET", "/week", "", "X-Forwarded-For", "127.0.0.1"), http.StatusSeeOther)
	d.refused(t, "the machine's own name", d.ask(phone, home, "GET", "/week", ""), http.StatusSeeOther)
	d.let(t, "the desk's own machine", d.ask(here, home, "GET", "/week", ""))
}

func TestACodeFromTheTerminalPairsOnce(t *testing.T) {
	d := newTrial(t, lan)
	if err := d.Open(); err != nil || len(d.codes) != 1 {
		t.Fatal(err, d.codes)
	}
	first := d.codes[0]
	if len(first.URLs) != 1 || first.URLs[0] != "http://"+network+"/pair?code="+first.Code {
		t.Errorf("the phone is sent to %v", first.URLs)
	}
	cookie := d.pair(t)
	if len(d.codes) != 1 || d.codes[0].Code != first.Code {
		t.Error("the code that was shown first was not the one to use:", d.codes)
	}
	d.let(t, "paired", d.ask(phone, network, "GET", "/week", "", "Cookie", cookie.Name+"="+cookie.Value))
	d.let(t, "paired form", d.ask(phone, network, "POST", "/week", "day=1", "Cookie", cookie.Name+"="+cookie.Value))
	if len(d.paired) != 1 || d.paired[0] != "192.168.1.20" {
		t.Error("the terminal was told of", d.paired)
	}
	if w := d.tryCode(first.Code); w.Code != http.StatusUnprocessableEntity || len(w.Result().Cookies()) != 0 {
		t.Errorf("the code worked twice: status %d, %v", w.Code, w.Result().Cookies())
	}
	second := d.pair(t)
	if second.Value == cookie.Value || len(d.codes) != 2 || d.codes[1].Code == first.Code {
		t.Error("the second phone got the first one's cookie or code")
	}
}

func TestACodeMayBeTypedAsPeopleRead(t *testing.T) {
	for _, change := range []func(string) string{
		strings.ToLower, func(s string) string { return strings.ReplaceAll(s, "-", " ") },
		func(s string) string { return strings.NewReplacer("0", "O", "1", "l").Replace(s) },
	} {
		d := newTrial(t, lan)
		d.Open()
		if w := d.tryCode(change(d.codes[0].Code)); w.Code != http.StatusSeeOther {
			t.Errorf("%q for %q is refused", change(d.codes[0].Code), d.codes[0].Code)
		}
	}
}

func TestALinkAloneDoesNotPair(t *testing.T) {
	d := newTrial(t, lan)
	d.Open()
	w := d.ask(phone, network, "GET", "/pair?code="+d.codes[0].Code, "")
	if w.Code != http.StatusOK || len(w.Result().Cookies()) != 0 || !strings.Contains(w.Body.String(), `value="`+d.codes[0].Code+`"`) {
		t.Errorf("status %d, cookies %v, page %s", w.Code, w.Result().Cookies(), w.Body)
	}
	if w := d.tryCode(d.codes[0].Code); w.Code != http.StatusSeeOther {
		t.Error("looking at the page used the code up")
	}
}

func TestThePairPageWritesNoForeignHTML(t *testing.T) {
	d := newTrial(t, lan)
	hostile := `"><script>alert(1)</script>`
	for _, w := range []*httptest.ResponseRecorder{d.ask(phone, network, "GET", "/pair?code="+url.QueryEscape(hostile), ""), d.tryCode(hostile)} {
		if strings.Contains(w.Body.String(), "<script>") {
			t.Error("the page has it as it was sent:", w.Body)
		}
	}
}

func TestACodeEndsAfterTenMinutes(t *testing.T) {
	d := newTrial(t, lan)
	d.Open()
	code := d.codes[0].Code
	d.now = d.now.Add(codeLasts)
	if w := d.tryCode(code); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("it worked after ten minutes: status %d", w.Code)
	}
	d.ask(phone, network, "GET", "/pair", "")
	if len(d.codes) != 2 || d.codes[1].Code == code {
		t.Error("no new code was shown:", d.codes)
	}
}

func TestGuessingACodeEndsIt(t *testing.T) {
	d := newTrial(t, lan)
	d.Open()
	code := d.codes[0].Code
	for i := range wrongTries {
		d.tryCode(fmt.Sprintf("AAAA-AAA%d", i))
	}
	if w := d.tryCode(code); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("after %d guesses it still works: status %d", wrongTries, w.Code)
	}
	d.ask(phone, network, "GET", "/pair", "")
	if len(d.codes) != 1 {
		t.Error("a new code was open at once:", d.codes)
	}
	// The memory of the last code opens nothing in the pause, and neither does an empty one.
	for _, typed := range []string{code, "", "-"} {
		if w := d.tryCode(typed); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%q works in the pause", typed)
		}
	}
	d.now = d.now.Add(codePause)
	d.pair(t)
}

func TestTheCookieIsKeptFromScriptsAndOtherSites(t *testing.T) {
	d := newTrial(t, lan)
	c := d.pair(t)
	if !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" {
		t.Errorf("cookie %v", c)
	}
	if len(c.Value) < 43 { // 256 bits in letters of six
		t.Errorf("the cookie holds only %q", c.Value)
	}
}

func TestAPairingEndsAfterAWeek(t *testing.T) {
	d := newTrial(t, lan)
	c := d.pair(t)
	d.now = d.now.Add(sessionsLast - time.Second)
	d.let(t, "the last second", d.ask(phone, network, "GET", "/week", "", "Cookie", c.Name+"="+c.Value))
	d.now = d.now.Add(time.Second)
	d.refused(t, "a second later", d.ask(phone, network, "GET", "/week", "", "Cookie", c.Name+"="+c.Value), http.StatusSeeOther)
}

func TestTheOldestPairingGivesWayWhenThereAreTooMany(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.LAN, o.Burst = true, 10000 })
	first := d.pair(t)
	var last *http.Cookie
	for range mostSessions {
		d.now = d.now.Add(time.Second)
		last = d.pair(t)
	}
	if len(d.Phones()) != mostSessions {
		t.Error("remembers", len(d.Phones()))
	}
	d.refused(t, "first", d.ask(phone, network, "GET", "/week", "", "Cookie", first.Name+"="+first.Value), http.StatusSeeOther)
	d.let(t, "last", d.ask(phone, network, "GET", "/week", "", "Cookie", last.Name+"="+last.Value))
}

func TestTheCalendarKeyOpensTheCalendarAndNothingElse(t *testing.T) {
	d := newTrial(t, lan)
	d.let(t, "right key", d.ask(phone, network, "GET", "/calendar.ics?key="+key, "", "Accept", "*/*"))
	for _, wrong := range []string{"x", key[:len(key)-1], key + "x", strings.ToUpper(key)} {
		d.refused(t, wrong, d.ask(phone, network, "GET", "/calendar.ics?key="+wrong, ""), http.StatusForbidden)
		d.refused(t, wrong, d.ask(here, home, "GET", "/calendar.ics?key="+wrong, ""), http.StatusForbidden)
	}
	for i := range 2000 { // so many that a part of the comparison would not do
		if wrong := fmt.Sprintf("%s%d", key, i); same(wrong, key) {
			t.Fatal(wrong, "counts as", key)
		}
	}
	d.refused(t, "no key", d.ask(phone, network, "GET", "/calendar.ics", "", "Accept", "*/*"), http.StatusUnauthorized)
	d.refused(t, "a form", d.ask(phone, network, "POST", "/calendar.ics?key="+key, "a=1"), http.StatusUnauthorized)
	for _, path := range []string{"/", "/week", "/calendar.ics/", "/calendar.ics/../week", "/Calendar.ics", "/calendar.csv", "//calendar.ics", "/history"} {
		d.refused(t, path, d.ask(phone, network, "GET", path+"?key="+key, ""), http.StatusSeeOther)
	}
	d.refused(t, "the key as a cookie", d.ask(phone, network, "GET", "/week", "", "Cookie", cookieName+"="+key), http.StatusSeeOther)
	if w := d.ask(phone, network, "GET", "/calendar.ics?key="+key, ""); len(w.Result().Cookies()) != 0 {
		t.Error("the key began a session")
	}
}

func TestNoKeyOpensACalendarThatHasNone(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.LAN, o.CalendarKey = true, "" })
	d.refused(t, "empty key", d.ask(phone, network, "GET", "/calendar.ics?key=", ""), http.StatusSeeOther)
	d.refused(t, "some key", d.ask(phone, network, "GET", "/calendar.ics?key=x", ""), http.StatusForbidden)
}

func TestAMachineThatAsksTooOftenWaits(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.LAN, o.Rate, o.Burst = true, 10, 20 })
	many := func(from string, n int) (refused int) {
		for range n {
			if d.ask(from, network, "GET", "/pair", "").Code == http.StatusTooManyRequests {
				refused++
			}
		}
		return refused
	}
	if n := many(phone, 30); n != 10 {
		t.Errorf("%d of 30 at once were refused, want 10", n)
	}
	if n := many("192.168.1.21:1", 20); n != 0 {
		t.Errorf("another machine pays for it: %d of 20 refused", n)
	}
	d.now = d.now.Add(time.Second)
	if n := many(phone, 15); n != 5 {
		t.Errorf("a second later %d of 15 were refused, want 5", n)
	}
	for range 100 {
		if w := d.ask(here, home, "GET", "/week", ""); w.Code != http.StatusOK {
			t.Fatal("the desk's own machine is held up:", w.Code)
		}
	}
}

func TestManyMachinesDoNotFillTheMemory(t *testing.T) {
	l := limits{rate: 1, burst: 2}
	now := time.Date(2027, 1, 5, 9, 0, 0, 0, time.UTC)
	allowed := 0
	for i := range 4 * mostMachines {
		if l.allow(netip.AddrFrom4([4]byte{10, 0, byte(i >> 8), byte(i)}), now) {
			allowed++
		}
	}
	if len(l.machines) > mostMachines || allowed > mostMachines+2 {
		t.Errorf("remembers %d machines, let %d through", len(l.machines), allowed)
	}
	if !l.allow(netip.MustParseAddr("192.168.1.20"), now.Add(10*time.Second)) || len(l.machines) != 1 {
		t.Errorf("those that are quiet again were not forgotten: %d", len(l.machines))
	}
	var six limits
	six.rate, six.burst = 1, 1
	if !six.allow(netip.MustParseAddr("fe80::1"), now) || six.allow(netip.MustParseAddr("fe80::2"), now) {
		t.Error("a machine gets more by many addresses of one network")
	}
}

func TestAFaultInsideIsASentenceAndGoesToTheLog(t *testing.T) {
	d := newTrial(t, nil)
	d.pages = http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("secret detail") })
	d.refused(t, "fault", d.ask(here, home, "GET", "/week", ""), http.StatusInternalServerError)
	if w := d.ask(here, home, "GET", "/week", ""); strings.Contains(w.Body.String(), "secret") || strings.Contains(w.Body.String(), "goroutine") {
		t.Error("the page tells it:", w.Body)
	}
	if len(d.trouble) != 2 || !strings.Contains(d.trouble[0], "secret detail") || !strings.Contains(d.trouble[0], "attack_test.go") {
		t.Error("the log was told", d.trouble)
	}
}

func TestWithoutRandomnessNothingIsPaired(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.LAN, o.Random = true, bytes.NewReader(make([]byte, codeBytes+3)) })
	if err := d.Open(); err != nil {
		t.Fatal(err)
	}
	w := d.tryCode(d.codes[0].Code)
	if w.Code != http.StatusInternalServerError || len(w.Result().Cookies()) != 0 || len(d.Phones()) != 0 {
		t.Errorf("status %d, cookies %v", w.Code, w.Result().Cookies())
	}
	if err := newTrial(t, func(o *Options) { o.LAN, o.Random = true, bytes.NewReader(nil) }).Open(); err == nil {
		t.Error("a code was made of nothing")
	}
}

func TestAGuardNeedsClockRandomnessAndHosts(t *testing.T) {
	now := func() time.Time { return time.Time{} }
	for what, o := range map[string]Options{
		"clock": {Random: &counting{}, Hosts: []string{home}}, "randomness": {Now: now, Hosts: []string{home}}, "hosts": {Now: now, Random: &counting{}},
	} {
		if _, err := New(o); err == nil {
			t.Error("a guard without", what)
		}
	}
}
