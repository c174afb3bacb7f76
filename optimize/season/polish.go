package season

import (
	"maps"
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// Polishing a plan whose sessions are all fixed: single sessions are added, dropped, shifted and handed from one
// dog to another. At the plan's own prices the Lagrangian says what a step can gain at most, so only steps that
// can gain are tried, the most promising first; each is tried exactly, by exchanging the touched dogs' columns in the
// plan's linear program and going on from its basis.
type polisher struct {
	s    *solver
	m    *master
	back lp.State

	everyone []int // all dogs
	tries    int   // steps tried in all
	budget   int   // of them without a time limit
}

// step changes sessions of up to two weeks.
type step struct {
	change []change
	most   float64 // points that it can gain, or about that
}

// change is by how many a dog's sessions of a week change.
type change struct{ dog, week, by int }

// polish improves the fixed sessions step by step, in a master that holds to them, and offers what comes of it. Without a time
// limit no more steps are tried than are given.
func (s *solver) polish(m *master, steps int) {
	q := &polisher{s: s, m: m, budget: steps}
	m.simplex = new(lp.Simplex)
	for d := range s.dogs {
		q.everyone = append(q.everyone, d)
	}
	for q.offerPlan() && q.climb() {
		m.slim()
	}
	s.keep(m)
}

// offerPlan offers the plan of the fixed sessions.
func (q *polisher) offerPlan() bool {
	if q.s.generate(q.m, finalRounds, diveSmoothing) != nil || q.s.clock.expired() {
		return false
	}
	q.s.offerMix(q.m, q.s.fixed)
	return q.m.overtimeUsed() <= overtimeTol
}

// climb takes steps that gain until the program has grown too large for its own good (true) or nothing gains any
// more (false).
func (q *polisher) climb() bool {
	grown := len(q.m.columns) + polishGrow*len(q.s.p.Dogs)
	for q.gain(q.steps()) {
		if len(q.m.columns) > grown {
			return true
		}
	}
	return false
}

// gain tries steps, the most promising first, until one gains.
func (q *polisher) gain(steps []step) bool {
	for range polishTries {
		at, most := -1, 0.0
		for i := range steps {
			if steps[i].most > most {
				at, most = i, steps[i].most
			}
		}
		if at < 0 || q.spent() || q.s.proven() {
			return false
		}
		q.tries++
		if q.try(steps[at]) {
			return true
		}
		steps[at].most = 0
	}
	return false
}

// spent reports whether polishing has had its part: of a time limit, or without one of steps.
func (q *polisher) spent() bool {
	return q.s.clock.spent(polishTime) || (!q.s.clock.timed() && q.tries >= q.budget)
}

// steps lists what may gain.
func (q *polisher) steps() []step {
	s := q.s
	more, less := make([][]float64, len(s.dogs)), make([][]float64, len(s.dogs))
	s.noteBasic(q.m)
	s.each(q.m.prices(), func(n *dogNets) { more[n.d], less[n.d] = n.marginals(s.fixed[n.d], s.columns.basic[n.d]) })
	if s.clock.expired() {
		return nil
	}
	tol := polishTol * math.Max(1, math.Abs(s.best.value))
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
	return out
}

// marginals are what one session more or less in each week can gain at the present prices over the columns in use, -Inf
// where it can't be.
func (n *dogNets) marginals(sessions []int, used []*column) (more, less []float64) {
	more, less = make([]float64, len(sessions)), make([]float64, len(sessions))
	n.take(sessions)
	base := n.even(evenSweeps)
	for i, c := range used {
		if v := n.lagrangian(c); i == 0 || v > base {
			base = v
		}
	}
	n.remember(&n.before)
	by := func(t, step int) float64 {
		if !n.canStep(t, step) {
			return math.Inf(-1)
		}
		n.setSessions(t, n.sessions[t]+step)
		v := n.balance(t, n.value(), math.Inf(-1))
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
	m.simplex.Save(&q.back)
	for _, c := range st.change {
		f := slices.Clone(s.fixed[c.dog])
		f[c.week] += c.by
		s.fixed[c.dog] = f
	}
	touched := st.dogs()
	idle, gains := slices.Clone(m.idle), map[int]float64{}
	for _, d := range touched {
		maps.Copy(gains, m.hold(d, s.fixed[d]))
	}
	if q.reprice(touched, value, st.most) {
		if s.generate(m, 1, 0) == nil {
			s.offerMix(m, s.fixed)
		}
		return true
	}
	s.fixed, m.idle = before, idle
	for j, g := range gains {
		m.prog.Cols[j].Gain = g
	}
	for j := size; j < len(m.columns); j++ {
		if m.columns[j] != nil && slices.Contains(touched, m.columns[j].dog) {
			m.ban(j)
		}
	}
	basis = append(basis, m.slack[len(basis):]...) // rows that came in since: the plan before kept them
	now.Y = append(slices.Clone(now.Y), make([]float64, len(basis)-len(now.Y))...)
	m.now, m.basis, m.breaks = now, basis, false
	m.simplex.Restore(&q.back)
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

// reprice lets the touched dogs answer the step, and then, if the plan is not better yet but may become so, all dogs
// (of a long string only if the plan has come as near as the step can gain at most). It returns whether the plan is
// better.
func (q *polisher) reprice(touched []int, value, most float64) bool {
	m := q.m
	target := value + polishTol*math.Max(1, math.Abs(value))
	q.answer(touched, m.prices())
	for i := range polishRounds {
		if m.optimise() != nil {
			return false
		}
		short := value - m.objective()
		if i > 0 && short > most {
			return false
		}
		gain := q.answer(touched, m.prices())
		if gain < hopeless*short {
			return false
		}
		if gain <= columnTol {
			break
		}
	}
	if m.optimise() != nil {
		return false
	}
	for i := range polishRounds {
		if m.objective() > target || (len(q.everyone) > fewDogs && (i > 0 || value-m.objective() > most/2)) {
			break
		}
		if gain := q.answer(q.everyone, m.prices()); m.objective()+gain <= target {
			break
		}
		if m.optimise() != nil {
			return false
		}
	}
	return m.objective() > target && m.overtimeUsed() <= overtimeTol
}

// answer adds the dogs' columns at the prices and returns what they gain there.
func (q *polisher) answer(dogs []int, price prices) float64 {
	m, s := q.m, q.s
	w := s.p.weekPrices(price.row)
	cols := make([][]*column, len(dogs))
	inParallel(len(dogs), func(i int) {
		if n := s.dogs[dogs[i]]; !n.stopped() {
			n.setPrices(w, price)
			cols[i], _, _ = s.ask(n, polishMixTol)
		}
	})
	if s.clock.expired() {
		return 0
	}
	var gain float64
	for _, asked := range cols {
		gain += m.addGaining(asked)
	}
	return gain
}
