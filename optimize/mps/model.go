// Package mps writes mixed-integer programs as model files that general solvers read (free-format MPS), reads such
// files and solutions back, and checks a solution by the file alone. Reading and writing share the types in this file
// and no more, so that one can check the other.
package mps

import (
	"math"
	"strconv"
	"strings"
)

// Model is a mixed-integer program: minimise the sum of Cost times value under the columns' bounds and the rows.
type Model struct {
	Name      string   // one word
	Objective string   // the name of the row of costs, one word
	Notes     []string // lines of comment at the head of the file; not read back
	Columns   []Column
	Rows      []Row // without the objective

	columnNames, rowNames Names
}

// Column is one variable.
type Column struct {
	Name      string // one word, of no other column
	Cost      float64
	Low, High float64 // may be infinite
	Whole     bool    // must be a whole number
	In        []Entry // at most one for each row
}

// Entry is a column's coefficient in a row.
type Entry struct {
	Row  int // index in Model.Rows
	Coef float64
}

// Row bounds a sum: Low <= sum of Coef times value over the columns' entries in it <= High.
type Row struct {
	Name      string  // one word, of no other row and not the objective's
	Low, High float64 // may be infinite, but not both
}

// AddColumn adds a column and returns its index. Where another has its name, a number is put behind it.
func (m *Model) AddColumn(c Column) int {
	if m.columnNames == nil {
		m.columnNames = Names{}
		for i := range m.Columns {
			m.columnNames.Unique(m.Columns[i].Name)
		}
	}
	c.Name = m.columnNames.Unique(c.Name)
	m.Columns = append(m.Columns, c)
	return len(m.Columns) - 1
}

// AddRow adds a row and returns its index. Where another or the objective has its name, a number is put behind it; a
// column may have the same.
func (m *Model) AddRow(name string, low, high float64) int {
	if m.rowNames == nil {
		m.rowNames = Names{m.Objective: true}
		for i := range m.Rows {
			m.rowNames.Unique(m.Rows[i].Name)
		}
	}
	m.Rows = append(m.Rows, Row{Name: m.rowNames.Unique(name), Low: low, High: high})
	return len(m.Rows) - 1
}

// AddMost adds a row whose sum is at most high.
func (m *Model) AddMost(name string, high float64) int { return m.AddRow(name, math.Inf(-1), high) }

// AddLeast adds a row whose sum is at least low.
func (m *Model) AddLeast(name string, low float64) int { return m.AddRow(name, low, math.Inf(1)) }

// Put gives a column its coefficient in a row; 0 is left out. A row takes one coefficient of a column.
func (m *Model) Put(row, column int, coef float64) {
	if coef != 0 {
		m.Columns[column].In = append(m.Columns[column].In, Entry{Row: row, Coef: coef})
	}
}

// Shift moves a constant from the left of a row to its limits: both grow by x.
func (m *Model) Shift(row int, x float64) {
	m.Rows[row].Low += x
	m.Rows[row].High += x
}

// Names are names that are taken.
type Names map[string]bool

// Unique is a name that isn't taken yet, with a number behind it if need be; it is taken now.
func (n Names) Unique(name string) string {
	s := name
	for i := 2; n[s]; i++ {
		s = name + "_" + strconv.Itoa(i)
	}
	n[s] = true
	return s
}

// Plain is a name in at most 40 lower-case letters, digits and single underscores, because readers bound the length of
// names and what is in them; it is the other word when nothing is left.
func Plain(name, otherwise string) string {
	const longest = 40
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case b.Len() >= longest:
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "_"):
			b.WriteByte('_')
		}
	}
	if s := strings.TrimSuffix(b.String(), "_"); s != "" {
		return s
	}
	return otherwise
}
