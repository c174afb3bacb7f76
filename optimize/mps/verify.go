package mps

import (
	"fmt"
	"math"
)

// Verified is what a solution is worth and by how much it misses being one.
type Verified struct {
	Objective float64 // sum of costs
	Violation float64 // largest amount by which a row or bound is broken, 0 = none
	Worst     string  // name of that row or column; empty = none
	Fraction  float64 // largest distance of a whole column's value from a whole number
}

// Verify computes what a solution is worth in a model and what it breaks. A value must be given for every column
// and for no other.
func Verify(m Model, solution map[string]float64) (Verified, error) {
	sums := make([]float64, len(m.Rows))
	var v Verified
	breaks := func(name string, by float64) {
		if by > v.Violation || math.IsNaN(by) {
			v.Violation, v.Worst = by, name
		}
	}
	for _, c := range m.Columns {
		value, ok := solution[c.Name]
		if !ok {
			return Verified{}, fmt.Errorf("the solution has no value for column %s", c.Name)
		}
		v.Objective += c.Cost * value
		breaks(c.Name, c.Low-value)
		breaks(c.Name, value-c.High)
		if c.Whole {
			v.Fraction = math.Max(v.Fraction, math.Abs(value-math.Round(value)))
		}
		for _, e := range c.In {
			sums[e.Row] += e.Coef * value
		}
	}
	if len(solution) != len(m.Columns) {
		return Verified{}, fmt.Errorf("the solution has values for %d columns, the model has %d", len(solution), len(m.Columns))
	}
	for i, r := range m.Rows {
		breaks(r.Name, r.Low-sums[i])
		breaks(r.Name, sums[i]-r.High)
	}
	return v, nil
}
