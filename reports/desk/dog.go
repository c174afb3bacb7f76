package desk

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/html"
	"tuckup/reports/say"
)

type dogPage struct {
	frame
	Dog                         string
	Path                        string
	About                       string
	Parts                       []html.Part
	Facts, Coat, Duty, Measured *form
	Areas                       []option
	Textures                    []option
	Duties                      []dutyRow
	Layers                      []fact
	Retired                     bool
	Open                        string // the form that was sent
}

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
	p := dogPage{frame: d.frame(l, r, dog.Name), Dog: dog.Name, Path: dogPath(dog.Name), Retired: dog.Gone(l.today)}
	p.About = d.opt.Patterns[dog.Pattern].Title
	if dog.Owner != "" {
		p.About += ", owner " + dog.Owner
	}
	if l.plan != nil && slices.Contains(l.plan.Kennel.DogNames(), dog.Name) {
		x := html.Records{Private: true}
		for _, w := range l.state.Work {
			x.Work = append(x.Work, w.Work)
		}
		for _, m := range l.state.Measures {
			x.Measures = append(x.Measures, m.Measure)
		}
		var err error
		if p.Parts, err = html.DogParts(l.plan.Result, dog.Name, x); err != nil {
			return err
		}
	}
	p.Facts, p.Coat, p.Duty, p.Measured = newForm("facts", l.version), newForm("coat", l.version), newForm("duty", l.version), newForm("length", l.version)
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
		p.Layers = append(p.Layers, fact{string(a.Name), layersWords(now.LayersOn(a.Name))})
	}
	p.Textures = []option{{Value: "", Words: "the pattern's"}}
	for _, t := range []kennel.Texture{kennel.TextureHard, kennel.TextureFine, kennel.TextureSoft} {
		p.Textures = append(p.Textures, option{Value: string(t), Words: string(t)})
	}
	for _, x := range dog.Duties {
		p.Duties = append(p.Duties, dutyRow{x.Name, dutyWords(x)})
	}
	status := http.StatusOK
	if f != nil {
		p.Open = f.get("do")
		status = f.status()
		for do, at := range map[string]**form{"facts": &p.Facts, "coat": &p.Coat, "duty": &p.Duty, "measure": &p.Measured} {
			if do == p.Open {
				f.ID, f.Version = (*at).ID, l.version
				*at = f
			}
		}
	}
	d.render(w, status, "dog", p)
	return nil
}

func layersWords(layers []kennel.Layer) string {
	parts := make([]string, len(layers))
	for i, x := range layers {
		parts[i] = strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", float64(x.Share)), "0"), ".") + " " + x.Pulled.String()
	}
	return strings.Join(parts, " ")
}

func dutyWords(x kennel.Duty) string {
	if x.Before != nil {
		return fmt.Sprintf("%s, %d to %d days before a show", say.Minutes(x.Minutes), x.Before.From, x.Before.To)
	}
	return fmt.Sprintf("%s, every %s", say.Minutes(x.Minutes), say.Plural(int(x.Every), "week"))
}

func (f *form) fillDog(dog kennel.Dog) {
	f.set("name", dog.Name)
	f.set("owner", dog.Owner)
	f.set("born", dog.Born.String())
	f.set("texture", string(dog.Coat.Texture))
	f.set("growth", kennel.Number(dog.Coat.Growth))
	f.set("pace", kennel.Number(dog.Coat.Pace))
	f.set("priority", kennel.Number(dog.Priority))
	f.set("set_up", kennel.Number(float64(dog.Table.SetUp)))
	f.set("minutes", kennel.Number(float64(dog.Table.Minutes)))
	f.set("a_week", strconv.Itoa(dog.Table.AWeek))
	if dog.Coat.RollOnly {
		f.set("roll_only", "yes")
	}
	if n := len(dog.Here); n > 0 {
		f.set("from", dog.Here[n-1].From.String())
		f.set("to", dog.Here[n-1].To.String())
	}
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
		to, err := d.save(r, f, e, page, dogFields)
		if err != nil {
			return err
		}
		if to != "" {
			lead(w, r, to)
			return nil
		}
		if l, err = d.look(r.Context()); err != nil {
			return err
		}
	}
	return d.renderDog(w, r, l, dog, f)
}

