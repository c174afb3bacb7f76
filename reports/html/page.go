// Package html writes reports as pages for a browser and for paper: the sheet, a dog, an owner's dogs, readiness, workload,
// the season. Each page is one file; its figures are those of the JSON, in data elements.
package html

import (
	"bytes"
	"embed"
	"html/template"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/say"
)

// The frame of every HTML page and its style. A page stands alone: nothing in it is fetched from anywhere.
//
//go:embed *.html *.css
var files embed.FS

var templates = template.Must(template.ParseFS(files, "*.html"))

// pageStyle is the style sheet as it is embedded in every page.
func pageStyle() template.CSS {
	css, err := files.ReadFile("style.css")
	if err != nil {
		return "" // embedded at compile time
	}
	return template.CSS(css) // the program's own file
}

// pageHead is what stands at the top of a page and decides how it is framed. Every text is passed through plain and
// escaped.
type pageHead struct {
	kennel, title, note string
	contents            bool // a table of contents
	foot                []string
	style               template.CSS // of this page alone, after that of every page
}

// section is one part of a page under a heading of its own.
type section struct {
	id    string // for links, unique in the page: letters, digits and dashes
	title string
	note  string // a sentence under the heading, may be empty
	class string // "newpage" starts a new page in print
	body  template.HTML
}

// writePage writes a whole page: self-contained, printable, dark on white.
func writePage(w io.Writer, h pageHead, sections ...section) error {
	type section struct {
		ID, Title, Note, Class string
		Body                   template.HTML
	}
	page := struct {
		Kennel, Title, Note string
		Contents            bool
		Style               template.CSS
		Sections            []section
		Foot                []string
	}{say.Plain(h.kennel), say.Plain(h.title), say.Plain(h.note), h.contents, pageStyle() + h.style, nil, say.Plains(h.foot)}
	for _, s := range sections {
		page.Sections = append(page.Sections, section{s.id, say.Plain(s.title), say.Plain(s.note), s.class, s.body})
	}
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, "frame", page); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// cell is one cell of a table: words, or a figure with the value that JSON and CSV give it, or a fragment.
type cell struct {
	Text   string
	Value  string // for programs, in a data element; empty for words
	Small  string // said after it, smaller
	Figure bool   // to the right, in a column of figures
	HTML   template.HTML
}

// wordCell is a cell of text.
func wordCell(s string) cell { return cell{Text: say.Plain(s)} }

// figureCell is a cell with a number as people read it and as programs do.
func figureCell(shown string, value float64) cell {
	return cell{Text: shown, Value: kennel.Number(value), Figure: true}
}

// with says something after the cell, smaller.
func (c cell) with(small string) cell {
	c.Small = say.Plain(small)
	return c
}

// table is a table with a caption, headed columns and rows headed by their first cell.
type table struct {
	Caption string
	Hidden  bool   // the caption is only read out, because a heading says the same
	Class   string // how it is laid out; usually empty
	Columns []column
	Rows    []row
}

type column struct {
	Name    string
	Figures bool
}

type row struct {
	Cells []cell
	Total bool
}

// newTable is a table without rows. A column whose name starts with "#" holds figures.
func newTable(caption string, columns ...string) table {
	t := table{Caption: say.Plain(caption)}
	for _, c := range columns {
		name, figures := strings.CutPrefix(c, "#")
		t.Columns = append(t.Columns, column{name, figures})
	}
	return t
}

func (t *table) add(cells ...cell) { t.Rows = append(t.Rows, row{Cells: cells}) }

func (t *table) total(cells ...cell) {
	t.Rows = append(t.Rows, row{Cells: cells, Total: true})
}

// Stacked reports whether the table's cells stand under one another where the screen is narrow. Tables with words in
// more than one column do so; what they are is then said by roles, which laying out as blocks would take away.
func (t table) Stacked() bool { return t.Class == stacked }

// stacked is the class of tables with words in several columns.
const stacked = "stack"

// html is the table as a fragment of a page.
func (t table) html() (template.HTML, error) { return fragment("table", t) }

// fragment is a part made by one of the templates in parts.html.
func fragment(name string, data any) (template.HTML, error) {
	var b strings.Builder
	err := templates.ExecuteTemplate(&b, name, data)
	return template.HTML(b.String()), err // the template has escaped every text
}

// paragraphs is a paragraph for each sentence.
func paragraphs(sentences ...string) (template.HTML, error) {
	return fragment("says", say.Plains(sentences))
}

// bullets is a bulleted list.
func bullets(items []string) (template.HTML, error) { return fragment("list", say.Plains(items)) }

// fact is a name with what it is, as a row of a description list.
type fact struct{ Name, Text string }

// factList is a list of names and what they are.
func factList(facts ...fact) (template.HTML, error) {
	clean := make([]fact, len(facts))
	for i, f := range facts {
		clean[i] = fact{say.Plain(f.Name), say.Plain(f.Text)}
	}
	return fragment("facts", clean)
}

// fragments puts fragments together, and keeps the first error of making them.
type fragments struct {
	b   strings.Builder
	err error
}

// add adds a fragment as the functions of this file return it.
func (h *fragments) add(part template.HTML, err error) {
	if h.err == nil {
		h.err = err
	}
	h.b.WriteString(string(part))
}

// heading adds a smaller heading.
func (h *fragments) heading(title string) {
	h.b.WriteString("<h3>" + template.HTMLEscapeString(say.Plain(title)) + "</h3>\n")
}

// wrapped adds a fragment inside a div of the class.
func (h *fragments) wrapped(class string, inner *fragments) {
	h.add(template.HTML(`<div class="`+template.HTMLEscapeString(class)+"\">\n"+inner.b.String()+"</div>\n"), inner.err) // inner is escaped already
}

func (h *fragments) html() template.HTML { return template.HTML(h.b.String()) } // its parts are escaped already
