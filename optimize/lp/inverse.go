package lp

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// inverse is the inverse of a basis, column by column: row k of the matrix is its column k, so that what the simplex asks for
// most, a sparse column times the inverse, reads whole rows. An explicit inverse takes less time here than factors do: the
// programs have some tens to some hundreds of rows, and most of their columns are slacks.
type inverse struct {
	columns *mat.Dense // nil = none
}

func (v *inverse) rows() int {
	if v.columns == nil {
		return 0
	}
	n, _ := v.columns.Dims()
	return n
}

// column sets w to the inverse times a column.
func (v *inverse) column(c *Col, w []float64) {
	clear(w)
	for k, r := range c.Row {
		floats.AddScaled(w, c.At[k], v.columns.RawRowView(int(r)))
	}
}

// times is the inverse times b.
func (v *inverse) times(b []float64) []float64 {
	x := make([]float64, len(b))
	for k, at := range b {
		if at != 0 {
			floats.AddScaled(x, at, v.columns.RawRowView(k))
		}
	}
	return x
}

// dots is g times the inverse.
func (v *inverse) dots(g []float64) []float64 {
	y := make([]float64, len(g))
	if len(g) > 0 {
		mat.NewVecDense(len(y), y).MulVec(v.columns, mat.NewVecDense(len(g), g))
	}
	return y
}

// addRow adds f times row i of the inverse to y.
func (v *inverse) addRow(y []float64, f float64, i int) {
	raw := v.columns.RawMatrix()
	for k := range y {
		y[k] += f * raw.Data[k*raw.Stride+i]
	}
}

// pivot carries the inverse over a pivot in a row, where the entering column is w in terms of the basis.
func (v *inverse) pivot(row int, w []float64) {
	f := 1 / w[row]
	for k := range w {
		column := v.columns.RawRowView(k)
		if x := column[row] * f; x != 0 { // most are 0 while most of the basis is slacks
			floats.AddScaled(column, -x, w)
			column[row] = x
		}
	}
}

// grow adds row i to the inverse; the column that is basic there must have no other entry. It reports whether that is so.
func (v *inverse) grow(p *Program, basis []int, i int) bool {
	own := &p.Cols[basis[i]]
	if len(own.Row) != 1 || int(own.Row[0]) != i {
		return false
	}
	n := i + 1
	grown := mat.NewDense(n, n, nil)
	for k := range i {
		copy(grown.RawRowView(k), v.columns.RawRowView(k))
	}
	for k := range i {
		c := &p.Cols[basis[k]]
		for e := len(c.Row) - 1; e >= 0; e-- {
			if int(c.Row[e]) == i {
				for x := range i {
					column := grown.RawRowView(x)
					column[i] -= c.At[e] * column[k] / own.At[0]
				}
				break
			}
		}
	}
	grown.Set(i, i, 1/own.At[0])
	v.columns = grown
	return true
}

func (v *inverse) copy(from *inverse) {
	if n := from.rows(); n != v.rows() || v.columns == nil {
		v.columns = nil
		if n > 0 {
			v.columns = mat.NewDense(n, n, nil)
		}
	}
	if v.columns != nil {
		v.columns.Copy(from.columns)
	}
}

// of makes the inverse of the basis. Columns with one entry (slacks, and what a dog does when it does nothing) need no work:
// they are the diagonal D of the basis in the order [D E; 0 F], whose inverse is [D' -D'EF'; 0 F'], and only the core F is
// factorised.
func (v *inverse) of(p *Program, basis []int) error {
	n := len(basis)
	v.columns = nil
	if n == 0 {
		return nil
	}
	single := make([]int, n) // by row: the place in the basis of the column that has its only entry there, -1 = none
	for r := range single {
		single[r] = -1
	}
	var core []int // places in the basis
	for i, j := range basis {
		c := &p.Cols[j]
		if len(c.Row) != 1 {
			core = append(core, i)
			continue
		}
		if single[c.Row[0]] >= 0 || math.Abs(c.At[0]) < singularTol {
			return ErrSingular
		}
		single[c.Row[0]] = i
	}
	at := make([]int, n) // by row: its place in the core, -1 = none
	var rows []int       // of the core
	for r, i := range single {
		at[r] = -1
		if i < 0 {
			at[r] = len(rows)
			rows = append(rows, r)
		}
	}
	inv := mat.NewDense(n, n, nil)
	for r, i := range single {
		if i >= 0 {
			inv.Set(r, i, 1/p.Cols[basis[i]].At[0])
		}
	}
	if len(core) > 0 {
		f, err := coreInverse(p, basis, core, at)
		if err != nil {
			return err
		}
		rest := make([]float64, len(core))
		for x, r := range rows {
			column := inv.RawRowView(r)
			for k, i := range core {
				column[i] = f.At(k, x)
				rest[k] = column[i]
			}
			for k, i := range core { // -D'EF'
				c := &p.Cols[basis[i]]
				for e, row := range c.Row {
					if d := single[row]; d >= 0 {
						column[d] -= c.At[e] * rest[k] / p.Cols[basis[d]].At[0]
					}
				}
			}
		}
	}
	v.columns = inv
	return nil
}

// coreInverse is F': the inverse of the columns of the core in its rows.
func coreInverse(p *Program, basis, core, at []int) (*mat.Dense, error) {
	n := len(core)
	f := mat.NewDense(n, n, nil)
	for k, i := range core {
		c := &p.Cols[basis[i]]
		for e, row := range c.Row {
			if at[row] >= 0 {
				f.Set(at[row], k, c.At[e])
			}
		}
	}
	var ill mat.Condition
	if err := f.Inverse(f); errors.As(err, &ill) && !(float64(ill) < 1/singularTol) {
		return nil, ErrSingular
	} else if err != nil && !errors.As(err, &ill) {
		return nil, err
	}
	return f, nil
}

const singularTol = 1e-11 // pivots that are smaller are none, and condition numbers beyond its inverse
