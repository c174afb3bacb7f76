package desk

import (
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/draw"
	"tuckup/reports/say"
)

type beginDogsPage struct {
	beginPage
	Dogs     []beginDog
	Form     *form
	Patterns []option
	List     listView
	Coat     *beginCoat // the second half of a dog: what is on it
}

// beginDog is a dog that is in the book already.
type beginDog struct{ Name, Path, Kind, State string }

// beginCoat asks what is on a dog.
type beginCoat struct {
	Name, Kind, Born string
	Picture          template.HTML
	Looks            []beginLook
	Areas            []beginArea
	Pulled, Seen     bool // which way is chosen
}

// beginLook is one way that hair can look.
type beginLook struct {
	Value, Name, Says string
	Picture           template.HTML
}

// beginArea is an area that is looked at.
type beginArea struct {
	Name, Field, Error string
	Looks              []option
}

// hairLook is a way that hair can look, and the state of the coat that it is.
type hairLook struct {
	value, says string
	state       kennel.State
}

var looks = []hairLook{
	{"short", "pulled not long ago: it feels like stubble, or the undercoat shows", kennel.StateComingIn},
	{"right", "lies close, harsh, with its colour", kennel.StateInCoat},
	{"long", "parts or waves, but holds when you pull", kennel.StateGoingOver},
	{"blown", "sticks out every way and comes off in your fingers", kennel.StateBlown},
}

// The ways to say what is on a dog.
const (
	byDay  = "pulled"
	byLook = "seen"
)

func (d *Desk) beginDogs(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("dog", l.version)
	q := r.URL.Query()
	for _, name := range []string{"name", "pattern", "born"} {
		f.set(name, strings.TrimSpace(q.Get(name)))
	}
	if q.Has("name") || q.Has("pattern") {
		d.checkNewDog(f, l)
		d.renderBeginDogs(w, r, l, f, !f.Bad())
		return nil
	}
	d.renderBeginDogs(w, r, l, f, false)
	return nil
}

// checkNewDog notes what is wrong with the first half of a dog.
func (d *Desk) checkNewDog(f *form, l look) kennel.Dog {
	dog := kennel.UsualDog()
	readFields(f, dogThing.Only("name", "born"), dog, &dog)
	if slices.Contains(l.state.Kennel.DogNames(), dog.Name) {
		f.wrong("name", "is in the string already")
	}
	if dog.Born > l.today {
		f.wrong("born", "is still to come")
	}
	dog.Pattern = f.get("pattern")
	if _, ok := d.opt.Patterns[dog.Pattern]; !ok {
		f.wrong("pattern", "is missing: it says how fast the coat comes in and how long it holds")
	}
	return dog
}

func (d *Desk) renderBeginDogs(w http.ResponseWriter, r *http.Request, l look, f *form, coat bool) {
	p := beginDogsPage{beginPage: d.beginning(l, r, stepDogs), Form: f, List: d.listView(l, beginNames[stepDogs].path)}
	for _, dog := range l.dogs() {
		p.Dogs = append(p.Dogs, d.beginDog(l, dog))
	}
	p.Patterns = d.patternOptions()
	if coat {
		p.Coat = d.beginCoat(f)
		p.Title = "The coat of " + f.get("name")
	}
	d.render(w, f.status(), "begindogs", p)
}

// patternOptions are the kinds of coat to choose from.
func (d *Desk) patternOptions() []option {
	all := []option{{Value: "", Words: "choose"}}
	for _, name := range d.opt.Patterns.Names() {
		all = append(all, option{Value: name, Words: d.opt.Patterns[name].Title})
	}
	return all
}

func (d *Desk) beginDog(l look, dog kennel.Dog) beginDog {
	p := d.opt.Patterns[dog.Pattern]
	x := beginDog{Name: dog.Name, Path: dogPath(dog.Name), Kind: p.Title}
	coat, err := kennel.NewDogCoat(dog, p, l.today.Monday())
	if err == nil {
		x.State = string(coat.State(0))
	}
	return x
}

