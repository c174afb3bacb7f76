package week

import "math"

// row is a bound on the work of some stretches: the sum of a*other + b*pull is at most most. All choices that fit keep
// it; it is what pullRoom allows, made linear.
type row struct {
	a, b float64
	most float64
	free []int   // stretches
	cap  float64 // largest price: a row that costs its price may be passed; infinite for others
}

// rows are the bounds of all lines: each stretch's hull of pullRoom, each line's hand load and even share.
func (m *menu) rows() (rows []row) {
	inf := math.Inf(1)
	for li := range m.lines {
		l := &m.lines[li]
		var all float64
		for _, f := range l.free {
			x := m.free[f].minutes
			all += x
			for _, h := range m.p.hull(x) {
				rows = append(rows, row{h[0], h[1], h[2], []int{f}, inf})
			}
		}
		if l.strip < all {
			rows = append(rows, row{0, 1, l.strip, l.free, inf})
		}
		if m.p.Even > 0 {
			rows = append(rows, row{1, 1, l.even, l.free, m.p.Even})
		}
	}
	return rows
}

// hull are bounds a*other + b*pull <= most that hold for every other >= 0 and pull up to pullRoom. Corners of pullRoom
// lie at other = minutes + break - n*(after+break), pull = n*after; the line through them, the line of slope one
// through the last, and the line from other = 0 to the first bound it.
func (p *Problem) hull(minutes float64) (all [][3]float64) {
	all = append(all, [3]float64{1, 1, minutes})
	step := p.BreakAfter + p.Break
	if minutes <= p.BreakAfter || p.Break == 0 {
		return all
	}
	all = append(all, [3]float64{1, step / p.BreakAfter, minutes + p.Break})
	n := math.Floor((minutes + p.Break) / step) // of the first corner
	at, top := minutes+p.Break-n*step, p.pullRoom(minutes, 0)
	if n >= 1 && at > slack && top > n*p.BreakAfter+slack {
		slope := (top - n*p.BreakAfter) / at
		all = append(all, [3]float64{slope, 1, top})
	}
	return all
}

// prices are what the rows cost, and from them what other work and pulling cost in each stretch.
type prices struct {
	row         []float64
	other, pull []float64
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

// reduced is what an option gains beyond the prices of the time that it takes; parts that are not worth their time
// are left out.
func (m *menu) reduced(o *option, q *prices) float64 {
	sum := o.gain
	for k := range o.loads {
		l := &o.loads[k]
		price := q.pull[l.stretch]
		sum -= l.other * q.other[l.stretch]
		for _, a := range l.parts {
			part := &m.p.Sessions[o.item].Parts[a]
			if v := part.Value - part.Minutes*price; v > 0 {
				sum += v
			}
		}
	}
	return sum
}
