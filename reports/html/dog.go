package html

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/draw"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Records are what was written down at the table, and advice on what to enter.
type Records struct {
	Private  bool // the handler's own notes are told too
	Work     []kennel.Work
	Measures []kennel.Measure
	Photos   []Photo
	Advice   []Advice // what to enter and what not to
}

// Advice is a sentence about one dog and one show.
type Advice struct{ Dog, Words string }

// weeksAhead is how many weeks of a dog's plan are told.
const weeksAhead = 8

// Dog writes the page of one dog: its coat drawn area by area, the ages of the hair, its shows, the plan of the next
// weeks and what was written down. The dog is found by its name as kennel.Match finds it; the error is an
// *kennel.InputError when the plan has none.
func Dog(w io.Writer, r optimize.Result, dog string, x Records) error {
	i, err := r.Kennel.FindDog(dog)
	if err != nil {
		return err
	}
	sections, err := dogSections(r, i, x)
	if err != nil {
		return err
	}
	d := r.Kennel.Dogs[i]
	return writePage(w, pageHead{kennel: r.Kennel.Name, title: d.Name, note: dogNote(r, d), foot: foot()}, sections...)
}

func dogNote(r optimize.Result, d kennel.Dog) string {
	parts := []string{r.Patterns[d.Pattern].Title}
	if d.RingName != "" {
		parts = append(parts, "shown as "+d.RingName)
	}
	if d.Born != 0 {
		parts = append(parts, "born "+d.Born.Time().Format("2 January 2006"))
	}
	if d.Owner != "" {
		parts = append(parts, "owner "+d.Owner)
	}
	return strings.Join(parts, ", ") + ". On " + say.LongDay(r.On) + "."
}

// dogSections are the parts of a dog's page. Their identifiers are the dog's own, so that several dogs fit in a page.
func dogSections(r optimize.Result, dog int, x Records) ([]section, error) {
	name := r.Kennel.Dogs[dog].Name
	id := dogID(dog)
	var sections []section
	add := func(s section, err error) error {
		s.id = id + s.id
		sections = append(sections, s)
		return err
	}
	for _, part := range []func() (section, error){
		func() (section, error) { return coatSection(r, dog) },
		func() (section, error) { return layersSection(r, dog) },
		func() (section, error) { return dogShowsSection(r, dog, x) },
		func() (section, error) { return roadSection(r, dog) },
		func() (section, error) { return dogPlanSection(r, name) },
		func() (section, error) { return recordsSection(r, name, x) },
		func() (section, error) { return photosSection(r, name, x) },
	} {
		s, err := part()
		if s.title == "" && err == nil {
			continue
		}
		if err := add(s, err); err != nil {
			return nil, err
		}
	}
	return sections, nil
}

// dogID starts the identifiers of a dog's parts.
func dogID(dog int) string { return "dog-" + strconv.Itoa(dog+1) + "-" }

// outlook is a dog's coat today; empty when the plan does not have it.
func outlook(r optimize.Result, dog string) optimize.Outlook {
	for _, o := range r.Outlooks {
		if o.Dog == dog {
			return o
		}
	}
	return optimize.Outlook{}
}

// areaWords says how an area stands.
func areaWords(a optimize.AreaOutlook) string {
	s := fmt.Sprintf("%s: %s, readiness %s", a.Area, a.State, kennel.ScoreWords(a.Score))
	if a.Why != "" && a.Why != "right" {
		s += "; " + a.Why
	}
	return s
}

func coatSection(r optimize.Result, dog int) (section, error) {
	d := r.Kennel.Dogs[dog]
	o := outlook(r, d.Name)
	c := draw.Dog{
		ID: "dog-" + strconv.Itoa(dog+1), Title: "The coat of " + say.Plain(d.Name) + " today, area by area", ShortLegs: r.Patterns[d.Pattern].Short,
	}
	var said []string
	for _, a := range o.Areas {
		c.Areas = append(c.Areas, draw.AreaFill{Area: a.Area, State: a.State, Title: areaWords(a)})
		said = append(said, areaWords(a))
	}
	c.Desc = strings.Join(said, ". ") + "."
	words := ""
	if len(c.Areas) < len(kennel.AreaNames()) {
		words = "Areas without a colour are not worked on their own on this kind of dog."
	}
	svg, err := c.SVG()
	var b fragments
	b.wrapped("dog", picturePart(svg, words, err))
	worst := say.WorstArea(o)
	b.add(factList(
		fact{"Readiness today", kennel.ScoreWords(o.Score) + ", " + string(o.State)},
		fact{"Worst area", worstCell(worst.Area, worst.Score, worst.Why).Text},
		fact{"In coat left alone", say.Windows(o.Idle, r.On)},
		fact{"In coat with the plan", say.Windows(o.Planned, r.On)},
	))
	return section{id: "coat", title: "The coat today", body: b.html()}, b.err
}

