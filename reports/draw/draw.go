// Package draw makes the pictures of the reports: numbers and words in, SVG out. It knows the trade's words for areas
// and states and nothing of plans. Every picture has a name and a description that are read out, text is escaped, and
// what a colour says is said by a pattern and in words as well. The same numbers give the same bytes.
package draw

import (
	"embed"
	"html/template"
	"math"
	"strings"
	"unicode"

	"tuckup/kennel"
)

//go:embed svg/*.svg
var files embed.FS

var templates = template.Must(template.New("").Funcs(template.FuncMap{"n": coordinate}).ParseFS(files, "svg/*.svg"))

// The ink of lines and words, and the paler ink of axes. Their contrast on white and on every fill is tested.
const (
	ink     = "#1f2421"
	softInk = "#4d5651"
	paper   = "#ffffff"
)

// letter is the size of the words in a picture, in units of its own width. Pictures are picWidth wide, so that the
// words are still read where one is shown 350 pixels wide.
const (
	picWidth = 440
	letter   = 13.0
	small    = 12.0
)

// frame is what every picture has.
type frame struct {
	ID            string // starts every identifier inside, so that many pictures fit in one page
	Title, Desc   string
	Width, Height float64
	Hatches       []hatch
	Ink, Soft     string
	Paper         string
	Letter, Small float64
}

func newFrame(id, title, desc string, height float64) frame {
	return frame{
		ID: id, Title: title, Desc: desc, Width: picWidth, Height: height, Ink: ink, Soft: softInk, Paper: paper,
		Letter: letter, Small: small,
	}
}

// hatch is a fill under the identifier that shapes use.
type hatch struct {
	ID string
	Fill
}

// use makes a fill known to the picture and returns what to fill a shape with.
func (f *frame) use(name string, fill Fill) string {
	id := f.ID + "-" + name
	for _, h := range f.Hatches {
		if h.ID == id {
			return "url(#" + id + ")"
		}
	}
	f.Hatches = append(f.Hatches, hatch{id, fill})
	return "url(#" + id + ")"
}

// stateKey says what the fills of the states stand for, in one line.
func stateKey(f *frame, y float64) (key []legendItem) {
	x := keyLeft
	for _, s := range States() {
		text := Letter(s) + " " + string(s)
		key = append(key, legendItem{
			X: x, Y: y, Size: swatch, TextX: x + swatch + wordsGap, TextY: y + swatch - 2,
			Fill: f.use("c"+Letter(s), StateFill(s)), Text: text,
		})
		x += swatch + wordsGap + widthOf(text, small) + legendGap
	}
	return key
}

const keyLeft = 4.0

// picture fills in a template.
func picture(name string, data any) (template.HTML, error) {
	var b strings.Builder
	err := templates.ExecuteTemplate(&b, name, data)
	return template.HTML(b.String()), err // the template has escaped every text
}

// coordinate writes a number with at most one decimal.
func coordinate(x float64) string {
	r := math.Round(x*10) / 10
	if r == 0 {
		r = 0 // minus zero
	}
	return kennel.Number(r)
}

// Widths of letters as a part of their size, on the wide side: which font there is can't be known.
const (
	narrowLetter = 0.57
	broadLetter  = 0.8  // capitals, m, w and the like
	wideLetter   = 1.05 // of the scripts of East Asia, and pictures
	wideFrom     = 0x1100
)

// widthOf is about how wide text of that size is.
func widthOf(s string, size float64) (w float64) {
	for _, r := range s {
		switch {
		case r >= wideFrom && (r < 0x2000 || r > 0x206f):
			w += wideLetter * size
		case unicode.IsUpper(r) || strings.ContainsRune("mw@%", r):
			w += broadLetter * size
		default:
			w += narrowLetter * size
		}
	}
	return w
}

// fit cuts text to a width, with an ellipsis where something had to go. Isolates that keep a name written right to
// left to itself stay closed.
func fit(s string, size, most float64) string {
	if widthOf(s, size) <= most {
		return s
	}
	const isolate, pop = '\u2068', "\u2069"
	var b strings.Builder
	used, opened := widthOf("…", size), false
	for _, r := range s {
		used += widthOf(string(r), size)
		if used > most {
			break
		}
		opened = opened || r == isolate
		b.WriteRune(r)
	}
	b.WriteString("…")
	if opened {
		b.WriteString(pop)
	}
	return b.String()
}
