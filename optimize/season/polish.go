package season

import (
	"math"
	"slices"
)

// Polishing a plan whose sessions are all settled: single sessions are added, dropped, shifted and handed from one
// dog to another. At the plan's own prices the Lagrangian says what a step can gain at the most, so only steps that
// can gain are tried, the most promising first; each is tried exactly, by changing the right-hand side of the
// plan's linear program and going on from its basis.
type polisher struct {
	s    *solver
	m    *master
	lp   *revised
	back state
}

// step changes sessions of up to two weeks.
type step struct {
	change []change
	most   float64 // points that it can gain, or about that
}

// change is by how many a dog's sessions of a week change.
type change struct{ dog, week, by int }

const (
	polishTries  = 150  // steps tried without gain before the plan counts as polished
	polishRounds = 3    // pricing rounds of the dogs that a step touches
	polishSpan   = 3    // weeks by which a session is shifted at the most
	polishTol    = 1e-7 // relative: what a step must gain
	polishKeep   = 30   // columns a dog carries into a fresh linear program
)

// polish improves the settled sessions step by step and offers what comes of it.
func (s *solver) polish() {
	lp := &revised{}
	q := &polisher{s: s, lp: lp}
	for q.start() && q.improveOnce() {
	}
}

// start makes the linear program of the settled sessions afresh and solves it.
func (q *polisher) start() bool {
	m := newMaster(q.s.p, q.lp, q.s.fixed)
	for d, cols := range q.s.pool {
		for _, c := range cols {
			if c.fits(q.s.fixed[d]) {
				m.add(c)
			}
		}
	}
	q.m = m
	if m.solve() != nil || q.s.generate(m, finalRounds, diveSmoothing) != nil {
		return false
	}
	q.s.keep(m)
	q.s.take(m)
	return m.overtimeUsed() <= overtimeTol
}

// improveOnce tries steps until one gains, takes it, and goes on until the program has grown too large for its
// own good (true) or nothing gains any more (false).
func (q *polisher) improveOnce() bool {
	grown := len(q.m.columns) + polishKeep*len(q.s.p.Dogs)
	for {
		gained := false
		for i, st := range q.steps() {
			if i >= polishTries || q.s.over() {
				break
			}
			if q.try(st) {
				gained = true
				break
			}
		}
		if !gained {
			return false
		}
		if len(q.m.columns) > grown {
			q.s.keep(q.m)
			return true
		}
	}
}

// steps lists what may gain, best first.
func (q *polisher) steps() []step {
	s := q.s
	price := q.m.prices()
	more, less := make([][]float64, len(s.dogs)), make([][]float64, len(s.dogs))
	s.each(price, func(n *dogNets) { more[n.d], less[n.d] = n.marginals(q.m.fixed[n.d], price.session[n.d]) })
	tol := polishTol * math.Max(1, math.Abs(s.value))
	var out []step
	add := func(most float64, cs ...change) {
		if most > tol {
			out = append(out, step{cs, most})
		}
	}
	for d := range s.dogs {
		for t := range s.p.Weeks {
			add(more[d][t], change{d, t, 1})
			add(less[d][t], change{d, t, -1})
			if math.IsInf(less[d][t], -1) {
				continue
			}
			for w := max(0, t-polishSpan); w <= min(s.p.Weeks-1, t+polishSpan); w++ {
				if w != t {
					add(less[d][t]+more[d][w], change{d, t, -1}, change{d, w, 1})
				}
			}
			for o := range s.dogs {
				if o != d {
					add(less[d][t]+more[o][t], change{d, t, -1}, change{o, t, 1})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b step) int {
		switch {
		case a.most > b.most:
			return -1
		case a.most < b.most:
			return 1
		}
		return 0
	})
	return out
}

// marginals are what one session more or less in each week can gain at the present prices, -Inf where it can't be.
func (n *dogNets) marginals(sessions []int, fill []float64) (more, less []float64) {
	more, less = make([]float64, len(sessions)), make([]float64, len(sessions))
	for t, z := range sessions {
		n.setSessions(t, z)
		n.setFill(t, fill[t])
	}
	base := n.value()
	n.remember(&n.before)
	by := func(t, step int) float64 {
		if !n.canStep(t, step) {
			return math.Inf(-1)
		}
		n.setSessions(t, n.sessions[t]+step)
		v := n.balance(t, math.Inf(-1))
		n.recall(&n.before)
		return v - base
	}
	for t := range sessions {
		more[t], less[t] = by(t, 1), by(t, -1)
	}
	return more, less
}

// try takes the step if the plan is better with it.
func (q *polisher) try(st step) bool {
	m, s := q.m, q.s
	now, basis, value := m.now, slices.Clone(m.basis), m.objective()
	q.lp.save(&q.back)
	for _, c := range st.change {
		m.resettle(c.dog, c.week, m.fixed[c.dog][c.week]+c.by)
	}
	q.answer(st, m.prices())
	if m.solve() == nil && q.reprice(st, value) && m.objective() > value+polishTol*math.Max(1, math.Abs(value)) && m.overtimeUsed() <= overtimeTol {
		for _, c := range st.change {
			s.fixed[c.dog] = slices.Clone(m.fixed[c.dog])
		}
		if s.generate(m, diveRounds, 0) == nil {
			s.take(m)
		}
		return true
	}
	for _, c := range st.change {
		m.resettle(c.dog, c.week, m.fixed[c.dog][c.week]-c.by)
	}
	m.now, m.basis = now, basis
	if len(q.back.basis) == len(m.prog.limit) {
		q.lp.restore(&q.back)
	} else if m.basis = m.idleBasis(); m.solve() != nil { // rows have come in since
		return false
	}
	return false
}

// reprice lets the dogs that a step touches answer it, as long as that can still beat the value.
func (q *polisher) reprice(st step, value float64) bool {
	for range polishRounds {
		gain := q.answer(st, q.m.prices())
		if gain <= columnTol {
			break
		}
		if q.m.objective()+gain <= value {
			return false
		}
		if q.m.solve() != nil {
			return false
		}
	}
	return true
}

// answer adds the touched dogs' columns at the prices and returns what they gain there.
func (q *polisher) answer(st step, price prices) float64 {
	m, s := q.m, q.s
	w := s.p.weekly(price.row)
	var gain float64
	for i, c := range st.change {
		if i > 0 && c.dog == st.change[0].dog {
			continue
		}
		n := s.dogs[c.dog]
		n.setPrices(w, price)
		for t, z := range m.fixed[c.dog] {
			n.setSessions(t, z)
			n.setFill(t, price.session[c.dog][t])
		}
		for _, o := range st.change {
			if o.dog == c.dog && o.by > 0 && price.session[c.dog][o.week] == 0 {
				n.balance(o.week, math.Inf(-1))
			}
		}
		n.areasCost()
		col := n.column()
		if g := m.reduced(col); g > columnTol {
			gain += g
			m.add(col)
		}
	}
	return gain
}