func layersSection(r optimize.Result, dog int) (section, error) {
	o := outlook(r, r.Kennel.Dogs[dog].Name)
	var all, b fragments
	for i, a := range o.Areas {
		if a.Over == 0 {
			continue // kept hair has no layers
		}
		l := draw.Layers{
			ID: fmt.Sprintf("layers-%d-%d", dog+1, i+1), Title: "Ages of the hair on the " + string(a.Area), Older: float64(a.Older),
			Ready: int(a.Ready), Over: int(a.Over),
		}
		for _, s := range a.Ages {
			l.Shares = append(l.Shares, float64(s))
		}
		l.Desc = draw.LayersWords(l)
		svg, err := l.SVG()
		all.add(fragment("titled", struct {
			Title, Small string
			SVG          template.HTML
		}{string(a.Area), string(a.State) + ", " + kennel.ScoreWords(a.Score), svg}))
		all.add("", err)
	}
	if len(o.Areas) == 0 {
		return section{}, nil
	}
	b.wrapped("little", &all)
	return section{
		id: "layers", title: "The layers of each area", body: b.html(),
		note: "Hair by its age in weeks, the youngest to the left. The dashed line is the age from which it is long enough to show, the " +
			"dotted one the age from which it is too long.",
	}, b.err
}

func dogShowsSection(r optimize.Result, dog int, x Records) (section, error) {
	name := r.Kennel.Dogs[dog].Name
	var b fragments
	if i := slices.IndexFunc(r.Outlooks, func(o optimize.Outlook) bool { return o.Dog == name }); i >= 0 {
		b.add(ribbon(r, i))
	}
	b.add(dogShowsTable(r, name))
	var advice []string
	for _, a := range x.Advice {
		if a.Dog == name {
			advice = append(advice, a.Words)
		}
	}
	if len(advice) > 0 {
		b.heading("What to enter")
		b.add(bullets(advice))
	}
	return section{id: "shows", title: "Shows", body: b.html()}, b.err
}

// roadSection is a puppy's road to its first show coat; other dogs have none.
func roadSection(r optimize.Result, dog int) (section, error) {
	road := say.PuppyRoad(r, r.Kennel.Dogs[dog])
	if len(road) == 0 {
		return section{}, nil
	}
	body, err := bullets(road)
	return section{id: "road", title: "The road to the first show coat", body: body}, err
}

func dogPlanSection(r optimize.Result, dog string) (section, error) {
	t := newTable("Work on "+dog+" week by week", "week", "#minutes", "what", "for")
	t.Hidden, t.Class = true, stacked
	var all layout.Hundredths
	for i, w := range r.Weeks {
		if i >= weeksAhead {
			break
		}
		var time layout.Hundredths
		var what []string
		why := ""
		for _, d := range w.Dogs {
			if d.Dog != dog {
				continue
			}
			time += layout.HundredthsOf(d.SetUp)
			for _, a := range d.Areas {
				time += layout.HundredthsOf(a.Minutes)
				words := fmt.Sprintf("%s %s", a.Area, a.Words())
				if wanted := say.OutlineOn(r.Kennel, dog, a.Area); wanted != "" {
					words += " (" + wanted + ")"
				}
				what = append(what, words)
			}
			why = say.Plural(d.Sessions, "session")
			if d.Why != "" {
				why += ", " + d.Why
			}
		}
		for _, d := range w.Duties {
			if d.Dog == dog {
				time += layout.HundredthsOf(d.Minutes)
				what = append(what, d.Name)
			}
		}
		words := strings.Join(what, ", ")
		if words == "" {
			words = "nothing"
		}
		all += time
		t.add(wordCell(say.Week(w.Week, r.On)), workCell(time), wordCell(words), wordCell(why))
	}
	t.total(wordCell("all"), workCell(all), cell{}, cell{})
	var b fragments
	for _, w := range r.Ways {
		if w.Dog == dog {
			b.add(paragraphs(say.FirstUpper(say.Way(w, r.On)) + "."))
		}
	}
	b.add(t.html())
	return section{id: "plan", title: fmt.Sprintf("The plan of the next %s", say.Plural(min(weeksAhead, len(r.Weeks)), "week")), body: b.html()}, b.err
}

// workCell is a stretch of work in whole minutes.
func workCell(t layout.Hundredths) cell {
	return figureCell(say.Minutes(kennel.Minutes(t.Minutes())), t.Minutes())
}

func recordsSection(r optimize.Result, dog string, x Records) (section, error) {
	var b fragments
	var work []kennel.Work
	for _, w := range x.Work {
		if w.Dog == dog {
			work = append(work, w)
		}
	}
	if len(work) > 0 {
		t := newTable("Work done on "+dog, "day", "#minutes", "what", "by")
		t.Class = stacked
		slices.SortStableFunc(work, func(a, b kennel.Work) int { return int(a.On - b.On) })
		for _, w := range work {
			c := wordCell(say.Work(w))
			if x.Private && w.Note != "" {
				c = c.with(w.Note)
			}
			t.add(wordCell(say.Day(w.On, r.On)), workCell(layout.HundredthsOf(w.Minutes)), c, wordCell(w.Hands))
		}
		b.add(t.html())
	}
	var measures []kennel.Measure
	for _, m := range x.Measures {
		if m.Dog == dog {
			measures = append(measures, m)
		}
	}
	if len(measures) > 0 {
		t := newTable("Lengths taken on "+dog, "day", "area", "#length")
		slices.SortStableFunc(measures, func(a, b kennel.Measure) int { return int(a.On - b.On) })
		for _, m := range measures {
			c := wordCell(string(m.Area))
			if x.Private && m.Note != "" {
				c = c.with(m.Note)
			}
			t.add(wordCell(say.Day(m.On, r.On)), c, figureCell(say.Length(m.Length, r.Kennel.Units), layout.Rounded(float64(m.Length), 2)))
		}
		b.add(t.html())
	}
	if len(work)+len(measures) == 0 {
		return section{}, b.err
	}
	return section{id: "records", title: "Written down", body: b.html()}, b.err
}
