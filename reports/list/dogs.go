// Package list lists what a kennel file or a book holds, and no plan: dogs, shows, hours, work and history, as text, JSON
// and CSV. The keys of JSON and the columns of CSV are those of the kennel file, so that a list can be imported again.
package list

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// spansWords are runs of days in words, "" for none.
func spansWords(spans []kennel.Span) string {
	all := make([]string, len(spans))
	for i, s := range spans {
		switch {
		case s.From == 0:
			all[i] = "to " + s.To.String()
		case s.To == 0:
			all[i] = "from " + s.From.String()
		case s.From == s.To:
			all[i] = s.From.String()
		default:
			all[i] = s.From.String() + " to " + s.To.String()
		}
		if s.Why != "" {
			all[i] += " (" + say.Plain(s.Why) + ")"
		}
	}
	return strings.Join(all, ", ")
}

// Dogs writes the dogs as a page of text.
func Dogs(w io.Writer, k kennel.Kennel, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(k.Dogs) == 0 {
		p.Say(0, "", "no dogs yet: tuckup dog add NAME --pattern PATTERN --pulled DATE")
	}
	var t layout.Table
	for _, d := range k.Dogs {
		note := say.Plain(d.Owner)
		if here := spansWords(d.Here); here != "" {
			note = strings.TrimSpace(note + "  in hand " + here)
		}
		for _, s := range d.Spells {
			note = strings.TrimSpace(note + "  " + say.Spell(s))
		}
		t.Add(say.Plain(d.Name), say.Plain(d.Pattern), note)
	}
	p.Table(0, t)
	return p.Done()
}

// DogsJSON writes a list of objects, one for each dog, with the keys of the kennel file; sessions are in minutes.
func DogsJSON(w io.Writer, k kennel.Kennel) error {
	docs := []object{}
	for _, d := range k.Dogs {
		docs = append(docs, toldOf(fields.Dog, d))
	}
	return layout.JSON(w, docs)
}

// DogsCSV writes one row for each dog; import reads it back.
func DogsCSV(w io.Writer, k kennel.Kennel) error {
	columns, rows := tableOf(fields.Dog, k.Dogs)
	return layout.CSV(w, columns, rows)
}

// DogRecord is what is told of one dog, its coat as it is today.
type DogRecord struct {
	Dog   kennel.Dog
	Shows []kennel.Show
	Work  []WorkRow
	Units kennel.Units
}

// lastWork is how many lines of a dog's work its page shows.
const lastWork = 5

// Dog writes what is told of a dog as a page of text.
func Dog(w io.Writer, d DogRecord, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	dog := d.Dog
	p.Strong(say.Plain(dog.Name), say.Plain(dog.Pattern))
	var facts []string
	for _, f := range []struct{ word, is string }{
		{"shown as", say.Plain(dog.RingName)}, {"born", dog.Born.String()}, {"owner", say.Plain(dog.Owner)}, {"texture", string(dog.Coat.Texture)}, {"in hand", spansWords(dog.Here)},
	} {
		if f.is != "" {
			facts = append(facts, f.word+" "+f.is)
		}
	}
	facts = append(facts, "growth "+kennel.Number(dog.Coat.Growth), "pace "+kennel.Number(dog.Coat.Pace), "priority "+kennel.Number(dog.Priority))
	if dog.Coat.RollOnly {
		facts = append(facts, "rolled only")
	}
	p.Say(0, "", "%s", strings.Join(facts, ", "))
	p.Say(0, "", "table: %s of set-up, at most %s, %s a week", say.Minutes(dog.Table.SetUp), say.Minutes(dog.Table.Minutes), say.Plural(dog.Table.AWeek, "session"))
	p.Heading("COAT", "share of the hair and when it was last pulled")
	t := layout.Table{}
	if len(dog.All) > 0 {
		t.Add("all others", layersWords(dog.All))
	}
	for _, a := range dog.Areas {
		words := layersWords(a.Layers)
		if a.Area == kennel.AreaFurnishings {
			words = kennel.LostWords(a.Layers)
		}
		t.Add(string(a.Area), words)
	}
	p.Table(2, t)
	if len(dog.Outlines) > 0 {
		p.Heading("OUTLINE", "")
		t = layout.Table{}
		for _, o := range dog.Outlines {
			t.Add(string(o.Area), say.Outline(o, d.Units))
		}
		p.Table(2, t)
	}
	if len(dog.Spells) > 0 {
		p.Heading("SPELLS", "nobody counts on the coat in these days")
		for _, s := range dog.Spells {
			p.Say(2, "", "%s", say.Spell(s))
		}
	}
	if len(dog.Duties) > 0 {
		p.Heading("DUTIES", "")
		t = layout.Table{}
		for _, x := range dog.Duties {
			minutes := ""
			if x.Minutes > 0 {
				minutes = say.Minutes(x.Minutes)
			}
			t.Add(say.Plain(x.Name), minutes, say.Due(x))
		}
		p.Table(2, t)
	}
	if len(d.Shows) > 0 {
		p.Heading("SHOWS", "")
		for _, s := range d.Shows {
			p.Say(2, "", "%s: %s (%s)", say.Day(s.On, today), say.Plain(s.Name), say.Chance(s.Chance))
		}
	}
	if n := len(d.Work); n > 0 {
		p.Heading("LAST WORK", "")
		for _, x := range d.Work[max(0, n-lastWork):] {
			p.Say(2, "", "%s: %s, %s", say.Day(x.On, today), doneWords(x.Work), say.Minutes(x.Minutes))
		}
	}
	return p.Done()
}

