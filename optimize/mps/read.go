package mps

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Read reads a minimisation in free-format MPS: names without spaces; sections NAME, ROWS, COLUMNS, RHS, RANGES,
// BOUNDS, ENDATA. It refuses what readers understand differently: a constant on the objective's right-hand side and
// a marker of the objective's sense.
func Read(r io.Reader) (Model, error) {
	m := &reader{rows: map[string]int{}, columns: map[string]int{}, bounded: map[int]bool{}}
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 1<<20)
	for m.line = 1; lines.Scan() && !m.ended; m.line++ {
		text := lines.Text()
		f := strings.Fields(text)
		if len(f) == 0 || strings.HasPrefix(text, "*") {
			continue
		}
		var err error
		if text[0] == ' ' || text[0] == '\t' {
			err = m.data(f)
		} else {
			err = m.head(f)
		}
		if err != nil {
			return Model{}, fmt.Errorf("line %d: %w", m.line, err)
		}
	}
	if err := lines.Err(); err != nil {
		return Model{}, err
	}
	if !m.ended {
		return Model{}, fmt.Errorf("the file ends without ENDATA")
	}
	m.finish()
	return m.model, nil
}

type reader struct {
	model   Model
	line    int
	section string
	ended   bool
	whole   bool // between markers

	rows      map[string]int // -1 = a free row
	senses    []byte         // by row
	last      []int          // by row: the last column with an entry in it, -1 = none
	rhs, span []float64      // by row; span NaN = none
	columns   map[string]int
	bounded   map[int]bool // columns with an upper bound of the file
}

func (m *reader) head(f []string) error {
	switch f[0] {
	case "ENDATA":
		m.ended = true
	case "NAME":
		m.model.Name = strings.Join(f[1:], " ")
	case "ROWS", "COLUMNS", "RHS", "RANGES", "BOUNDS":
	default:
		return fmt.Errorf("unknown section %q", f[0])
	}
	m.section = f[0]
	return nil
}

func (m *reader) data(f []string) error {
	switch m.section {
	case "ROWS":
		return m.row(f)
	case "COLUMNS":
		return m.column(f)
	case "RHS", "RANGES":
		if len(f)%2 == 1 { // the set's name may be left out
			f = f[1:]
		}
		return pairs(f, m.side)
	case "BOUNDS":
		return m.bound(f)
	}
	return fmt.Errorf("data in section %q", m.section)
}

func (m *reader) row(f []string) error {
	if len(f) != 2 {
		return fmt.Errorf("a row needs a sense and a name")
	}
	if _, twice := m.rows[f[1]]; twice {
		return fmt.Errorf("row %s is there already", f[1])
	}
	switch f[0] {
	case "N":
		if m.model.Objective == "" {
			m.model.Objective = f[1]
		}
		m.rows[f[1]] = -1
		return nil
	case "L", "G", "E":
	default:
		return fmt.Errorf("unknown sense %q of row %s", f[0], f[1])
	}
	m.rows[f[1]] = len(m.model.Rows)
	m.model.Rows = append(m.model.Rows, Row{Name: f[1]})
	m.senses, m.last = append(m.senses, f[0][0]), append(m.last, -1)
	m.rhs, m.span = append(m.rhs, 0), append(m.span, math.NaN())
	return nil
}

func (m *reader) column(f []string) error {
	if len(f) >= 3 && f[len(f)-2] == "'MARKER'" {
		switch f[len(f)-1] {
		case "'INTORG'":
			m.whole = true
		case "'INTEND'":
			m.whole = false
		default:
			return fmt.Errorf("unknown marker %s", f[len(f)-1])
		}
		return nil
	}
	j, ok := m.columns[f[0]]
	if !ok {
		j = len(m.model.Columns)
		m.columns[f[0]] = j
		m.model.Columns = append(m.model.Columns, Column{Name: f[0], High: math.Inf(1), Whole: m.whole})
	} else if j != len(m.model.Columns)-1 {
		return fmt.Errorf("the entries of column %s are not together", f[0])
	}
	return pairs(f[1:], func(name string, x float64) error {
		i, ok := m.rows[name]
		switch {
		case !ok:
			return fmt.Errorf("column %s has an entry in the unknown row %s", f[0], name)
		case name == m.model.Objective:
			m.model.Columns[j].Cost += x
		case i >= 0:
			if m.last[i] == j {
				return fmt.Errorf("column %s has two entries in row %s", f[0], name)
			}
			m.last[i] = j
			c := &m.model.Columns[j]
			c.In = append(c.In, Entry{Row: i, Coef: x})
		}
		return nil
	})
}

