package desk

import (
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/say"
)

type stringPage struct {
	frame
	Dogs     []stringDog
	Gone     []string
	Form     *form
	Patterns []option
	Open     bool
}

type stringDog struct {
	Name, Path, Kind, State, Score, Next, NextScore, Week, Most string
	Bad                                                         bool // not in coat for the next show
	Ribbon                                                      template.HTML
}

func (d *Desk) stringPage(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("dog", l.version)
	d.renderString(w, r, l, f)
	return nil
}

func dogPath(name string) string { return "/dogs/" + url.PathEscape(name) }

func (d *Desk) renderString(w http.ResponseWriter, r *http.Request, l look, f *form) {
	p := stringPage{frame: d.frame(l, r, "String"), Form: f}
	p.Patterns = append(p.Patterns, option{Value: "", Words: "choose"})
	for _, name := range d.opt.Patterns.Names() {
		p.Patterns = append(p.Patterns, option{Value: name, Words: d.opt.Patterns[name].Title})
	}
	dogs := l.dogs()
	for _, dog := range dogs {
		p.Dogs = append(p.Dogs, d.stringDog(l, dog))
	}
	for _, dog := range l.state.Kennel.Dogs {
		if dog.Gone(l.today) {
			p.Gone = append(p.Gone, dog.Name)
		}
	}
	p.Open = f.Bad() || len(dogs) == 0
	d.render(w, f.status(), "string", p)
}

func (d *Desk) stringDog(l look, dog kennel.Dog) stringDog {
	v := stringDog{Name: dog.Name, Path: dogPath(dog.Name), Kind: d.opt.Patterns[dog.Pattern].Title}
	if l.plan == nil {
		return v
	}
	for i, o := range l.plan.Outlooks {
		if o.Dog != dog.Name {
			continue
		}
		v.State, v.Score = string(o.State), kennel.ScoreWords(o.Score)
		ribbon, err := l.plan.views.ribbon(l.plan.Result, i)
		if err != nil {
			d.opt.Log.Warn().Err(err).Str("dog", dog.Name).Msg("a coat could not be drawn")
		}
		v.Ribbon = ribbon
	}
	for _, x := range l.plan.Readiness {
		if x.Dog == dog.Name {
			v.Next = fmt.Sprintf("%s, %s, %s", x.Show, say.Day(x.On, l.today), say.Chance(x.Chance))
			v.NextScore, v.Bad = kennel.ScoreWords(x.Score), notReady(x)
			if band := say.Range(x); band != "" {
				v.NextScore += " (" + band + ")"
			}
			break
		}
	}
	v.Week, v.Most = costWords(l.plan.Result, dog.Name)
	return v
}

// costWords is what a dog takes a week: on the mean of the weeks with work on it, and in the longest.
func costWords(r optimize.Result, dog string) (mean, most string) {
	var sum, longest kennel.Minutes
	weeks := 0
	for _, w := range r.Weeks {
		var m kennel.Minutes
		for _, x := range w.Dogs {
			if x.Dog == dog {
				m += x.Minutes + x.SetUp
			}
		}
		for _, x := range w.Duties {
			if x.Dog == dog {
				m += x.Minutes
			}
		}
		if m > 0 {
			weeks++
		}
		sum += m
		longest = max(longest, m)
	}
	if weeks == 0 {
		return "no work", ""
	}
	return say.Minutes(sum/kennel.Minutes(weeks)) + " a week", "at most " + say.Minutes(longest)
}

// newDogFields are the fields that the form of a new dog asks for; its own page asks for the others.
var newDogFields = dogThing.Only("name", "born", "owner")

// dogAdded is the edit that adds the form's dog.
func (f *form) dogAdded(dog kennel.Dog, today kennel.Date) edit {
	return edit{
		version: f.Version,
		about: func(s book.State) (all []fact) {
			if slices.Contains(s.Kennel.DogNames(), dog.Name) {
				all = append(all, fact{dog.Name, "is in the book"})
			}
			return all
		},
		do: func(s *book.State) (string, error) {
			s.Begin()
			return s.AddDog(dog, today), nil
		},
	}
}

func (d *Desk) saveString(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "dog")
	if err != nil {
		return err
	}
	dog := kennel.UsualDog()
	readFields(f, newDogFields, dog, &dog)
	dog.Pattern = f.get("pattern")
	if slices.Contains(l.state.Kennel.DogNames(), dog.Name) {
		f.wrong("name", "is in the string already")
	}
	if _, ok := d.opt.Patterns[dog.Pattern]; !ok {
		f.wrong("pattern", "is missing: it says how the coat behaves")
	}
	if words, at := f.coatWords(); len(words) == 0 {
		f.wrong("coat", "is missing: the day when the coat was last pulled, or shares with days like 0.6 2026-09-20 0.4 2026-12-01")
	} else {
		layers, err := kennel.ParseLayers(words)
		dog.All = parsed(f, at, layers, err)
		notAfter(f, at, dog.All, l.today)
	}
	if !f.Bad() {
		now, done, err := d.saved(w, r, f, f.dogAdded(dog, l.today), dogPath(dog.Name), dogFields)
		if err != nil || done {
			return err
		}
		l = now
	}
	f.Version = l.version
	d.renderString(w, r, l, f)
	return nil
}
