package week

import "math"

// row is a bound on the work of some stretches of a day: the sum of a*other + b*pull is at most most.
type row struct {
	a, b float64
	most float64
	free []int   // stretches
	cap  float64 // largest price: a row that costs its price may be passed; infinite for others
}

// lineRows are the bounds of a line that hang on no breaks: hand load and even share.
func (m *menu) lineRows(li int) (rows []row) {
	l := &m.lines[li]
	var all float64
	for _, f := range l.free {
		all += m.free[f].minutes
	}
	if l.strip < all {
		rows = append(rows, row{0, 1, l.strip, l.free, math.Inf(1)})
	}
	if m.p.Even > 0 {
		rows = append(rows, row{1, 1, l.even, l.free, m.p.Even})
	}
	return rows
}

// breakRows are the bounds of a stretch with so many breaks: they are exact.
func (m *menu) breakRows(f, breaks int) []row {
	return []row{
		{1, 1, m.free[f].minutes - float64(breaks)*m.p.Break, []int{f}, math.Inf(1)},
		{0, 1, float64(breaks+1) * m.p.BreakAfter, []int{f}, math.Inf(1)},
	}
}

// looseRows are bounds of a stretch with any breaks: a break for every BreakAfter minutes but the last.
func (m *menu) looseRows(f int) []row {
	x := m.free[f].minutes
	rows := []row{{1, 1, x, []int{f}, math.Inf(1)}}
	if x > m.p.BreakAfter {
		rows = append(rows, row{1, 1 + m.p.Break/m.p.BreakAfter, x + m.p.Break, []int{f}, math.Inf(1)})
	}
	return rows
}

// mostBreaks is how many breaks free time of so many minutes can have a use for.
func (p *Problem) mostBreaks(minutes float64) (n int) {
	for minutes-float64(n+1)*p.Break > float64(n+1)*p.BreakAfter+slack {
		n++
	}
	return n
}

// prices are what the rows cost, and from them what other work and pulling cost in each stretch.
type prices struct {
	row         []float64
	other, pull []float64
}

func (m *menu) newPrices(rows int) prices {
	return prices{row: make([]float64, rows), other: make([]float64, len(m.free)), pull: make([]float64, len(m.free))}
}

func (q *prices) spread(rows []row) {
	clear(q.other)
	clear(q.pull)
	for r, price := range q.row {
		if price > 0 {
			for _, f := range rows[r].free {
				q.other[f] += price * rows[r].a
				q.pull[f] += price * rows[r].b
			}
		}
	}
}

// reduced is what is left of an option's gain, and of what its parts are worth, when the time that it takes is paid
// for; parts that are not worth their time are left out.
func (m *menu) reduced(o *option, gain float64, q *prices) float64 {
	for k := range o.loads {
		l := &o.loads[k]
		price := q.pull[l.stretch]
		gain -= l.other * q.other[l.stretch]
		for n := range l.pieces {
			x := &l.pieces[n]
			if x.rate <= price {
				break
			}
			gain += x.value - x.minutes*price
		}
	}
	return gain
}

// use adds the time that an option takes at prices q.
func (m *menu) use(o *option, q *prices, other, pull []float64) {
	for k := range o.loads {
		l := &o.loads[k]
		other[l.stretch] += l.other
		for n := range l.pieces {
			x := &l.pieces[n]
			if x.rate <= q.pull[l.stretch] {
				break
			}
			pull[l.stretch] += x.minutes
		}
	}
}