// side takes a right-hand side or a range.
func (m *reader) side(name string, x float64) error {
	i, ok := m.rows[name]
	if !ok || i < 0 {
		return fmt.Errorf("%s of %s, which is not a row with a limit", m.section, name)
	}
	if m.section == "RHS" {
		m.rhs[i] = x
	} else {
		m.span[i] = x
	}
	return nil
}

func (m *reader) bound(f []string) error {
	kind := f[0]
	valued := kind != "FR" && kind != "MI" && kind != "PL" && kind != "BV"
	want := 2 // kind, column
	if valued {
		want = 3
	}
	if len(f) == want+1 { // with the set's name
		f = append([]string{kind}, f[2:]...)
	}
	if len(f) != want {
		return fmt.Errorf("a bound %s with %d fields", kind, len(f))
	}
	j, ok := m.columns[f[1]]
	if !ok {
		return fmt.Errorf("a bound on the unknown column %s", f[1])
	}
	var x float64
	if valued {
		var err error
		if x, err = strconv.ParseFloat(f[2], 64); err != nil || math.IsNaN(x) {
			return fmt.Errorf("the bound %q of %s is not a number", f[2], f[1])
		}
	}
	c := &m.model.Columns[j]
	switch kind {
	case "UP", "UI":
		if x < 0 && c.Low == 0 {
			return fmt.Errorf("column %s has a negative upper bound and no lower one: readers disagree on that", f[1])
		}
		c.High = x
	case "LO", "LI":
		c.Low = x
	case "FX":
		c.Low, c.High = x, x
	case "FR":
		c.Low, c.High = math.Inf(-1), math.Inf(1)
	case "MI":
		c.Low = math.Inf(-1)
	case "PL":
		c.High = math.Inf(1)
	case "BV":
		c.Low, c.High, c.Whole = 0, 1, true
	default:
		return fmt.Errorf("unknown bound %q", kind)
	}
	if kind != "LO" && kind != "LI" && kind != "MI" {
		m.bounded[j] = true
	}
	return nil
}

// finish turns senses, right-hand sides and ranges into limits, and gives whole columns without an upper bound the
// old bound of 1.
func (m *reader) finish() {
	for i := range m.model.Rows {
		r, rhs, span := &m.model.Rows[i], m.rhs[i], m.span[i]
		r.Low, r.High = rhs, rhs
		ranged := !math.IsNaN(span)
		switch m.senses[i] {
		case 'L':
			r.Low = math.Inf(-1)
			if ranged {
				r.Low = rhs - math.Abs(span)
			}
		case 'G':
			r.High = math.Inf(1)
			if ranged {
				r.High = rhs + math.Abs(span)
			}
		default:
			if span > 0 {
				r.High = rhs + span
			} else if span < 0 {
				r.Low = rhs + span
			}
		}
	}
	for j := range m.model.Columns {
		if c := &m.model.Columns[j]; c.Whole && !m.bounded[j] {
			c.High = 1
		}
	}
}

// pairs calls f on each name and number.
func pairs(fields []string, f func(name string, x float64) error) error {
	if len(fields) == 0 || len(fields)%2 != 0 {
		return fmt.Errorf("%d fields where names and numbers should be", len(fields))
	}
	for i := 0; i < len(fields); i += 2 {
		x, err := strconv.ParseFloat(fields[i+1], 64)
		if err != nil || math.IsNaN(x) {
			return fmt.Errorf("%q of %s is not a number", fields[i+1], fields[i])
		}
		if err := f(fields[i], x); err != nil {
			return err
		}
	}
	return nil
}
