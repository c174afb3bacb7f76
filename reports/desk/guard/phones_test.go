package guard

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"
)

// pairAs pairs a machine under a name.
func (d *trial) pairAs(t *testing.T, from, name string) *http.Cookie {
	t.Helper()
	d.ask(from, network, "GET", "/pair", "")
	w := d.ask(from, network, "POST", "/pair", url.Values{"code": {d.codes[len(d.codes)-1].Code}, "name": {name}}.Encode())
	if cookies := w.Result().Cookies(); len(cookies) == 1 {
		return cookies[0]
	}
	t.Fatalf("not paired: %d %s", w.Code, w.Body)
	return nil
}

func (d *trial) visit(from string, c *http.Cookie) *httptest.ResponseRecorder {
	return d.ask(from, network, "GET", "/week", "", "Cookie", c.Name+"="+c.Value)
}

func TestPairedPhonesAreListedWithNameAndWhenTheyWereSeen(t *testing.T) {
	d := newTrial(t, lan)
	if got := d.Phones(); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	start := d.now
	table := d.pairAs(t, phone, "  the one at\nthe table  ")
	d.now = d.now.Add(time.Hour)
	d.pairAs(t, "192.168.1.21:50000", strings.Repeat("é", 2*longestName))
	d.now = d.now.Add(time.Hour)
	d.let(t, "paired", d.visit("192.168.1.30:50000", table))
	got := d.Phones()
	if len(got) != 2 || got[0].ID != 1 || got[0].Name != "the one at the table" || got[0].From != "192.168.1.30" ||
		!got[0].Paired.Equal(start) || !got[0].Seen.Equal(start.Add(2*time.Hour)) || !got[0].Until.Equal(start.Add(sessionsLast)) {
		t.Errorf("%+v", got)
	}
	if got[1].ID != 2 || got[1].Name != strings.Repeat("é", longestName) || !got[1].Seen.Equal(start.Add(time.Hour)) {
		t.Errorf("%+v", got[1])
	}
	d.now = start.Add(sessionsLast)
	if got := d.Phones(); len(got) != 1 || got[0].ID != 2 {
		t.Errorf("after a week: %+v", got)
	}
}

func TestAPhoneThatIsEndedIsOut(t *testing.T) {
	d := newTrial(t, lan)
	first, second := d.pairAs(t, phone, "first"), d.pairAs(t, phone, "second")
	if !d.EndPhone(1) || d.EndPhone(1) || d.EndPhone(99) {
		t.Error("the first could not be ended once")
	}
	d.refused(t, "ended", d.visit(phone, first), http.StatusSeeOther)
	d.let(t, "the other", d.visit(phone, second))
	third := d.pairAs(t, phone, "third")
	d.let(t, "paired again", d.visit(phone, third))
	if got := d.Phones(); len(got) != 2 || got[1].ID != 3 {
		t.Errorf("%+v", got)
	}
}

// What the page says of codes is so: when one is open, when it was withdrawn, and from when there is a new one.
func TestThePairPageSaysWhichCodeIsOpen(t *testing.T) {
	d := newTrial(t, lan)
	look := func() string { return d.ask(phone, network, "GET", "/pair", "").Body.String() }
	says := func(page, words string) {
		t.Helper()
		if !strings.Contains(page, words) {
			t.Errorf("%q is not in %s", words, page)
		}
	}
	says(look(), "shows a code")
	says(d.tryCode("AAAA-AAAA").Body.String(), "After 4 more wrong tries it is withdrawn")
	for range wrongTries - 2 {
		d.tryCode("AAAA-AAAA")
	}
	says(d.tryCode("AAAA-AAAA").Body.String(), "Wrong codes were typed 5 times, so the code was withdrawn. Open this page again in 60 seconds")
	d.now = d.now.Add(20 * time.Second)
	says(look(), "in 40 seconds")
	if len(d.codes) != 1 {
		t.Error("a code was shown in the pause:", d.codes)
	}
	d.now = d.now.Add(40 * time.Second)
	says(look(), "shows a code")
	if len(d.codes) != 2 {
		t.Error("after the pause none was shown:", d.codes)
	}
	code := d.codes[1].Code
	d.now = d.now.Add(codeLasts)
	says(d.tryCode(code).Body.String(), "No code is open")
	says(look(), "shows a code")
}

func TestAPhoneThatWasPairedBeginsOnToday(t *testing.T) {
	d := newTrial(t, lan)
	d.ask(phone, network, "GET", "/pair", "")
	w := d.ask(phone, network, "POST", "/pair", url.Values{"code": {d.codes[0].Code}}.Encode())
	if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || to != "/today" {
		t.Errorf("paired it is led to %q (%d)", to, w.Code)
	}
	c := w.Result().Cookies()[0]
	if to := d.ask(phone, network, "GET", "/pair", "", "Cookie", c.Name+"="+c.Value).Header().Get("Location"); to != "/today" {
		t.Errorf("paired already it is led to %q", to)
	}
}
