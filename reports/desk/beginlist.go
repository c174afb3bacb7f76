package desk

import (
	"encoding/csv"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

const (
	listPath     = beginPath + "/list" // where lists were brought once; bringPath takes them now
	templatePath = beginPath + "/dogs.csv"
)

// listView is the form that brings a list: on the page for that, and in the first steps, to which it then leads back.
type listView struct {
	Can  bool     // lists can be read here
	Back string   // the step that it is brought to; empty = none
	More bool     // one is shown already
	Dogs []string // that new shows are for, unless something else is chosen
}

func (d *Desk) listView(l look, back string) listView {
	return listView{Can: d.opt.Bring != nil, Back: back, Dogs: namesOf(l.dogs())}
}

// stepOf is the step that an address is of, of those to which lists can be brought.
func stepOf(address string) (step int, ok bool) {
	for _, step := range []int{stepDogs, stepShows} {
		if address == beginNames[step].path {
			return step, true
		}
	}
	return 0, false
}

// wasList leads on who has the address of the page that brought lists to the first steps.
func (d *Desk) wasList(w http.ResponseWriter, r *http.Request) error {
	http.Redirect(w, r, bringPath+"?back="+url.QueryEscape(beginNames[stepDogs].path), http.StatusSeeOther)
	return nil
}

// listTemplate is a table to fill in: the columns that a dog needs, and two made-up dogs.
func (d *Desk) listTemplate(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "text/csv; charset=utf-8")
	h.Set("Content-Disposition", `attachment; filename="dogs.csv"`)
	c := csv.NewWriter(w)
	weeks := func(n int) string { return l.today.AddDays(-n * kennel.DaysAWeek).String() }
	names := d.opt.Patterns.Names()
	kind := func(want string) string {
		if slices.Contains(names, want) {
			return want
		}
		return names[0]
	}
	const two, three = 104, 156 // weeks old
	for _, row := range [][]string{
		templateColumns,
		{"Example one", kind("border-terrier"), weeks(two), "", "1 " + weeks(14)},
		{"Example two", kind("wire-fox-terrier"), weeks(three), "the owner's name, or nothing", fmt.Sprintf("0.6 %s; 0.4 %s", weeks(16), weeks(6))},
	} {
		if err := c.Write(row); err != nil {
			return err
		}
	}
	c.Flush()
	return errors.Join(c.Error())
}

// templateColumns are the columns of the table: those of the kennel file that a dog needs.
var templateColumns = []string{fields.Dog.Only("name")[0].Name(), fields.Dog.Only("pattern")[0].Name(), fields.Dog.Only("born")[0].Name(), fields.Dog.Only("owner")[0].Name(), "coat"}
