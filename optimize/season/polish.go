package season

import (
	"fmt"
	"math"
	"slices"
)

// Polishing a plan whose sessions are all settled: single sessions are added, dropped, shifted and handed from one
// dog to another. At the plan's own prices the Lagrangian says what a step can gain at the most, so only steps that
// can gain are tried, the most promising first; each is tried exactly, by exchanging the touched dogs' columns in the
// plan's linear program and going on from its basis.
type polisher struct {
	s    *solver
	m    *master
	lp   *revised
	back state

	tries    int            // steps tried in all
	taken    int            // steps that gained
	rejected map[string]int // what did not gain: steps taken when that was found out
}

// step changes sessions of up to two weeks.
type step struct {
	change []change
	most   float64 // points that it can gain, or about that
	later  bool    // it did not gain not long ago
}

// key tells steps apart.
func (st *step) key() string { return fmt.Sprint(st.change) }

// change is by how many a dog's sessions of a week change.
type change struct{ dog, week, by int }

const (
	polishTries  = 40   // steps tried without gain before the plan counts as polished
	polishBudget = 1500 // steps tried in all
	polishMemory = 8    // steps taken after which what did not gain is worth another look
	polishRounds = 3    // pricing rounds of the dogs that a step touches
	polishSpan   = 3    // weeks by which a session is shifted at the most
	polishTol    = 2e-5 // relative: what a step must gain
	polishGrow   = 40   // columns a dog by which the program may grow before it is made afresh
	banned       = -1e4 // gain of a column that may not be used
)

// polish improves the settled sessions step by step and offers what comes of it.
func (s *solver) polish() {
	q := &polisher{s: s, lp: &revised{}, rejected: map[string]int{}}
	for q.start() && q.climb() {
	}
	if q.m.now.x != nil {
		s.keep(q.m)
	}
}

// start makes the linear program of the settled sessions afresh and solves it.
func (q *polisher) start() bool {
	m := newMaster(q.s.p, q.lp, q.s.fixed)
	for d, cols := range q.s.pool {
		for _, c := range cols {
			if c.fits(q.s.p, q.s.fixed[d]) {
				m.add(c.with(q.s.p, q.s.fixed[d]))
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

// climb takes steps that gain until the program has grown too large for its own good (true) or nothing gains any
// more (false).
func (q *polisher) climb() bool {
	grown := len(q.m.columns) + polishGrow*len(q.s.p.Dogs)
	for {
		gained := false
		for i, st := range q.steps() {
			if i >= polishTries || q.tries >= polishBudget || q.s.over() {
				break
			}
			q.tries++
			if q.try(st) {
				q.taken++
				gained = true
				break
			}
			q.rejected[st.key()] = q.taken
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
	more, less := make([][]float64, len(s.dogs)), make([][]float64, len(s.dogs))
	s.each(q.m.prices(), func(n *dogNets) { more[n.d], less[n.d] = n.marginals(s.fixed[n.d]) })
	tol := polishTol * math.Max(1, math.Abs(s.value))
	var out []step
	add := func(most float64, cs ...change) {
		if most > tol {
			st := step{change: cs, most: most}
			at, no := q.rejected[st.key()]
			st.later = no && q.taken-at < polishMemory
			out = append(out, st)
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
		case a.later != b.later:
			if b.later {
				return -1
			}
			return 1
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
func (n *dogNets) marginals(sessions []int) (more, less []float64) {
	more, less = make([]float64, len(sessions)), make([]float64, len(sessions))
	for t, z := range sessions {
		n.setSessions(t, z)
	}
	base := n.even(3)
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
	now, basis, before, size := m.now, slices.Clone(m.basis), slices.Clone(s.fixed), len(m.columns)
	value := m.objective()
	q.lp.save(&q.back)
	for _, c := range st.change {
		f := slices.Clone(s.fixed[c.dog])
		f[c.week] += c.by
		s.fixed[c.dog] = f
	}
	touched := st.dogs()
	gains := q.exchange(touched)
	if q.reprice(touched, value) && m.overtimeUsed() <= overtimeTol &&
		m.objective() > value+polishTol*math.Max(1, math.Abs(value)) {
		if s.generate(m, diveRounds, 0) == nil {
			s.take(m)
		}
		return true
	}
	s.fixed = before
	for j, g := range gains {
		m.prog.cols[j].gain = g
	}
	for j := size; j < len(m.columns); j++ {
		if m.columns[j] != nil && slices.Contains(touched, m.columns[j].dog) {
			m.ban(j)
		}
	}
	basis = append(basis, m.slack[len(basis):]...) // rows that came in since: the plan before kept them
	now.y = append(slices.Clone(now.y), make([]float64, len(basis)-len(now.y))...)
	m.now, m.basis = now, basis
	q.lp.restore(&q.back)
	return false
}

// dogs lists whom the step touches.
func (st *step) dogs() []int {
	dogs := []int{st.change[0].dog}
	if last := st.change[len(st.change)-1].dog; last != dogs[0] {
		dogs = append(dogs, last)
	}
	return dogs
}

// exchange bans the columns of the touched dogs and brings in those of them that their new sessions hold. It returns
// the gains of the banned columns.
func (q *polisher) exchange(touched []int) map[int]float64 {
	m, s := q.m, q.s
	gains := map[int]float64{}
	for j := range len(m.columns) {
		c := m.columns[j]
		if c == nil || m.prog.cols[j].gain == banned || !slices.Contains(touched, c.dog) {
			continue
		}
		gains[j] = m.prog.cols[j].gain
		m.ban(j)
		if f := s.fixed[c.dog]; c.fits(s.p, f) {
			m.add(c.with(s.p, f))
		}
	}
	return gains
}

// ban keeps a column out of the mix.
func (m *master) ban(j int) { m.prog.cols[j].gain = banned }

// reprice lets the touched dogs answer the step, as long as that can still beat the value.
func (q *polisher) reprice(touched []int, value float64) bool {
	m, s := q.m, q.s
	q.answer(touched, m.prices())
	for range polishRounds {
		if m.solve() != nil {
			return false
		}
		gain := q.answer(touched, m.prices())
		if gain <= columnTol {
			return true
		}
		if m.objective()+gain <= value+polishTol*math.Max(1, math.Abs(s.value)) {
			return false
		}
	}
	return m.solve() == nil
}

// answer adds the touched dogs' columns at the prices and returns what they gain there.
func (q *polisher) answer(touched []int, price prices) float64 {
	m, s := q.m, q.s
	w := s.p.weekly(price.row)
	cols := make([]*column, len(touched))
	inParallel(len(touched), func(i int) {
		n := s.dogs[touched[i]]
		n.setPrices(w, price)
		cols[i], _ = s.ask(n)
	})
	var gain float64
	for _, c := range cols {
		if g := m.reduced(c); g > columnTol {
			gain += g
			m.add(c)
		}
	}
	return gain
}