func (d *Desk) beginCoat(f *form) *beginCoat {
	p := d.opt.Patterns[f.get("pattern")]
	c := &beginCoat{
		Name: f.get("name"), Kind: p.Title, Born: f.get("born"), Pulled: f.get("how") == byDay, Seen: f.get("how") == byLook,
	}
	c.Picture = d.drawn(areasOf(p))
	for _, x := range looks {
		c.Looks = append(c.Looks, beginLook{Value: x.value, Name: x.value, Says: x.says, Picture: d.drawn(draw.Hair{
			ID: "hair-" + x.value, Title: "Hair that is " + x.value, Desc: x.says, State: x.state,
		})})
	}
	for _, a := range p.SeenAreas() {
		field := seenField(a)
		v := beginArea{Name: string(a), Field: field, Error: f.Errors[field]}
		for _, x := range looks {
			v.Looks = append(v.Looks, option{Value: x.value, Words: x.value, Chosen: f.get(field) == x.value})
		}
		c.Areas = append(c.Areas, v)
	}
	return c
}

// seenField is the field of a form that says what is seen of an area.
func seenField(a kennel.AreaName) string { return "seen-" + strings.ReplaceAll(string(a), " ", "-") }

// areasOf draws the dog of a pattern with the names of its areas.
func areasOf(p kennel.Pattern) draw.Dog {
	x := draw.Dog{ID: "areas", Title: p.Title + ", its areas", ShortLegs: p.Short, Bare: true}
	var names []string
	for _, a := range p.Areas {
		x.Areas = append(x.Areas, draw.AreaFill{Area: a.Name, Title: string(a.Name)})
		names = append(names, string(a.Name))
	}
	x.Desc = "It is worked in these areas: " + strings.Join(names, ", ") + "."
	return x
}

// drawn is a picture; one that can't be drawn is left out, and the log says why.
func (d *Desk) drawn(x interface{ SVG() (template.HTML, error) }) template.HTML {
	svg, err := x.SVG()
	if err != nil {
		d.opt.Log.Warn().Err(err).Msg("a picture could not be drawn")
	}
	return svg
}

func (d *Desk) saveBeginDogs(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "dog")
	if err != nil {
		return err
	}
	dog := d.checkNewDog(f, l)
	if f.Bad() {
		d.renderBeginDogs(w, r, l, f, false)
		return nil
	}
	d.readCoat(f, &dog, l.today)
	if !f.Bad() {
		now, done, err := d.saved(w, r, f, f.dogAdded(dog, l.today), beginNames[stepDogs].path, dogFields)
		if err != nil || done {
			return err
		}
		l = now
	}
	f.Version = l.version
	d.renderBeginDogs(w, r, l, f, true)
	return nil
}

// readCoat reads what is on a dog: the day of its last pull, or what is seen of it.
func (d *Desk) readCoat(f *form, dog *kennel.Dog, today kennel.Date) {
	switch f.get("how") {
	case byDay:
		day := f.date("pulled", true)
		switch {
		case day > today:
			f.wrong("pulled", fmt.Sprintf("%s is still to come", say.Day(day, today)))
		case day != 0 && dog.Born != 0 && day < dog.Born:
			f.wrong("pulled", "is before the dog was born")
		}
		dog.All = []kennel.Layer{{Share: 1, Pulled: day}}
	case byLook:
		p := d.opt.Patterns[dog.Pattern]
		seen := map[kennel.AreaName]kennel.State{}
		for _, a := range p.SeenAreas() {
			said := f.get(seenField(a))
			i := slices.IndexFunc(looks, func(x hairLook) bool { return x.value == said })
			if i < 0 {
				f.wrong(seenField(a), "choose one for the "+string(a))
				continue
			}
			seen[a] = looks[i].state
		}
		dog.All, dog.Areas = p.CoatAsSeen(seen, today)
	default:
		f.wrong("how", "choose one: the day of the last pull, or what you see")
	}
}
