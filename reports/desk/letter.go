package desk

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

type letterPage struct {
	frame
	To     string // whom it is to; empty = nobody is chosen
	On     string
	Form   *form
	Owners []option
	Parts  []html.Part
	Foot   []string
	File   string // address of the letter as one file
	Mail   string // address that opens it in the mail program
}

// letterPath is where letters are written.
const letterPath = "/letter"

// letter is what an owner is sent in a month: to read, to print, to mail.
func (d *Desk) letter(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := letterPage{frame: d.frame(l, r, "Letter to an owner"), Form: newForm("letter", l.version), On: say.LongDay(l.today)}
	p.Form.Values = r.URL.Query()
	if p.Form.get("month") == "" {
		p.Form.set("month", l.today.Time().Format(monthForm))
	}
	p.Owners = []option{{Words: "an owner"}}
	for _, o := range l.state.Kennel.Owners() {
		p.Owners = append(p.Owners, option{Value: o, Words: o})
	}
	to, bill := p.Form.get("owner"), d.billOf(l, p.Form)
	if l.plan == nil || to == "" || p.Form.Bad() {
		d.render(w, p.Form.status(), "letter", p)
		return nil
	}
	if to, err = l.plan.Kennel.FindOwner(to); err != nil {
		return err
	}
	if r.URL.Query().Get("file") != "" {
		var b bytes.Buffer
		if err := html.Letter(&b, l.plan.Result, to, bill, d.inside(l.photos)); err != nil {
			return err
		}
		d.send(w, "text/html; charset=utf-8", `attachment; filename="letter.html"`, b.Bytes())
		return nil
	}
	if p.Parts, err = html.LetterParts(l.plan.Result, to, bill, l.photos); err != nil {
		return err
	}
	p.To, p.Title, p.Foot = to, "For "+to+", "+bill.Month.Time().Format("January 2006"), say.LetterFoot()
	file := p.Form.Values
	file.Set("file", "yes")
	p.File, p.Mail = letterPath+"?"+file.Encode(), mailOf(l.plan.Result, to, p.Title)
	d.render(w, http.StatusOK, "letter", p)
	return nil
}

// monthForm is how a month is written.
const monthForm = "2006-01"

// billOf is the work of the month that the form names, charged at its rate; what is wrong is noted in it.
func (d *Desk) billOf(l look, f *form) tally.Bill {
	first, err := time.Parse(monthForm, f.get("month"))
	if err != nil {
		f.wrong("month", "is not a month like 2027-02")
		first = l.today.Time()
	}
	terms := d.terms()
	terms.From = kennel.NewDate(first.Year(), first.Month(), 1)
	terms.To = kennel.NewDate(first.Year(), first.Month()+1, 1).AddDays(-1)
	if said := f.get("rate"); said != "" {
		rate, err := reports.ParseMoney(said)
		if err != nil {
			f.wrong("rate", "is not an amount like 24.50")
		}
		terms.Rates, terms.Currency = []reports.Rate{{AnHour: rate}}, strings.ToUpper(f.get("currency"))
		if terms.Currency == "" {
			f.wrong("currency", "is missing: a code like EUR")
		}
	}
	if f.Bad() {
		return tally.Bill{Month: terms.From}
	}
	var work []kennel.Work
	for _, w := range l.state.Work {
		work = append(work, w.Work)
	}
	account, err := reports.NewAccount(l.state.Kennel, work, terms)
	if err != nil {
		f.wrong("currency", "is not a currency; a code like EUR, GBP or USD")
	}
	return account.BillOf(f.get("owner"))
}

// mailOf opens the letter's sentences in the mail program; the file is for attaching.
func mailOf(r optimize.Result, owner, subject string) string {
	var b strings.Builder
	for _, dog := range r.Kennel.Dogs {
		if dog.Owner != owner {
			continue
		}
		l := say.LetterOf(r, dog)
		fmt.Fprintf(&b, "%s\r\n%s\r\n%s\r\n%s\r\n", say.Plain(dog.Name), say.Plain(l.How), say.Plain(l.Next), say.Plain(l.Decide))
		for _, x := range l.Shows {
			fmt.Fprintf(&b, "- %s, %s: %s; left alone %s\r\n", say.Plain(x.Show), say.Day(x.On, r.On), kennel.ScoreWords(x.Score), kennel.ScoreWords(x.Idle))
		}
		if l.More != "" {
			b.WriteString(l.More + "\r\n")
		}
		b.WriteString("\r\n")
	}
	escaped := func(s string) string { return strings.ReplaceAll(url.QueryEscape(s), "+", "%20") }
	return "mailto:?subject=" + escaped(say.Plain(subject)) + "&body=" + escaped(b.String())
}
