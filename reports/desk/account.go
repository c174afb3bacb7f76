package desk

import (
	"bytes"
	"net/http"
	"slices"

	"tuckup/kennel"
	"tuckup/reports"
)

const accountPath = "/account"

type accountPage struct {
	frame
	Form    *form
	Rates   []fieldView
	Account *reports.AccountShown // nil when something is wrong with the form
	Table   string                // the address of the table
}

// account is the work done, counted and charged by the terms in the address.
func (d *Desk) account(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("account", l.version)
	f.Values, f.Dates = r.URL.Query(), l.state.Kennel.Dates
	if f.get("from")+f.get("to") == "" {
		first := l.today.Time()
		f.set("from", kennel.NewDate(first.Year(), first.Month(), 1).String())
		f.set("to", l.today.String())
	}
	terms := d.terms()
	terms.From, terms.To = f.date("from", false), f.date("to", false)
	if terms.To != 0 && terms.From > terms.To {
		f.wrong("to", "is before the first day")
	}
	terms.Currency = f.get("currency")
	f.rate("rate", "", &terms)
	for _, h := range l.state.Kennel.Hands {
		f.rate("rate "+h.Name, h.Name, &terms)
	}
	if len(terms.Rates) == 0 {
		terms.Currency = ""
	} else if terms.Currency == "" {
		f.wrong("currency", "is missing: a code like EUR, GBP or USD")
	}
	var work []kennel.Work
	for _, x := range l.state.Work {
		work = append(work, x.Work)
	}
	a, err := reports.NewAccount(l.state.Kennel, work, terms)
	if err != nil {
		f.wrong("currency", err.Error()+". Try: a code like EUR, GBP or USD")
	}
	if !f.Bad() && r.URL.Query().Get("as") == "csv" {
		var b bytes.Buffer
		if err := reports.AccountCSV(&b, a); err != nil {
			return err
		}
		d.paperOut(w, r, "account.csv", b.Bytes())
		return nil
	}
	p := accountPage{frame: d.frame(l, r, "Account"), Form: f}
	for _, h := range l.state.Kennel.Hands {
		if len(l.state.Kennel.Hands) > 1 {
			p.Rates = append(p.Rates, newField(f, "rate "+h.Name, "An hour of "+h.Name, "mode=decimal"))
		}
	}
	if !f.Bad() {
		shown := reports.ShowAccount(a)
		p.Account = &shown
		q := r.URL.Query()
		q.Set("from", f.get("from"))
		q.Set("to", f.get("to"))
		q.Set("as", "csv")
		p.Table = accountPath + "?" + q.Encode()
	}
	d.render(w, f.status(), "account", p)
	return nil
}

// rate reads what an hour is charged at; an empty field charges nothing.
func (f *form) rate(name, hands string, to *reports.Terms) {
	said := f.get(name)
	if said == "" {
		return
	}
	money, err := reports.ParseMoney(said)
	if err != nil {
		f.wrong(name, "is not an amount. Try: 24.50")
		return
	}
	if !slices.ContainsFunc(to.Rates, func(r reports.Rate) bool { return r.Hands == hands }) {
		to.Rates = append(to.Rates, reports.Rate{Hands: hands, AnHour: money})
	}
}
