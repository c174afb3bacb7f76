package reports

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"tuckup/reports/say"

	"github.com/jedib0t/go-pretty/v6/text"
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

// page writes lines of text that never pass its columns.
type page struct {
	w       *bufio.Writer
	colour  bool
	columns int
}

func newPage(w io.Writer, l Look) *page {
	columns := Columns
	if l.Columns != 0 {
		columns = min(max(l.Columns, LeastColumns), Columns)
	}
	return &page{w: bufio.NewWriter(w), colour: l.Colour, columns: columns}
}

// done flushes the page and returns the first error of writing it.
func (p *page) done() error { return p.w.Flush() }

// line writes one line as it is; the caller has seen to its width.
func (p *page) line(s string) {
	p.w.WriteString(strings.TrimRight(s, " "))
	p.w.WriteByte('\n')
}

func (p *page) blank() { p.w.WriteByte('\n') }

// heading opens a part of the page, with a note beside it.
func (p *page) heading(title, note string) {
	p.blank()
	p.strong(title, note)
}

// strong writes a title that stands out and a note behind it that does not.
func (p *page) strong(title, note string) {
	whole := strings.TrimSpace(title + "  " + note)
	lines := []string{whole}
	if say.Width(whole) > p.columns {
		lines = say.Wrap(whole, p.columns)
	}
	if p.colour && strings.HasPrefix(lines[0], title) {
		lines[0] = text.Bold.Sprint(title) + strings.TrimPrefix(lines[0], title)
	}
	for _, l := range lines {
		p.line(l)
	}
}

// say writes a sentence, broken into lines that hang under its first word.
func (p *page) say(indent int, first, format string, args ...any) {
	lead := strings.Repeat(" ", indent) + first
	hang := strings.Repeat(" ", say.Width(lead))
	for i, l := range say.Wrap(fmt.Sprintf(format, args...), p.columns-say.Width(lead)) {
		if i == 0 {
			p.line(lead + l)
		} else {
			p.line(hang + l)
		}
	}
}

// table writes rows in columns. Every column but the last is as wide as its widest cell, and cut where it would
// take more than its share of the page; the last is wrapped. right says which columns hold numbers.
type table struct {
	rows  [][]string
	right map[int]bool
	most  map[int]int // widest that a column may be on the widest page; default widestCell
}

const (
	widestCell = 28
	leastLast  = 16 // with less room than this the last cell goes to a line of its own
	tableGap   = 2
)

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

func (p *page) table(indent int, t table) {
	if len(t.rows) == 0 {
		return
	}
	last := len(t.rows[0]) - 1
	widths := make([]int, last)
	for _, r := range t.rows {
		for c := range widths {
			limit := widestCell
			if m, ok := t.most[c]; ok {
				limit = m
			}
			widths[c] = max(widths[c], min(say.Width(r[c]), limit*p.columns/Columns))
		}
	}
	for _, r := range t.rows {
		lead := strings.Repeat(" ", indent)
		for c, w := range widths {
			cell := say.Cut(r[c], w)
			space := strings.Repeat(" ", w-say.Width(cell))
			if t.right[c] {
				cell = space + cell
			} else {
				cell += space
			}
			lead += cell + strings.Repeat(" ", tableGap)
		}
		if p.columns-say.Width(lead) < leastLast && r[last] != "" {
			p.line(lead)
			lead = strings.Repeat(" ", 2*indent+tableGap)
		}
		p.say(0, lead, "%s", r[last])
	}
}
