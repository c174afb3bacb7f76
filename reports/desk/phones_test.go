package desk

import (
	"net/http"
	"slices"
	"testing"
	"time"

	"tuckup/reports/desk/guard"
)

// paired are phones that were paired.
type paired []guard.Phone

func (p *paired) Phones() []guard.Phone { return *p }

func (p *paired) EndPhone(id int) bool {
	before := len(*p)
	*p = slices.DeleteFunc(*p, func(x guard.Phone) bool { return x.ID == id })
	return len(*p) < before
}

func TestAPairedPhoneIsSeenAndEndedInThePage(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2027, 1, day, hour, 5, 0, 0, time.UTC) }
	phones := &paired{
		{ID: 1, Name: "<the table>", From: "192.168.1.20", Paired: at(2, 8), Seen: at(4, 9), Until: at(9, 8)},
		{ID: 3, From: "192.168.1.21", Paired: at(3, 8), Seen: at(3, 8), Until: at(10, 8)},
	}
	r := opened(t)
	r.desk.opt.Phones = phones
	r.get("/today").says("nav", "Phones")
	p := r.get("/phones")
	p.says(".phones tr:contains(table)", "<the table>Sat 2 Jan 08:05Mon 4 Jan 09:05192.168.1.20Sat 9 Jan 08:05")
	p.says(".phones", "phone 3")
	form := p.form("[aria-labelledby=phones]", "end")
	if form.Get("phone") != "1" {
		t.Errorf("the first form ends %q", form.Get("phone"))
	}
	p = r.send("/phones", form)
	p.says(".said", "Ended")
	if p.Find(".phones tbody tr").Length() != 1 || len(*phones) != 1 || (*phones)[0].ID != 3 {
		t.Errorf("%+v", *phones)
	}
	if p := r.ask(http.MethodPost, "/phones", form); p.status != http.StatusSeeOther || len(*phones) != 1 {
		t.Errorf("the same form again: %d, %+v", p.status, *phones)
	}
	form.Set("key", "of another page")
	if p := r.ask(http.MethodPost, "/phones", form); p.status != http.StatusNotFound {
		t.Errorf("ended twice: %d", p.status)
	}
	r.send("/phones", p.form("[aria-labelledby=phones]", "end")).says("main", "No phone is paired.")
}

func TestWithoutANetworkThereIsNoPageOfPhones(t *testing.T) {
	r := opened(t)
	for _, method := range []string{http.MethodGet, http.MethodPost} {
		if p := r.ask(method, "/phones", nil); p.status != http.StatusNotFound {
			t.Errorf("%s: %d", method, p.status)
		}
	}
	if p := r.get("/today"); p.Find("nav a[href='/phones']").Length() != 0 {
		t.Error("the menu leads there")
	}
}