// dogEdit is the change that the form asks for; what is wrong is noted in it.
func (f *form) dogEdit(l look, dog kennel.Dog) edit {
	e := edit{version: f.Version, about: func(s book.State) []fact { return dogFacts(s, dog.Name) }}
	change := func(what string, edit func(s *book.State, x *kennel.Dog) error) {
		e.do = func(s *book.State) (string, error) {
			i := slices.Index(s.Kennel.DogNames(), dog.Name)
			if i < 0 {
				return "", &kennel.InputError{Field: "name", Value: dog.Name, What: "is not in the book any more", Try: "the page of the string"}
			}
			s.Kennel.Dogs = slices.Clone(s.Kennel.Dogs)
			return what, edit(s, &s.Kennel.Dogs[i])
		}
	}
	switch f.get("do") {
	case "facts":
		told := f.toDog(dog)
		change("changed the dog "+dog.Name, func(s *book.State, x *kennel.Dog) error {
			told.All, told.Areas, told.Duties, told.Pattern = x.All, x.Areas, x.Duties, x.Pattern
			name := told.Name
			told.Name = x.Name
			*x = told
			told.Name = name
			if name != dog.Name {
				s.RenameDog(dog.Name, name)
			}
			return nil
		})
	case "coat":
		f.coatEdit(l, dog, change)
	case "duty":
		duty, err := kennel.ParseDuty(f.get("duty"))
		duty = parsed(f, "duty", duty, err)
		change(fmt.Sprintf("gave %s the duty %s", dog.Name, duty.Name), func(_ *book.State, x *kennel.Dog) error {
			x.DropDuty(duty.Name)
			x.Duties = append(slices.Clone(x.Duties), duty)
			return nil
		})
	case "drop-duty":
		name := f.get("duty")
		change(fmt.Sprintf("took the duty %s from %s", name, dog.Name), func(_ *book.State, x *kennel.Dog) error {
			x.DropDuty(name)
			return nil
		})
	case "measure":
		f.set("measured", f.get("measured"))
		on := f.date("measured_on", true)
		if on > l.today {
			f.wrong("measured_on", "is after today")
		}
		m := f.toMeasure(l, kennel.Work{Dog: dog.Name, On: on})
		if m == nil && !f.Bad() {
			f.wrong("length", "is missing: the length that was taken")
		}
		if m != nil {
			m.Note = f.get("note")
			measure := *m
			change(fmt.Sprintf("measured the %s of %s on %s", measure.Area, dog.Name, on), func(s *book.State, _ *kennel.Dog) error {
				s.Measures = append(slices.Clone(s.Measures), book.Measure{Measure: measure})
				return nil
			})
		}
	case "retire":
		change("retired the dog "+dog.Name, func(s *book.State, x *kennel.Dog) error {
			name := x.Name
			if _, err := s.Kennel.Retire(name, l.today); err != nil {
				var in *kennel.InputError
				if errors.As(err, &in) {
					return &statusError{http.StatusUnprocessableEntity, inputWords(in) + ".", in.Try}
				}
				return err
			}
			s.DropSessions(name, l.today.AddDays(1))
			return nil
		})
	}
	return e
}

func (f *form) coatEdit(l look, dog kennel.Dog, change func(string, func(*book.State, *kennel.Dog) error)) {
	area := kennel.AreaName(f.get("area"))
	if area != book.AllAreas && !slices.Contains(kennel.AreaNames(), area) {
		f.wrong("area", "is not an area of the coat")
	}
	seen := f.date("seen", true)
	if seen > l.today {
		f.wrong("seen", "is after today")
	}
	if f.get("coat") == "" {
		f.wrong("coat", "is missing: shares with the days of their last pull, like 0.6 2026-09-20 0.4 2026-12-01")
		return
	}
	layers, err := kennel.ParseLayers(strings.Fields(f.get("coat")))
	layers = parsed(f, "coat", layers, err)
	notAfter(f, "coat", layers, seen)
	what := string(area)
	if area == book.AllAreas {
		what = "all"
	}
	change(fmt.Sprintf("looked at the coat of %s on %s: %s", dog.Name, seen, what), func(s *book.State, x *kennel.Dog) error {
		x.SetLayers(area, layers)
		s.Looked(dog.Name, area, seen)
		return nil
	})
}

func (f *form) toDog(was kennel.Dog) (d kennel.Dog) {
	d = was
	if d.Name = f.get("name"); d.Name == "" {
		f.wrong("name", "is missing")
	}
	d.Owner, d.Born = f.get("owner"), f.date("born", false)
	d.Coat.Texture = kennel.Texture(f.get("texture"))
	d.Coat.Growth, d.Coat.Pace = f.number("growth", 1), f.number("pace", 1)
	d.Coat.RollOnly = f.get("roll_only") != ""
	d.Priority = f.number("priority", 1)
	d.Table.SetUp, d.Table.Minutes = kennel.Minutes(f.number("set_up", 12)), kennel.Minutes(f.number("minutes", 75))
	d.Table.AWeek = f.whole("a_week", 2)
	from, to := f.date("from", false), f.date("to", false)
	if to != 0 && to < from {
		f.wrong("to", "is before the first day")
	}
	n := len(was.Here)
	if from != 0 || to != 0 {
		last := kennel.Span{}
		if n > 0 {
			last = was.Here[n-1]
		}
		last.From, last.To = from, to
		d.Here = append(slices.Clone(was.Here[:max(0, n-1)]), last)
	} else if n == 1 {
		d.Here = nil
	}
	return d
}

// dogFacts are what is told of a dog.
func dogFacts(s book.State, name string) (all []fact) {
	for _, d := range s.Kennel.Dogs {
		if d.Name != name {
			continue
		}
		f := newForm("", 0)
		f.fillDog(d)
		for _, k := range []string{"owner", "born", "texture", "growth", "pace", "priority", "set_up", "minutes", "a_week", "roll_only", "from", "to"} {
			all = append(all, fact{strings.ReplaceAll(k, "_", " "), f.get(k)})
		}
		all = append(all, fact{"coat", layersWords(d.All)})
		for _, a := range d.Areas {
			all = append(all, fact{"coat: " + string(a.Area), layersWords(a.Layers)})
		}
		for _, x := range d.Duties {
			all = append(all, fact{"duty " + x.Name, dutyWords(x)})
		}
		return all
	}
	return []fact{{name, "is not in the book"}}
}
