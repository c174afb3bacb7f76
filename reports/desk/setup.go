package desk

import (
	"net/http"
	"time"

	"tuckup/kennel/book"
	"tuckup/kennel/fields"
)

const setUpPath = "/setup"

// setUpFields are what the page asks of the kennel as a whole.
var setUpFields = formFields(fields.Kennel)

type setUpPage struct {
	frame
	Form     *form
	Fields   []fieldView
	Settings settingsPart
	Bring    bool
	Export   bool
	Learn    bool
}

func (d *Desk) setUpRoutes() map[string]handler {
	return map[string]handler{
		"GET " + setUpPath:                d.setUp,
		"POST " + setUpPath:               d.saveSetUp,
		"GET " + bringPath:                unplanned(d.bring),
		"POST " + bringPath:               unplanned(d.saveBring),
		"GET " + learnPath:                d.learned,
		"POST " + learnPath:               d.saveLearned,
		"GET " + patternsPath:             d.patternList,
		"GET " + patternsPath + "/{name}": d.pattern,
		"GET /copies/{file}":              d.copyOut,
	}
}

func (d *Desk) setUp(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	return d.renderSetUp(w, r, l, kennelForm(l), newForm("settings", l.version))
}

// kennelForm is the form of the kennel as it is in the book.
func kennelForm(l look) *form {
	f := newForm("kennel", l.version)
	fillFields(f, fields.Kennel, l.state.Kennel)
	return f
}

// renderSetUp writes the page with its two forms, of which one may come back with what is wrong in it.
func (d *Desk) renderSetUp(w http.ResponseWriter, r *http.Request, l look, f, settings *form) error {
	p := setUpPage{
		frame: d.frame(l, r, "Set up"), Form: f, Fields: fieldViews(f, setUpFields), Bring: d.opt.Bring != nil, Export: d.opt.Export != nil, Learn: d.opt.Learn != nil,
	}
	var err error
	if p.Settings, err = d.settingsPart(r, settings); err != nil {
		return err
	}
	d.render(w, max(f.status(), settings.status()), "setup", p)
	return nil
}

func (d *Desk) saveSetUp(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "kennel")
	if err != nil {
		return err
	}
	switch f.get("do") {
	case "save":
	case "settings":
		return d.saveSettings(w, r, f, l)
	default:
		return notFound("thing to do here")
	}
	said := l.state.Kennel.Clone()
	readFields(f, setUpFields, fields.Kennel.Usual(), &said)
	if z := said.TimeZone; z != "" {
		if _, err := time.LoadLocation(z); err != nil || z == time.Local.String() {
			f.wrong("time_zone", "is not a time zone. Try: Europe/Dublin, or nothing for that of this machine")
		}
	}
	if !f.Bad() {
		done, conflict, err := d.carry(r.Context(), edit{
			version: f.Version,
			key:     f.Key,
			lands:   func(book.Done) string { return address(r, setUpPath, "saved") },
			about:   func(s book.State) []fact { return factsOf(fields.Kennel, s.Kennel) },
			do: func(s *book.State) (string, error) {
				s.Begin()
				s.Kennel = s.Kennel.Clone()
				for _, a := range setUpFields {
					a.Set(&s.Kennel, a.Get(&said))
				}
				return "changed the kennel's name, zone, season or units", nil
			},
		})
		if conflict == nil && err == nil {
			lead(w, r, done.Answer)
			return nil
		}
		if conflict != nil {
			f.Conflict = conflict
		} else if err := f.take(err, named(fields.Kennel, map[string]string{"kennel": "name"})); err != nil {
			return err
		}
		if l, err = d.look(r.Context()); err != nil {
			return err
		}
	}
	f.Version = l.version
	return d.renderSetUp(w, r, l, f, newForm("settings", l.version))
}

// copyOut sends the book as it is, or what it holds of the kennel as a kennel file.
func (d *Desk) copyOut(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	day := l.today.String()
	switch r.PathValue("file") {
	case "book.db":
		data, err := d.opt.Book.Bytes(r.Context())
		if err != nil {
			return err
		}
		d.send(w, "application/vnd.sqlite3", `attachment; filename="book-`+day+`.db"`, data)
		return nil
	case "kennel.yaml":
		if d.opt.Export == nil {
			break
		}
		data, err := d.opt.Export(l.state)
		if err != nil {
			return err
		}
		d.send(w, "application/yaml", `attachment; filename="kennel-`+day+`.yaml"`, data)
		return nil
	}
	return notFound("copy")
}
