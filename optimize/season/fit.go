package season

import (
	"math"
	"slices"
)

// fit is the dog's best column with its sessions at the rows' prices, work kept within the sessions, to within tol points.
// It begins with the present fill prices. The value is the column's Lagrangian value.
func (n *dogNets) fit(tol float64) (*column, float64) {
	lines := make([]line, n.p.Weeks)
	for t, z := range n.sessions {
		lines[t] = n.line(t, z, z, 0)
	}
	f := newFit(n, lines)
	a, _ := f.solve(tol)
	c := f.column(a)
	return c, n.lagrangian(c)
}

// solve is the best mix, to within tol points, and what none passes: a small column generation, in which the weeks' limits
// are rows and each area mixes its answers (an area's problem is convex). It leaves the best fill prices in the nets.
func (f *fitting) solve(tol float64) (now answer, least float64) {
	n := f.n
	lp := revised{late: n.late}
	centre, smooth := slices.Clone(n.fill), fitSmooth
	least = f.ask()
	for range fitRounds {
		a, err := trusted{&lp}.solve(&f.prog, f.basis)
		if err != nil {
			break
		}
		now, f.basis = a, a.basis
		if least-(f.base+a.gain) <= tol {
			break
		}
		for i, t := range f.weeks {
			y := f.lines[t].least + math.Max(0, a.y[len(n.nets)+i]/minutesUnit)
			n.setFill(t, smooth*centre[t]+(1-smooth)*y)
		}
		before := len(f.prog.cols)
		if v := f.ask(); v < least {
			least = v
			copy(centre, n.fill)
		}
		if !f.gains(before, a.y) { // the smoothed prices missed: ask the program's own
			if smooth == 0 {
				break
			}
			smooth = 0
		}
	}
	for t, v := range centre {
		n.setFill(t, v)
	}
	return now, least
}

const (
	fitRounds = 25
	fitSmooth = 0.5  // part of the best fill prices so far in those that are asked
	fitTol    = 5e-5 // points: how near to the best a fit need be
)

// fitting is the program of a fit: a row for each area, which mixes its answers, and one for each open week.
type fitting struct {
	n      *dogNets
	lines  []line
	base   float64 // points that no mix changes
	prog   program
	basis  []int
	weeks  []int
	shares map[int][]float64 // by column: an area's answer
	area   map[int]int       // .. and whose
}

func newFit(n *dogNets, lines []line) *fitting {
	f := &fitting{n: n, lines: lines, base: n.worth, shares: map[int][]float64{}, area: map[int]int{}}
	for range n.nets {
		f.prog.addEquation(1)
	}
	for a := range n.nets {
		var idle col
		idle.gain = -n.idleCharges(a)
		idle.add(a, 1)
		f.basis = append(f.basis, f.prog.addCol(idle))
	}
	for t, l := range lines {
		f.base -= l.base
		if l.room <= 0 {
			continue
		}
		row, slack := f.prog.addLimit(l.room / minutesUnit)
		f.weeks, f.basis = append(f.weeks, t), append(f.basis, slack)
		if !math.IsInf(l.most, 1) { // more room at a price
			over := col{gain: (l.least - l.most) * minutesUnit}
			over.add(row, -1)
			f.prog.addCol(over)
		}
	}
	for i, t := range f.weeks {
		if l := lines[t]; !math.IsInf(l.dear, 1) { // more room at a price, up to so much
			one, slack := f.prog.addLimit(1)
			more := col{gain: (l.least - l.dear) * (l.more - l.room)}
			more.add(len(n.nets)+i, (l.room-l.more)/minutesUnit)
			more.add(one, 1)
			f.prog.addCol(more)
			f.basis = append(f.basis, slack)
		}
	}
	return f
}

// ask adds the areas' answers at the present fill prices, and returns what no mix passes by them.
func (f *fitting) ask() (ceiling float64) {
	n := f.n
	ceiling = f.base
	for a, net := range n.nets {
		net.solve()
		c := col{gain: -net.minimum()}
		ceiling += c.gain
		c.add(a, 1)
		shares := make([]float64, n.p.Weeks)
		for i, t := range f.weeks {
			shares[t] = net.pulled(t)
			w := shares[t] * n.dog.Areas[a].Minutes
			c.add(len(n.nets)+i, w/minutesUnit)
			c.gain += (n.fill[t] - f.lines[t].least) * w
		}
		j := f.prog.addCol(c)
		f.shares[j], f.area[j] = shares, a
	}
	for _, t := range f.weeks {
		ceiling += f.lines[t].gain(n.fill[t])
	}
	return ceiling
}

// uses are what the mix takes by week.
func (f *fitting) uses(a answer) uses {
	n := f.n
	u := uses{make([]float64, n.p.Weeks), make([]float64, n.p.Weeks)}
	for j, x := range a.x {
		if shares := f.shares[j]; x > 0 && shares != nil {
			for t, s := range shares {
				u.work[t] += x * s * n.dog.Areas[f.area[j]].Minutes
				u.levied[t] += x * s * n.levies[f.area[j]][t]
			}
		}
	}
	return u
}

// gains reports whether a column from the given one on gains at the prices.
func (f *fitting) gains(from int, y []float64) bool {
	return slices.ContainsFunc(f.prog.cols[from:], func(c col) bool { return c.reduced(y) > gainTol })
}

// column is the mix as a season of the dog.
func (f *fitting) column(a answer) *column {
	n := f.n
	c := &column{dog: n.d, sessions: slices.Clone(n.sessions), shares: table(len(n.nets), n.p.Weeks)}
	for j, x := range a.x {
		if shares := f.shares[j]; x > 0 && shares != nil {
			for t, s := range shares {
				c.shares[f.area[j]][t] += x * s
			}
		}
	}
	c.measure(n.p)
	c.price(n.p)
	return c
}

// idleCharges is what short and long hair takes from an area when nothing is pulled, points at the present values.
func (n *dogNets) idleCharges(a int) float64 {
	area := &n.dog.Areas[a]
	ready := make([]float64, n.p.Weeks)
	addReady(ready, area, make([]float64, n.p.Weeks))
	s := 0.0
	for t, r := range ready {
		s += n.dog.weight(t, n.show) * (area.Weight - r)
	}
	return s
}

// lagrangian is a column's value at the present prices of rows and shows.
func (n *dogNets) lagrangian(c *column) float64 {
	v := n.pulling(c)
	for t, z := range c.sessions {
		v -= n.cost(t, z)
	}
	return v
}

// pulling is the part of a column's Lagrangian value that its pulling decides.
func (n *dogNets) pulling(c *column) float64 {
	v := c.ready
	if n.dog.Shows != nil {
		v += n.show * c.mean
	}
	for t := range n.p.Weeks {
		for k := range n.p.Kinds {
			v -= n.minute[t][k] * c.kinds[t*n.p.Kinds+k]
		}
	}
	return v
}