func layersWords(layers []kennel.Layer) string {
	all := make([]string, len(layers))
	for i, l := range layers {
		all[i] = fmt.Sprintf("%.0f %% %s", 100*float64(l.Share), l.Pulled)
	}
	return strings.Join(all, ", ")
}

type toldLayer struct {
	Area   string  `json:"area"` // all = every area without layers of its own
	Share  float64 `json:"share"`
	Pulled string  `json:"pulled"`
}

type toldDuty struct {
	Name    string  `json:"name"`
	Minutes float64 `json:"minutes"`
	Work    string  `json:"work,omitempty"`
	Out     bool    `json:"left_out,omitempty"`
	Every   int     `json:"every_weeks,omitempty"`
	From    *int    `json:"from_days_before_show,omitempty"`
	To      *int    `json:"to_days_before_show,omitempty"`
	Done    string  `json:"last_done,omitempty"`
}

// layerRows are a dog's layers, one row each, in the order of the trade.
func layerRows(d kennel.Dog) []toldLayer {
	rows := []toldLayer{}
	for _, a := range append([]kennel.AreaCoat{{Area: "all", Layers: d.All}}, d.Areas...) {
		for _, l := range a.Layers {
			rows = append(rows, toldLayer{string(a.Area), layout.Rounded(float64(l.Share), layout.ShareDecimals), l.Pulled.String()})
		}
	}
	return rows
}

// DogJSON writes what is told of a dog as one object.
func DogJSON(w io.Writer, d DogRecord) error {
	doc := append(toldOf(fields.Dog, d.Dog), member{"areas", layerRows(d.Dog)})
	var duties []toldDuty
	for _, x := range d.Dog.Duties {
		duty := toldDuty{Name: x.Name, Minutes: float64(x.Minutes), Work: string(x.Work), Out: x.LeaveOut, Every: int(x.Every)}
		if x.Before != nil {
			duty.From, duty.To = &x.Before.From, &x.Before.To
		}
		if x.Done != 0 {
			duty.Done = x.Done.String()
		}
		duties = append(duties, duty)
	}
	var shows []object
	for _, s := range d.Shows {
		shows = append(shows, toldOf(fields.Show, s))
	}
	doc = withList(doc, "duties", duties)
	doc = withList(doc, "shows", shows)
	return layout.JSON(w, withList(doc, "work", toldWorks(d.Work)))
}

// withList adds a list that is not empty.
func withList[T any](o object, key string, list []T) object {
	if len(list) > 0 {
		o = append(o, member{key, list})
	}
	return o
}

// DogCSV writes one row for each layer of the coat.
func DogCSV(w io.Writer, d DogRecord) error {
	var rows [][]string
	for _, l := range layerRows(d.Dog) {
		rows = append(rows, []string{layout.Cell(d.Dog.Name), l.Area, layout.Number(l.Share, layout.ShareDecimals), l.Pulled})
	}
	return layout.CSV(w, []string{"dog", "area", "share", "pulled"}, rows)
}
