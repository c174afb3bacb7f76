// Package layout lays a report out: a page of text that keeps to its columns, JSON for programs, CSV for spreadsheets. It
// knows what words and numbers look like there, and nothing of what they are about.
package layout

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"tuckup/reports/say"
)

// Look is how a text report is laid out.
type Look struct {
	Colour  bool // headings in bold; never into a pipe
	Columns int  // width of the page, LeastColumns to Columns; 0 = Columns
}

// The width of a page of text, in columns of a terminal.
const (
	Columns      = 100
	LeastColumns = 72
)

// Page writes lines of text that never pass its columns.
type Page struct {
	w       *bufio.Writer
	colour  bool
	columns int
}

// NewPage is a page that is written to w when it is Done.
func NewPage(w io.Writer, l Look) *Page {
	columns := Columns
	if l.Columns != 0 {
		columns = min(max(l.Columns, LeastColumns), Columns)
	}
	return &Page{w: bufio.NewWriter(w), colour: l.Colour, columns: columns}
}

// Columns is how wide the page is, LeastColumns to Columns.
func (p *Page) Columns() int { return p.columns }

// Done flushes the page and returns the first error of writing it.
func (p *Page) Done() error { return p.w.Flush() }

// Line writes one line as it is; the caller has seen to its width.
func (p *Page) Line(s string) {
	p.w.WriteString(strings.TrimRight(s, " "))
	p.w.WriteByte('\n')
}

// Blank writes an empty line.
func (p *Page) Blank() { p.w.WriteByte('\n') }

// Heading opens a part of the page, with a note beside it.
func (p *Page) Heading(title, note string) {
	p.Blank()
	p.Strong(title, note)
}

// Strong writes a title that stands out and a note behind it that does not.
func (p *Page) Strong(title, note string) {
	whole := strings.TrimSpace(title + "  " + note)
	lines := []string{whole}
	if say.Width(whole) > p.columns {
		lines = say.Wrap(whole, p.columns)
	}
	if p.colour && strings.HasPrefix(lines[0], title) {
		lines[0] = text.Bold.Sprint(title) + strings.TrimPrefix(lines[0], title)
	}
	for _, l := range lines {
		p.Line(l)
	}
}

// Say writes a sentence, broken into lines that hang under its first word.
func (p *Page) Say(indent int, first, format string, args ...any) {
	lead := strings.Repeat(" ", indent) + first
	hang := strings.Repeat(" ", say.Width(lead))
	for i, l := range say.Wrap(fmt.Sprintf(format, args...), p.columns-say.Width(lead)) {
		if i == 0 {
			p.Line(lead + l)
		} else {
			p.Line(hang + l)
		}
	}
}

// Table is rows of cells, as many in each.
type Table struct {
	Rows  [][]string
	Right map[int]bool // columns of numbers
	Most  map[int]int  // widest that a column may be on the widest page; default widestCell
}

const (
	widestCell = 28
	leastLast  = 16 // with less room than this the last cell goes to a line of its own
	tableGap   = 2
)

// Add adds a row.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, cells) }

// Table writes rows in columns. Every column but the last is as wide as its widest cell, and cut where it would
// take more than its share of the page; the last is wrapped.
func (p *Page) Table(indent int, t Table) {
	if len(t.Rows) == 0 {
		return
	}
	last := len(t.Rows[0]) - 1
	widths := make([]int, last)
	for _, r := range t.Rows {
		for c := range widths {
			limit := widestCell
			if m, ok := t.Most[c]; ok {
				limit = m
			}
			widths[c] = max(widths[c], min(say.Width(r[c]), limit*p.columns/Columns))
		}
	}
	for _, r := range t.Rows {
		lead := strings.Repeat(" ", indent)
		for c, w := range widths {
			cell := say.Cut(r[c], w)
			space := strings.Repeat(" ", w-say.Width(cell))
			if t.Right[c] {
				cell = space + cell
			} else {
				cell += space
			}
			lead += cell + strings.Repeat(" ", tableGap)
		}
		if p.columns-say.Width(lead) < leastLast && r[last] != "" {
			p.Line(lead)
			lead = strings.Repeat(" ", 2*indent+tableGap)
		}
		p.Say(0, lead, "%s", r[last])
	}
}
