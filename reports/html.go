package reports

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
//go:embed html/*.html html/*.css
var htmlFiles embed.FS

var htmlTemplates = template.Must(template.ParseFS(htmlFiles, "html/*.html"))

// htmlStyle is the style sheet as it is embedded in every page.
func htmlStyle() template.CSS {
	css, err := htmlFiles.ReadFile("html/style.css")
	if err != nil {
		return "" // embedded at compile time
	}
	return template.CSS(css) // the program's own file
}

// htmlHead is what stands at the top of a page and decides how it is framed. Every text is passed through plain and
// escaped.
type htmlHead struct {
	kennel, title, note string
	contents            bool // a table of contents
	foot                []string
	style               template.CSS // of this page alone, after that of every page
}

// htmlSection is one part of a page under a heading of its own.
type htmlSection struct {
	id    string // for links, unique in the page: letters, digits and dashes
	title string
	note  string // a sentence under the heading, may be empty
	class string // "newpage" starts a new page in print
	body  template.HTML
}

// htmlDoc writes a whole page: self-contained, printable, dark on white.
func htmlDoc(w io.Writer, h htmlHead, sections ...htmlSection) error {
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
	}{say.Plain(h.kennel), say.Plain(h.title), say.Plain(h.note), h.contents, htmlStyle() + h.style, nil, say.Plains(h.foot)}
	for _, s := range sections {
		page.Sections = append(page.Sections, section{s.id, say.Plain(s.title), say.Plain(s.note), s.class, s.body})
	}
	var b bytes.Buffer
	if err := htmlTemplates.ExecuteTemplate(&b, "frame", page); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// htmlCell is one cell of a table: words, or a figure with the value that JSON and CSV give it, or a fragment.
type htmlCell struct {
	Text   string
	Value  string // for programs, in a data element; empty for words
	Small  string // said after it, smaller
	Figure bool   // to the right, in a column of figures
	HTML   template.HTML
}

// wordCell is a cell of text.
func wordCell(s string) htmlCell { return htmlCell{Text: say.Plain(s)} }

// figureCell is a cell with a number as people read it and as programs do.
func figureCell(shown string, value float64) htmlCell {
	return htmlCell{Text: shown, Value: kennel.Number(value), Figure: true}
}

// with says something after the cell, smaller.
func (c htmlCell) with(small string) htmlCell {
	c.Small = say.Plain(small)
	return c
}

// htmlTable is a table with a caption, headed columns and rows headed by their first cell.
type htmlTable struct {
	Caption string
	Hidden  bool   // the caption is only read out, because a heading says the same
	Class   string // how it is laid out; usually empty
	Columns []htmlColumn
	Rows    []htmlRow
}

type htmlColumn struct {
	Name    string
	Figures bool
}

type htmlRow struct {
	Cells []htmlCell
	Total bool
}

// newHTMLTable is a table without rows. A column whose name starts with "#" holds figures.
func newHTMLTable(caption string, columns ...string) htmlTable {
	t := htmlTable{Caption: say.Plain(caption)}
	for _, c := range columns {
		name, figures := strings.CutPrefix(c, "#")
		t.Columns = append(t.Columns, htmlColumn{name, figures})
	}
	return t
}

func (t *htmlTable) add(cells ...htmlCell) { t.Rows = append(t.Rows, htmlRow{Cells: cells}) }

func (t *htmlTable) total(cells ...htmlCell) {
	t.Rows = append(t.Rows, htmlRow{Cells: cells, Total: true})
}

// Stacked reports whether the table's cells stand under one another where the screen is narrow. Tables with words in
// more than one column do so; what they are is then said by roles, which laying out as blocks would take away.
func (t htmlTable) Stacked() bool { return t.Class == stacked }

// stacked is the class of tables with words in several columns.
const stacked = "stack"

// html is the table as a fragment of a page.
func (t htmlTable) html() (template.HTML, error) { return htmlPart("table", t) }

// htmlPart is a fragment made by one of the templates in html/parts.html.
func htmlPart(name string, data any) (template.HTML, error) {
	var b strings.Builder
	err := htmlTemplates.ExecuteTemplate(&b, name, data)
	return template.HTML(b.String()), err // the template has escaped every text
}

// htmlSays is a paragraph for each sentence.
func htmlSays(sentences ...string) (template.HTML, error) {
	return htmlPart("says", say.Plains(sentences))
}

// htmlList is a bulleted list.
func htmlList(items []string) (template.HTML, error) { return htmlPart("list", say.Plains(items)) }

// htmlFact is a name with what it is, as a row of a description list.
type htmlFact struct{ Name, Text string }

// htmlFacts is a list of names and what they are.
func htmlFacts(facts ...htmlFact) (template.HTML, error) {
	clean := make([]htmlFact, len(facts))
	for i, f := range facts {
		clean[i] = htmlFact{say.Plain(f.Name), say.Plain(f.Text)}
	}
	return htmlPart("facts", clean)
}

// htmlBody puts fragments together, and keeps the first error of making them.
type htmlBody struct {
	b   strings.Builder
	err error
}

// add adds a fragment as the functions of this file return it.
func (h *htmlBody) add(part template.HTML, err error) {
	if h.err == nil {
		h.err = err
	}
	h.b.WriteString(string(part))
}

// heading adds a smaller heading.
func (h *htmlBody) heading(title string) {
	h.b.WriteString("<h3>" + template.HTMLEscapeString(say.Plain(title)) + "</h3>\n")
}

// wrapped adds a fragment inside a div of the class.
func (h *htmlBody) wrapped(class string, inner *htmlBody) {
	h.add(template.HTML(`<div class="`+template.HTMLEscapeString(class)+"\">\n"+inner.b.String()+"</div>\n"), inner.err) // inner is escaped already
}

func (h *htmlBody) html() template.HTML { return template.HTML(h.b.String()) } // its parts are escaped already
