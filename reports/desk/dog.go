package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/html"
	"tuckup/reports/say"
)

type dogPage struct {
	frame
	Dog                         string
	Path, Home, Letter          string
	About                       string
	Parts                       []html.Part
	Now                         string // how its coat is today, the worst area first
	Troubles                    []trouble
	Facts, Coat, Duty, Measured *form
	Spell, Outline, Photo       *form
	Photos                      []photoRow
	Outlines                    []fact // area and what is wanted of it
	SpellFields                 []fieldView
	Spells                      []spellRow
	Areas                       []option    // with the whole dog first
	Measure                     []option    // the areas alone
	Fields                      []fieldView // of the dog and the table
	Duties                      []dutyRow
	Layers                      []fact
	Retired                     bool
	Open                        string // the form that was sent
}

type photoRow struct {
	ID    int64
	Words string
}

type spellRow struct{ From, Words string }

type dutyRow struct{ Name, Words string }

func (d *Desk) dog(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	dog, ok := l.dogNamed(r.PathValue("name"))
	if !ok {
		return notFound("dog")
	}
	return d.renderDog(w, r, l, dog, nil)
}

func (d *Desk) renderDog(w http.ResponseWriter, r *http.Request, l look, dog kennel.Dog, f *form) error {
	p := dogPage{frame: d.frame(l, r, dog.Name), Dog: dog.Name, Path: dogPath(dog.Name), Home: homePath(dog.Name), Retired: dog.Gone(l.today)}
	p.About = d.opt.Patterns[dog.Pattern].Title
	if dog.Owner != "" {
		p.Letter = letterPath + "?" + url.Values{"owner": {dog.Owner}}.Encode()
		p.About += ", owner " + dog.Owner
	}
	if l.plan != nil && slices.Contains(l.plan.Kennel.DogNames(), dog.Name) {
		p.Troubles = troublesOf(troubles(l), dog.Name)
		for i := range p.Troubles {
			p.Troubles[i].Why = say.FirstUpper(p.Troubles[i].Why)
		}
		p.Now = nowWords(l.plan.Result, dog.Name)
		var err error
		if p.Parts, err = html.DogParts(l.plan.Result, dog.Name, l.records()); err != nil {
			return err
		}
	}
	p.Facts, p.Coat, p.Duty, p.Measured = newForm("facts", l.version), newForm("coat", l.version), newForm("duty", l.version), newForm("length", l.version)
	p.Spell, p.Outline = newForm("spell", l.version), newForm("outline", l.version)
	p.Photo = newForm("photo", l.version)
	p.Photo.set("photo_on", l.today.String())
	p.Facts.fillDog(dog)
	p.Coat.set("seen", l.today.String())
	p.Measured.set("measured_on", l.today.String())
	now := dog
	for _, x := range l.state.Now(d.opt.Patterns, l.today).Dogs {
		if x.Name == dog.Name {
			now = x
		}
	}
	p.Areas = []option{{Value: "", Words: "the whole dog"}}
	for _, a := range d.opt.Patterns[dog.Pattern].Areas {
		p.Areas = append(p.Areas, option{Value: string(a.Name), Words: string(a.Name)})
		p.Layers = append(p.Layers, fact{string(a.Name), coatWords(now, a)})
	}
	p.Measure = p.Areas[1:]
	for _, x := range dog.Duties {
		p.Duties = append(p.Duties, dutyRow{x.Name, dutyWords(x)})
	}
	of := l.state.PhotosOf()
	for i, x := range l.state.Photos {
		if x.Dog == dog.Name {
			words := strings.TrimSpace(x.On.String() + " " + string(x.Area))
			if with := say.PhotoOf(x.Photo, of[i], l.state.Kennel.Units); with != "" {
				words += ", " + with
			}
			p.Photos = append(p.Photos, photoRow{x.ID, strings.TrimSpace(words + " " + x.Note)})
		}
	}
	for _, x := range dog.Outlines {
		p.Outlines = append(p.Outlines, fact{string(x.Area), say.Outline(x, l.state.Kennel.Units)})
	}
	for _, x := range dog.Spells {
		p.Spells = append(p.Spells, spellRow{x.From.String(), say.Spell(x)})
	}
	status := http.StatusOK
	if f != nil {
		p.Open = f.get("do")
		status = f.status()
		for do, at := range map[string]**form{"facts": &p.Facts, "coat": &p.Coat, "duty": &p.Duty, "measure": &p.Measured, "spell": &p.Spell, "outline": &p.Outline, "photo": &p.Photo} {
			if do == p.Open {
				f.ID, f.Version = (*at).ID, l.version
				*at = f
			}
		}
	}
	p.Fields = fieldViews(p.Facts, formFields(dogThing))
	p.SpellFields = fieldViews(p.Spell, formFields(spellThing))
	d.render(w, status, "dog", p)
	return nil
}

// nowWords say how a dog's coat is today, and its worst area.
func nowWords(r optimize.Result, dog string) string {
	for _, o := range r.Outlooks {
		if o.Dog == dog {
			worst := say.WorstArea(o)
			return fmt.Sprintf("Today %s, %s; %s.", kennel.ScoreWords(o.Score), o.State, say.Worst(worst.Area, worst.Score, worst.Why))
		}
	}
	return ""
}

// coatWords are what is on an area of the dog; of kept hair what was lost.
func coatWords(d kennel.Dog, a kennel.PatternArea) string {
	layers := d.LayersOf(a)
	switch {
	case !a.Kept:
		return layersWords(layers)
	case len(layers) == 0:
		return "whole"
	}
	return "lost " + layersWords(layers)
}

func layersWords(layers []kennel.Layer) string {
	parts := make([]string, len(layers))
	for i, x := range layers {
		parts[i] = strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", float64(x.Share)), "0"), ".") + " " + x.Pulled.String()
	}
	return strings.Join(parts, " ")
}

func dutyWords(x kennel.Duty) string {
	if x.Minutes == 0 {
		return say.Due(x)
	}
	return say.Minutes(x.Minutes) + ", " + say.Due(x)
}

func (d *Desk) saveDog(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "dog")
	if err != nil {
		return err
	}
	dog, ok := l.dogNamed(r.PathValue("name"))
	if !ok {
		return notFound("dog")
	}
	e := f.dogEdit(l, dog)
	if e.do == nil && !f.Bad() {
		return notFound("thing to do with a dog")
	}
	if !f.Bad() {
		page := dogPath(dog.Name)
		if f.get("do") == "facts" {
			page = dogPath(f.get("name"))
		}
		now, done, err := d.saved(w, r, f, e, page, dogFields)
		if err != nil || done {
			return err
		}
		l = now
	}
	return d.renderDog(w, r, l, dog, f)
}
