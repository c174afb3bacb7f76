package reports

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// sorted lists the patterns by name.
func sorted(ps kennel.Patterns) []kennel.Pattern {
	list := make([]kennel.Pattern, 0, len(ps))
	for _, name := range ps.Names() {
		list = append(list, ps[name])
	}
	return list
}

// PatternList writes the names and titles of coat patterns.
func PatternList(w io.Writer, ps kennel.Patterns, l layout.Look) error {
	p := layout.NewPage(w, l)
	t := layout.Table{Most: map[int]int{0: 40}}
	for _, x := range sorted(ps) {
		t.Add(say.Plain(x.Name), string(x.Texture), say.Plural(len(x.Areas), "area"), say.Plain(x.Title))
	}
	p.Table(0, t)
	return p.Done()
}

type patternItem struct {
	Pattern string `json:"pattern"`
	Title   string `json:"title"`
	Texture string `json:"texture"`
	Areas   int    `json:"areas"`
}

// PatternListJSON writes a list of objects with pattern, title, texture and number of areas.
func PatternListJSON(w io.Writer, ps kennel.Patterns) error {
	items := []patternItem{}
	for _, x := range sorted(ps) {
		items = append(items, patternItem{x.Name, x.Title, string(x.Texture), len(x.Areas)})
	}
	return layout.JSON(w, items)
}

// PatternListCSV writes one row for each pattern.
func PatternListCSV(w io.Writer, ps kennel.Patterns) error {
	var rows [][]string
	for _, x := range sorted(ps) {
		rows = append(rows, []string{layout.Cell(x.Name), layout.Cell(x.Title), string(x.Texture), layout.Number(float64(len(x.Areas)), 0)})
	}
	return layout.CSV(w, []string{"pattern", "title", "texture", "areas"}, rows)
}

// Pattern writes every number of a pattern with its range, source and mark.
func Pattern(w io.Writer, x kennel.Pattern, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(x.Name), say.Plain(x.Title)+", texture "+string(x.Texture))
	var area kennel.AreaName
	t := layout.Table{Right: map[int]bool{1: true}}
	for i, f := range x.Figures() {
		if strings.HasPrefix(f.Name, kennel.FinishingFigures) {
			continue // in a table of their own
		}
		if i == 0 || f.Area != area {
			p.Table(2, t)
			t.Rows, area = nil, f.Area
			if area != "" {
				p.Heading(say.Plain(string(area)), workOf(x, area))
			}
		}
		t.Add(f.Name, fmt.Sprintf("%g", f.Value), rangeWords(f.Figure), f.Unit, sourceWords(f.Figure))
	}
	p.Table(2, t)
	patternCare(p, x)
	return p.Done()
}

// patternCare is what the pattern brings beside the jacket: what is to be known of undercoat, the lines before a show, what to pack.
func patternCare(p *layout.Page, x kennel.Pattern) {
	if !x.Undercoat.None() {
		p.Heading("undercoat", "")
		p.Say(2, "", "%s", say.UndercoatWords)
	}
	if len(x.Finish) > 0 {
		p.Heading("finishing", "before every show that counts, in as few visits to the table as there can be")
		t := layout.Table{Right: map[int]bool{1: true}}
		for _, f := range x.Finish {
			days := fmt.Sprintf("%g to %g days before", f.From.Value, f.To.Value)
			lasts := fmt.Sprintf("lasts %g", f.Lasts.Value)
			if f.AtShow() {
				days, lasts = "at the show", ""
			}
			source := ""
			for _, of := range []kennel.Figure{f.Minutes, f.From, f.To, f.Lasts} {
				if of.Mark != kennel.MarkPractice {
					source = sourceWords(of)
				}
			}
			t.Add(say.Plain(f.Name), fmt.Sprintf("%g min", f.Minutes.Value), rangeWords(f.Minutes), days, lasts, string(f.Work), source)
		}
		p.Table(2, t)
		p.Say(2, "", "The last column is the work that its hands must be able to do. What names no source is common practice.")
	}
	if len(x.Pack) > 0 {
		p.Heading("to pack for a show", "")
		p.Say(2, "", "%s", say.Plain(strings.Join(x.Pack, ", ")))
	}
}

func workOf(p kennel.Pattern, area kennel.AreaName) string {
	a, _ := p.Area(area)
	if a.Kept {
		return "work: " + string(a.Work) + "; kept, never pulled"
	}
	return "work: " + string(a.Work)
}

func rangeWords(f kennel.Figure) string {
	if f.Low == f.High {
		return ""
	}
	return fmt.Sprintf("%g to %g", f.Low, f.High)
}

func sourceWords(f kennel.Figure) string {
	if f.Source == "" || f.Source == string(f.Mark) {
		return string(f.Mark)
	}
	return say.Plain(f.Source) + " (" + string(f.Mark) + ")"
}

type patternDoc struct {
	Pattern string      `json:"pattern"`
	Title   string      `json:"title"`
	Texture string      `json:"texture"`
	Kept    []string    `json:"kept"` // areas that are never pulled
	Figures []figureDoc `json:"figures"`
}

type figureDoc struct {
	Area   string  `json:"area"`
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Unit   string  `json:"unit"`
	Source string  `json:"source"`
	Mark   string  `json:"mark"`
}

// PatternJSON writes what Pattern writes, for programs.
func PatternJSON(w io.Writer, x kennel.Pattern) error {
	doc := patternDoc{x.Name, x.Title, string(x.Texture), []string{}, []figureDoc{}}
	for _, a := range x.Areas {
		if a.Kept {
			doc.Kept = append(doc.Kept, string(a.Name))
		}
	}
	for _, f := range x.Figures() {
		doc.Figures = append(doc.Figures, figureDoc{string(f.Area), f.Name, f.Value, f.Low, f.High, f.Unit, f.Source, string(f.Mark)})
	}
	return layout.JSON(w, doc)
}

// PatternCSV writes one row for each number of a pattern.
func PatternCSV(w io.Writer, x kennel.Pattern) error {
	var rows [][]string
	for _, f := range x.Figures() {
		n := func(v float64) string { return fmt.Sprintf("%g", v) }
		rows = append(rows, []string{
			layout.Cell(x.Name), layout.Cell(string(f.Area)), f.Name, n(f.Value), n(f.Low), n(f.High), f.Unit, layout.Cell(f.Source), string(f.Mark),
		})
	}
	return layout.CSV(w, []string{"pattern", "area", "name", "value", "low", "high", "unit", "source", "mark"}, rows)
}
