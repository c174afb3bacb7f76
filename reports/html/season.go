package html

import (
	"cmp"
	"html/template"
	"io"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Season writes the whole season as one page: how good the plan is, what cannot be met, the tight weeks, readiness,
// workload, each dog, and the facts and sources behind the figures.
func Season(w io.Writer, r optimize.Result, x Records) error {
	worth, err := worthSection(r)
	if err != nil {
		return err
	}
	sections := []section{worth}
	if len(r.Cannot) > 0 {
		items := make([]string, len(r.Cannot))
		for i, c := range r.Cannot {
			items[i] = c.What + ": " + c.Why
		}
		body, err := bullets(items)
		if err != nil {
			return err
		}
		sections = append(sections, section{id: "cannot", title: "What cannot be met", body: body})
	}
	for _, part := range []func(optimize.Result) ([]section, error){readinessSections, workloadSections} {
		more, err := part(r)
		if err != nil {
			return err
		}
		sections = append(sections, more...)
	}
	for i, d := range r.Kennel.Dogs {
		s, err := dogInSeason(r, i, x)
		if err != nil {
			return err
		}
		s.title = d.Name
		sections = append(sections, s)
	}
	sources, err := sourcesSection(r)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: "The season", contents: true, foot: foot(),
		note: "Planned on " + say.LongDay(r.On) + " over " + say.Plural(len(r.Weeks), "week") + ".",
	}, append(sections, sources)...)
}

// dogInSeason is a dog's page as one section, its parts under smaller headings. Its ribbon stands with the others.
func dogInSeason(r optimize.Result, dog int, x Records) (section, error) {
	var b fragments
	name := r.Kennel.Dogs[dog].Name
	s := section{class: "newpage", note: dogNote(r, r.Kennel.Dogs[dog])}
	for _, part := range []func() (section, error){
		func() (section, error) { return coatSection(r, dog) },
		func() (section, error) { return layersSection(r, dog) },
		func() (section, error) { return dogPlanSection(r, name) },
		func() (section, error) { return recordsSection(r, name, x) },
	} {
		p, err := part()
		if p.title != "" {
			b.heading(p.title)
		}
		b.add(p.body, err)
	}
	s.id, s.body = dogID(dog)+"all", b.html()
	return s, b.err
}

// worthSection is the solver's word on how good the plan is, and the weeks in which an hour is dear.
func worthSection(r optimize.Result) (section, error) {
	var b fragments
	b.add(paragraphs(say.Worth(r), say.Tight(r)))
	if g := say.Gathered(r.Gathered); g != "" {
		b.add(paragraphs(g))
	}
	prices := slices.Clone(r.Season.HourPrice)
	slices.SortStableFunc(prices, func(a, b optimize.HourPrice) int {
		return cmp.Or(cmp.Compare(b.PointsPerHour, a.PointsPerHour), cmp.Compare(a.Week, b.Week))
	})
	if len(prices) > 0 {
		t := newTable("The tight weeks: what one more hour there is worth", "week of", "hands", "hour of", "#points")
		for _, p := range prices {
			kind := "work"
			if p.Strip {
				kind = "pulling"
			}
			t.add(wordCell(say.Week(p.Week, r.On)), wordCell(p.Hands), wordCell(kind),
				figureCell(strings.TrimSuffix(say.Points(p.PointsPerHour), " points"), layout.Rounded(p.PointsPerHour, layout.PriceDecimals)))
		}
		b.add(t.html())
	}
	return section{
		id: "worth", title: "How good the plan is", body: b.html(), note: "A point is one dog fully ready at one show of weight 1.",
	}, b.err
}

// sourcesSection lists where the figures of the patterns in use come from, and how well each is attested.
func sourcesSection(r optimize.Result) (section, error) {
	type row struct {
		pattern, source string
		mark            kennel.Mark
		figures         []string
	}
	var rows []row
	seen := map[string]bool{}
	for _, d := range r.Kennel.Dogs {
		p, ok := r.Patterns[d.Pattern]
		if !ok || seen[p.Name] {
			continue
		}
		seen[p.Name] = true
		for _, f := range p.Figures() {
			what := strings.TrimSpace(strings.ReplaceAll(f.Name, "_", " ") + " " + string(f.Area))
			i := slices.IndexFunc(rows, func(x row) bool { return x.pattern == p.Title && x.source == f.Source && x.mark == f.Mark })
			if i < 0 {
				i = len(rows)
				rows = append(rows, row{pattern: p.Title, source: f.Source, mark: f.Mark})
			}
			rows[i].figures = append(rows[i].figures, what)
		}
	}
	t := newTable("Sources of the figures", "pattern", "source", "attested", "figures")
	t.Hidden, t.Class = true, stacked
	for _, x := range rows {
		what := strings.Join(x.figures, ", ")
		if x.mark == kennel.MarkPractice && len(x.figures) > fewFigures {
			what = "all other figures: " + say.Plural(len(x.figures), "number")
		}
		source := x.source
		if source == "" {
			source = "none"
		}
		t.add(wordCell(x.pattern), wordCell(source), wordCell(string(x.mark)), wordCell(what))
	}
	var body template.HTML
	var err error
	if len(rows) == 0 {
		body, err = paragraphs("No pattern is in use.")
	} else {
		body, err = t.html()
	}
	return section{
		id: "sources", title: "Facts and sources", body: body,
		note: "Where the figures of the coat patterns come from. Seen: the words were read in a copy of the source. Within: a range was, and the value was chosen inside it. Second-hand: on a " +
			"page that repeats it. Memory: recalled, not read. Derived: worked out from seen ones. Common practice has no source.",
	}, err
}

// fewFigures is how many figures of common practice are told one by one.
const fewFigures = 4
