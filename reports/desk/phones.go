package desk

import (
	"net/http"
	"strconv"
	"time"
)

// phonesPath is the page of the machines that were paired.
const phonesPath = "/phones"

type phonesPage struct {
	frame
	Phones []phoneRow
}

type phoneRow struct {
	ID                              int
	Name, From, Paired, Seen, Until string
}

func (d *Desk) phones(w http.ResponseWriter, r *http.Request) error {
	if d.opt.Phones == nil {
		return notFound("page")
	}
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := phonesPage{frame: d.frame(l, r, "Phones")}
	for _, x := range d.opt.Phones.Phones() {
		row := phoneRow{x.ID, x.Name, x.From, clockWords(x.Paired), clockWords(x.Seen), clockWords(x.Until)}
		if row.Name == "" {
			row.Name = "phone " + strconv.Itoa(x.ID)
		}
		p.Phones = append(p.Phones, row)
	}
	d.render(w, http.StatusOK, "phones", p)
	return nil
}

// clockWords is a time as the clock on the wall shows it.
func clockWords(t time.Time) string { return t.Format("Mon 2 Jan 15:04") }

// savePhones ends the pairing of a machine.
func (d *Desk) savePhones(w http.ResponseWriter, r *http.Request) error {
	if d.opt.Phones == nil {
		return notFound("page")
	}
	f, err := readForm(r, "phone")
	if err != nil {
		return err
	}
	id, err := strconv.Atoi(f.get("phone"))
	if err != nil || f.get("do") != "end" || !d.opt.Phones.EndPhone(id) {
		return notFound("phone")
	}
	back(w, r, phonesPath, "ended")
	return nil
}
