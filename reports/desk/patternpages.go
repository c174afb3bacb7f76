package desk

import (
	"fmt"
	"net/http"
	"net/url"

	"tuckup/kennel"
	"tuckup/reports/say"
)

const patternsPath = "/patterns"

type patternListPage struct {
	frame
	Patterns []patternRow
}

type patternRow struct{ Title, Name, Path, About string }

// patternList lists the coat patterns, those of the string's dogs first.
func (d *Desk) patternList(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := patternListPage{frame: d.frame(l, r, "Coat patterns")}
	dogs := map[string]string{}
	for _, x := range l.dogs() {
		if dogs[x.Pattern] != "" {
			dogs[x.Pattern] += ", "
		}
		dogs[x.Pattern] += x.Name
	}
	for _, own := range []bool{true, false} {
		for _, name := range d.opt.Patterns.Names() {
			if (dogs[name] != "") == own {
				x := d.opt.Patterns[name]
				p.Patterns = append(p.Patterns, patternRow{x.Title, name, patternsPath + "/" + url.PathEscape(name), dogs[name]})
			}
		}
	}
	d.render(w, http.StatusOK, "patterns", p)
	return nil
}

type patternPage struct {
	frame
	Name, Texture string
	Undercoat     string // what is to be known of it, where the pattern has it raked
	Parts         []patternPart
}

// patternPart are the figures of one area, or of the pattern as a whole.
type patternPart struct {
	Area, Work string
	Figures    []figureRow
}

type figureRow struct{ Name, Value, Range, Unit, Source string }

// pattern shows every number of a pattern with its range, source and mark.
func (d *Desk) pattern(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	x, ok := d.opt.Patterns[r.PathValue("name")]
	if !ok {
		return notFound("coat pattern")
	}
	p := patternPage{frame: d.frame(l, r, x.Title), Name: x.Name, Texture: string(x.Texture)}
	if !x.Undercoat.None() {
		p.Undercoat = say.UndercoatWords
	}
	area := kennel.AreaName("\x00")
	for _, f := range x.Figures() {
		if f.Area != area {
			area = f.Area
			part := patternPart{Area: string(area)}
			if a, ok := x.Area(area); ok {
				part.Work = "work: " + string(a.Work)
				if a.Kept {
					part.Work += "; kept, never pulled"
				}
			}
			p.Parts = append(p.Parts, part)
		}
		row := figureRow{Name: f.Name, Value: fmt.Sprintf("%g", f.Value), Unit: f.Unit, Source: string(f.Mark)}
		if f.Low != f.High {
			row.Range = fmt.Sprintf("%g to %g", f.Low, f.High)
		}
		if f.Source != "" && f.Source != string(f.Mark) {
			row.Source = f.Source + " (" + string(f.Mark) + ")"
		}
		part := &p.Parts[len(p.Parts)-1]
		part.Figures = append(part.Figures, row)
	}
	d.render(w, http.StatusOK, "pattern", p)
	return nil
}
