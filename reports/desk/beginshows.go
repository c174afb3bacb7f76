package desk

import (
	"fmt"
	"net/http"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

type beginShowsPage struct {
	beginPage
	Shows  []showRow
	Form   *form
	Fields []fieldView
	Dogs   []dogBox
	List   listView
}

// beginShowFields are what the first steps ask of a show; its own page asks for the rest.
var beginShowFields = fields.Show.Only("name", "on", "entries_close")

// The ways to go to a show, in percent of certainty.
const hopedFor = "50"

func (d *Desk) beginShows(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("show", l.version)
	f.Values["dogs"] = namesOf(l.dogs())
	d.renderBeginShows(w, r, l, f)
	return nil
}

func namesOf(dogs []kennel.Dog) (names []string) {
	for _, dog := range dogs {
		names = append(names, dog.Name)
	}
	return names
}

func (d *Desk) renderBeginShows(w http.ResponseWriter, r *http.Request, l look, f *form) {
	p := beginShowsPage{beginPage: d.beginning(l, r, stepShows), Form: f, List: d.listView(l, beginNames[stepShows].path)}
	var all showsPage
	all.list(l)
	p.Shows = slices.Concat(all.Shows, all.Bare)
	p.Fields = append(fieldViews(f, beginShowFields), newChoice(f, "chance", "Are the dogs entered?", []option{
		{Value: "", Words: "yes, entered"}, {Value: hopedFor, Words: "not yet: hoped for"},
	}))
	for i, name := range namesOf(l.dogs()) {
		p.Dogs = append(p.Dogs, dogBox{name, fmt.Sprintf("show-dog-%d", i+1), slices.Contains(f.Values["dogs"], name)})
	}
	d.render(w, f.status(), "beginshows", p)
}

func (d *Desk) saveBeginShows(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "show")
	if err != nil {
		return err
	}
	if e, ok := f.showEdit(l); ok && !f.Bad() {
		now, done, err := d.saved(w, r, f, e, beginNames[stepShows].path, showFields)
		if err != nil || done {
			return err
		}
		l = now
	}
	f.Version = l.version
	d.renderBeginShows(w, r, l, f)
	return nil
}
