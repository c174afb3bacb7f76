package desk

import (
	"net/http"
	"slices"
	"testing"
	"time"
)

// at is the same request, sent from the machine with the address.
func (r *room) at(from string, req *http.Request) page {
	r.t.Helper()
	req.RemoteAddr = from
	return r.answer(req)
}

const here, phone = "127.0.0.1:50000", "192.168.1.7:50000"

func TestTheDeskIsClosedFromItsOwnMachineOnceAndSaysSo(t *testing.T) {
	r := opened(t)
	var closes []time.Duration
	r.desk.opt.Close = func(after time.Duration) { closes = append(closes, after) }

	p := r.at(here, asked(http.MethodGet, "/hours", nil))
	form := p.form("footer", "close")
	if p := r.at(phone, asked(http.MethodGet, "/hours", nil)); p.Find("form[action='/close']").Length() != 0 {
		t.Error("a phone is offered to close the desk")
	}
	if p := r.at(phone, asked(http.MethodPost, "/close", form)); p.status != http.StatusNotFound || closes != nil {
		t.Errorf("a phone closes the desk: %d", p.status)
	}
	if p := r.at(here, asked(http.MethodGet, closedPath, nil)); p.to != "/" || closes != nil {
		t.Errorf("the last page comes before the desk is closed: %d to %q", p.status, p.to)
	}
	wrong := r.at(here, asked(http.MethodGet, "/week", nil)).form("footer", "close")
	wrong.Set("do", "open")
	if p := r.at(here, asked(http.MethodPost, "/close", wrong)); p.status != http.StatusNotFound || closes != nil {
		t.Errorf("something else closes the desk: %d", p.status)
	}
	for range 2 {
		if p := r.at(here, asked(http.MethodPost, "/close", form)); p.status != http.StatusSeeOther || p.to != closedPath {
			t.Errorf("%d to %q", p.status, p.to)
		}
	}
	if !slices.Equal(closes, []time.Duration{closesAnyway}) {
		t.Errorf("closed %v", closes)
	}
	p = r.at(here, asked(http.MethodGet, closedPath, nil))
	p.says("main", "The desk is closed. All that you wrote down is in your book.")
	if !slices.Equal(closes, []time.Duration{closesAnyway, closesAfter}) {
		t.Errorf("after its last page: %v", closes)
	}
	if p.Find("form, nav a").Length() != 0 {
		t.Error("the last page leads on")
	}
}

func TestADeskThatNobodyCanCloseHasNoButtonForIt(t *testing.T) {
	r := opened(t)
	if p := r.at(here, asked(http.MethodGet, "/hours", nil)); p.Find("form[action='/close']").Length() != 0 {
		t.Error("there is one")
	}
}
