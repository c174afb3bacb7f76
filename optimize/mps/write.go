package mps

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
)

// Write writes a model in free-format MPS, the same bytes for the same model. Whole columns come last, between one pair
// of markers. The error is the writer's.
func Write(w io.Writer, m *Model) error {
	b := bufio.NewWriter(w)
	for _, note := range m.Notes {
		fmt.Fprintf(b, "* %s\n", note)
	}
	fmt.Fprintf(b, "NAME %s\nROWS\n N %s\n", m.Name, m.Objective)
	for i := range m.Rows {
		fmt.Fprintf(b, " %c %s\n", m.Rows[i].sense(), m.Rows[i].Name)
	}
	b.WriteString("COLUMNS\n")
	m.eachColumn(false, func(c *Column) { m.writeColumn(b, c) })
	b.WriteString(" MARKER 'MARKER' 'INTORG'\n")
	m.eachColumn(true, func(c *Column) { m.writeColumn(b, c) })
	b.WriteString(" MARKER 'MARKER' 'INTEND'\n")
	b.WriteString("RHS\n")
	for i := range m.Rows {
		if x := m.Rows[i].side(); x != 0 {
			fmt.Fprintf(b, " RHS %s %s\n", m.Rows[i].Name, number(x))
		}
	}
	b.WriteString("RANGES\n")
	for i := range m.Rows {
		if r := &m.Rows[i]; r.Low < r.High && !math.IsInf(r.High-r.Low, 1) {
			fmt.Fprintf(b, " RANGE %s %s\n", r.Name, number(r.High-r.Low))
		}
	}
	b.WriteString("BOUNDS\n")
	for _, whole := range []bool{false, true} {
		m.eachColumn(whole, func(c *Column) { writeBounds(b, c) })
	}
	b.WriteString("ENDATA\n")
	return b.Flush()
}

// WriteSolution writes values of a model's columns as `name value` lines, in the order of its file. There must be one
// for each. The error is the writer's.
func WriteSolution(w io.Writer, m *Model, values []float64) error {
	b := bufio.NewWriter(w)
	for _, whole := range []bool{false, true} {
		for j := range m.Columns {
			if m.Columns[j].Whole == whole {
				fmt.Fprintf(b, "%s %s\n", m.Columns[j].Name, number(values[j]))
			}
		}
	}
	return b.Flush()
}

func (m *Model) eachColumn(whole bool, f func(c *Column)) {
	for j := range m.Columns {
		if m.Columns[j].Whole == whole {
			f(&m.Columns[j])
		}
	}
}

func (m *Model) writeColumn(b *bufio.Writer, c *Column) {
	if c.Cost != 0 || len(c.In) == 0 { // a column is known by its entries: it needs one
		fmt.Fprintf(b, " %s %s %s\n", c.Name, m.Objective, number(c.Cost))
	}
	for _, e := range c.In {
		fmt.Fprintf(b, " %s %s %s\n", c.Name, m.Rows[e.Row].Name, number(e.Coef))
	}
}

func writeBounds(b *bufio.Writer, c *Column) {
	switch {
	case c.Low == c.High:
		fmt.Fprintf(b, " FX BOUND %s %s\n", c.Name, number(c.Low))
		return
	case math.IsInf(c.Low, -1) && math.IsInf(c.High, 1):
		fmt.Fprintf(b, " FR BOUND %s\n", c.Name)
		return
	case math.IsInf(c.Low, -1):
		fmt.Fprintf(b, " MI BOUND %s\n", c.Name)
	case c.Low != 0:
		fmt.Fprintf(b, " LO BOUND %s %s\n", c.Name, number(c.Low))
	}
	switch {
	case !math.IsInf(c.High, 1):
		fmt.Fprintf(b, " UP BOUND %s %s\n", c.Name, number(c.High))
	case c.Whole: // without a bound, readers take 1
		fmt.Fprintf(b, " PL BOUND %s\n", c.Name)
	}
}

// sense is how a row is written: equal, at most, or at least, which may have a range above it.
func (r *Row) sense() byte {
	switch {
	case r.Low == r.High:
		return 'E'
	case math.IsInf(r.Low, -1):
		return 'L'
	}
	return 'G'
}

// side is the right-hand side of a row's sense.
func (r *Row) side() float64 {
	if r.sense() == 'L' {
		return r.High
	}
	return r.Low
}

// number is x in the fewest digits that read back as x.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
