package draw

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Ribbon is one dog's coat over the weeks: the plan above, what becomes of the coat if nothing is done below.
type Ribbon struct {
	ID, Title, Desc string
	Weeks           []BarWeek
	Rows            []RibbonRow
	Marks           []Mark // shows
}

// RibbonRow is the coat's state at the end of each week.
type RibbonRow struct {
	Name   string
	States []kennel.State
}

// Mark is a show in its week.
type Mark struct {
	Week  int    // index of the week; marks outside the weeks are left out
	Label string // short, a number
	Title string // in full
}

const (
	ribbonSide   = 4.0
	markTop      = 16.0 // foot of the labels of the marks
	ribbonTop    = 36.0
	bandHeight   = 30.0
	rowStep      = 54.0
	bandsUnder   = 6.0 // from a row's name to its band
	letterRoom   = 10.0
	markHalf     = 4.0
	wordsPadding = 6.0
)

type bandShape struct {
	X, Y, Width, Height, TextX, TextY float64
	Back, BackWidth                   float64
	Fill, Plain, Text, Title          string
}

type markShape struct {
	X, LabelX, Top, Foot float64
	Label, Title         string
}

type ribbonPicture struct {
	frame
	Names  []tickShape
	Bands  []bandShape
	Marks  []markShape
	XTicks []tickShape
	Key    []legendItem
}

// SVG draws the ribbon.
func (r Ribbon) SVG() (template.HTML, error) {
	p := ribbonPicture{frame: newFrame(r.ID, r.Title, r.Desc, 0)}
	week := (picWidth - 2*ribbonSide) / float64(max(1, len(r.Weeks)))
	y := ribbonTop
	for _, row := range r.Rows {
		p.Names = append(p.Names, tickShape{X: ribbonSide, Y: y, Text: row.Name})
		p.bands(row, r.Weeks, week, y+bandsUnder)
		y += rowStep
	}
	bottom := y - rowStep + bandsUnder + bandHeight
	taken := -1.0
	for _, m := range r.Marks {
		if m.Week < 0 || m.Week >= len(r.Weeks) {
			continue
		}
		x := ribbonSide + week*(float64(m.Week)+0.5)
		at := max(x, taken+widthOf(m.Label, small)/2+1)
		taken = at + widthOf(m.Label, small)/2 + 1
		p.Marks = append(p.Marks, markShape{X: x, LabelX: at, Top: markTop, Foot: bottom, Label: m.Label, Title: m.Title})
	}
	for t, w := range r.Weeks {
		if w.Tick != "" {
			p.XTicks = append(p.XTicks, tickShape{X: ribbonSide + week*float64(t), Y: bottom + 15, Text: w.Tick})
		}
	}
	p.Key = stateKey(&p.frame, bottom+26)
	p.Height = bottom + 26 + legendLine
	return picture("ribbon", p)
}

// bands are the runs of weeks of one state.
func (p *ribbonPicture) bands(row RibbonRow, weeks []BarWeek, week, y float64) {
	n := min(len(row.States), len(weeks))
	for from := 0; from < n; {
		to := from
		for to+1 < n && row.States[to+1] == row.States[from] {
			to++
		}
		s := row.States[from]
		b := bandShape{
			X: ribbonSide + week*float64(from), Y: y, Width: week * float64(to-from+1), Height: bandHeight,
			Fill: p.use("c"+Letter(s), StateFill(s)), Plain: StateFill(s).Colour,
			Title: fmt.Sprintf("%s: %s, %s", row.Name, s, span(weeks[from].Name, weeks[to].Name)),
		}
		switch words := string(s); {
		case widthOf(words, letter)+wordsPadding <= b.Width:
			b.Text = words
		case b.Width >= letterRoom:
			b.Text = Letter(s)
		}
		if b.Text != "" {
			b.BackWidth = widthOf(b.Text, letter) + wordsPadding/2
			b.Back = b.X + (b.Width-b.BackWidth)/2
			b.TextX, b.TextY = b.X+b.Width/2, y+bandHeight/2
		}
		p.Bands = append(p.Bands, b)
		from = to + 1
	}
}

func span(from, to string) string {
	if from == to {
		return from
	}
	return from + " to " + to
}

// RibbonWords says a ribbon's row in a sentence, for those who do not see it.
func RibbonWords(row RibbonRow, weeks []BarWeek) string {
	var parts []string
	n := min(len(row.States), len(weeks))
	for from := 0; from < n; {
		to := from
		for to+1 < n && row.States[to+1] == row.States[from] {
			to++
		}
		parts = append(parts, string(row.States[from])+" for "+strconv.Itoa(to-from+1)+" weeks from "+weeks[from].Name)
		from = to + 1
	}
	if len(parts) == 0 {
		return row.Name + ": nothing is known."
	}
	return row.Name + ": " + strings.ReplaceAll(strings.Join(parts, ", then "), " 1 weeks", " 1 week") + "."
}
