package season

import (
	"cmp"
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// master is the linear program over columns (Dantzig and Wolfe 1960): each dog mixes its columns, and the rows of the
// problem tie the mixes together. Rows are added when an answer breaks them, each with a
// column of overtime at a price that no minute is worth.
type master struct {
	p        *Problem
	simplex  *lp.Simplex
	stop     func() bool // ends work on the program
	prog     lp.Program
	columns  []*column // by program column; nil for slacks and the like
	basis    []int
	mix      []int   // by dog: its convexity row
	show     []int   // by dog: its balance row, -1 without
	least    int     // column of the least mean show readiness plus depth, -1 without
	depth    float64 // by how much no mean show readiness is below nothing
	rows     []int   // by Problem.Rows: program row, -1 while not needed
	idle     []int   // by dog: its idle column
	slack    []int   // by program row: the column of its slack, -1 for an equation
	over     []int   // by program row: its column of overtime, -1 without
	overtime float64 // points a minute
	now      lp.Answer
	breaks   bool // the mix may break rows
}

// newMaster starts from one idle column a dog; fixed gives a dog's sessions where they are fixed.
func newMaster(p *Problem, stop func() bool, fixed [][]int) *master {
	m := &master{p: p, simplex: new(lp.Simplex), stop: stop, least: -1, overtime: 2 * p.dearest(true), depth: p.depth()}
	m.rows = unset(len(p.Rows))
	m.show = unset(len(p.Dogs))
	m.mix = make([]int, len(p.Dogs))
	for d := range p.Dogs {
		m.mix[d] = m.prog.AddEquation(1)
		m.slack, m.over = append(m.slack, -1), append(m.over, -1)
	}
	if p.balanced() {
		for d := range p.Dogs {
			if p.Dogs[d].Shows != nil {
				m.show[d] = m.addLimit(0)
			}
		}
		least := lp.Col{Gain: p.Balance}
		for _, r := range m.show {
			if r >= 0 {
				least.Add(r, 1)
			}
		}
		m.least = m.addEntries(least, nil)
	}
	for d := range p.Dogs {
		m.idle = append(m.idle, m.addColumn(idleColumn(p, d, fixed[d])))
	}
	m.basis = m.idleBasis()
	return m
}

// unset are n places of -1.
func unset(n int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = -1
	}
	return s
}

// balanced reports whether the balance term counts.
func (p *Problem) balanced() bool {
	if p.Balance <= 0 {
		return false
	}
	for d := range p.Dogs {
		if p.Dogs[d].Shows != nil {
			return true
		}
	}
	return false
}

// dearest bounds what one minute can be worth: a share of an area pulled changes no readiness by more than the sum of
// its slopes. Without holes it is what a minute is worth at most where no area is the worst at a show.
func (p *Problem) dearest(holes bool) float64 {
	best := 1e-3
	for d := range p.Dogs {
		g := &p.Dogs[d]
		var value, shows float64
		for t := range g.Value {
			value += g.weight(t, p.Balance)
			shows += g.showPoints(t, p.Balance)
		}
		if !holes || p.Hole == 0 {
			shows = 0
		}
		for a := range g.Areas {
			ar := &g.Areas[a]
			if ar.Minutes <= 0 {
				continue
			}
			var slope float64
			for _, k := range ar.Young {
				slope += k.Slope
			}
			for _, k := range ar.Old {
				slope += k.Slope
			}
			minutes, points := ar.Minutes, (value*ar.Weight+shows)*slope
			if ar.Dead > 0 && ar.Loose > 0 {
				minutes = ar.Loose
			}
			for t := range g.Value {
				if ar.Under != nil {
					points += 2 * ar.Under[t]
				}
				if ar.Left != nil {
					points += ar.Left[t]
				}
			}
			best = math.Max(best, points/minutes)
		}
	}
	return best
}

// depth bounds how far readiness can be below nothing: all of an area old, and as much of it young as was pulled in the
// weeks of a term.
func (p *Problem) depth() float64 {
	deepest := 0.0
	for d := range p.Dogs {
		for a := range p.Dogs[d].Areas {
			ar, deep := &p.Dogs[d].Areas[a], 0.0
			for _, k := range ar.Old {
				deep += k.Slope
			}
			for _, k := range ar.Young {
				most := ar.PastAt(0) - ar.PastAt(-k.Weeks)
				for t := range p.Weeks {
					pulled := 0.0
					for s := max(0, t-k.Weeks+1); s <= t; s++ {
						pulled += ar.reach(s)
					}
					most = math.Max(most, pulled+math.Max(0, ar.PastAt(0)-ar.PastAt(t-k.Weeks)))
				}
				if ar.Grip > 0 {
					most = math.Min(most, math.Ceil(float64(k.Weeks)/float64(ar.Grip))*math.Max(1, ar.PastAt(0)-ar.PastAt(-ar.Grip)))
				}
				deep += k.Slope * most
			}
			deepest = math.Max(deepest, deep)
		}
	}
	return deepest
}

func (m *master) addEntries(c lp.Col, of *column) int {
	m.columns = append(m.columns, of)
	return m.prog.AddCol(c)
}

func (m *master) addLimit(limit float64) int {
	row, slack := m.prog.AddLimit(limit)
	m.columns = append(m.columns, nil)
	m.slack, m.over = append(m.slack, slack), append(m.over, -1)
	return row
}

// addColumn takes in a column and returns its place.
func (m *master) addColumn(c *column) int {
	pc := lp.Col{Gain: c.value}
	pc.Add(m.mix[c.dog], 1)
	if r := m.show[c.dog]; r >= 0 {
		pc.Add(r, -c.mean-m.depth)
	}
	for i, r := range m.rows {
		if r >= 0 {
			pc.Add(r, c.load(m.p, &m.p.Rows[i])/minutesUnit)
		}
	}
	return m.addEntries(pc, c)
}

// optimise solves the program over the columns there are, taking in rows until none is broken. After an error the mix is the last one,
// which may break rows.
func (m *master) optimise() error {
	for {
		a, err := m.simplex.Solve(&m.prog, m.basis, m.stop)
		if err != nil { // once more from where it all began
			if a, err = m.simplex.Solve(&m.prog, m.idleBasis(), m.stop); err != nil {
				m.breaks = true
				m.now.Y = append(slices.Clone(m.now.Y), make([]float64, len(m.prog.Limit)-len(m.now.Y))...)
				return err
			}
		}
		m.now, m.basis, m.breaks = a, append(m.basis[:0], a.Basis...), false
		if !m.addBroken() {
			return nil
		}
	}
}

// minutesUnit is the unit of the program's rows: with hours all its entries are about 1.
const minutesUnit = 60

const (
	brokenTol   = 1e-6 // minutes past a row before it is taken in
	overtimeTol = 1e-6 // minutes of overtime that count as none
)

// idleBasis is a basis in which every dog is idle.
func (m *master) idleBasis() []int {
	lhs := make([]float64, len(m.prog.Limit))
	var basis []int
	for _, j := range m.idle {
		basis = append(basis, j)
		for k, r := range m.prog.Cols[j].Row {
			lhs[r] += m.prog.Cols[j].At[k]
		}
	}
	for r, slack := range m.slack {
		switch {
		case m.prog.Equal[r]:
		case lhs[r] > m.prog.Limit[r] && m.over[r] >= 0:
			basis = append(basis, m.over[r])
		default:
			basis = append(basis, slack)
		}
	}
	return basis
}

// addBroken takes in the rows that the present mix breaks.
func (m *master) addBroken() bool {
	load := make([]float64, len(m.p.Rows))
	for _, q := range m.parts() {
		for i := range m.p.Rows {
			if m.rows[i] < 0 {
				load[i] += q.x * q.load(m.p, &m.p.Rows[i])
			}
		}
	}
	broken := false
	for i, l := range load {
		if l-m.p.Rows[i].Capacity > brokenTol {
			m.rows[i] = m.addBrokenRow(i)
			broken = true
		}
	}
	return broken
}

// addBrokenRow adds a limit that the present mix breaks; its overtime starts in the basis.
func (m *master) addBrokenRow(i int) int {
	limit := &m.p.Rows[i]
	row := m.addLimit(limit.Capacity / minutesUnit)
	for j, c := range m.columns {
		if c != nil {
			m.prog.Cols[j].Add(row, c.load(m.p, limit)/minutesUnit)
		}
	}
	o := lp.Col{Gain: -m.overtime * minutesUnit}
	o.Add(row, -1)
	j := m.addEntries(o, nil)
	m.over[row] = j
	m.basis = append(m.basis, j)
	return row
}

// hold holds the dog to the sessions and its weeks of clearing: its columns that have others are banned, those that these hold come in with them.
// It returns the gains of those that it bans. The mix stays until the next solve.
func (m *master) hold(d int, sessions []int) map[int]float64 {
	gains, clear := map[int]float64{}, m.p.Dogs[d].clearings()
	for j := range len(m.columns) {
		c := m.columns[j]
		if c == nil || c.dog != d || m.banned(j) || slices.Equal(c.sessions, sessions) && slices.Equal(c.clear, clear) {
			continue
		}
		gains[j] = m.prog.Cols[j].Gain
		m.ban(j)
		if o := c.heldTo(m.p, sessions); o != nil {
			m.addColumn(o)
		}
	}
	m.idle[d] = m.addColumn(idleColumn(m.p, d, sessions))
	return gains
}

// ban keeps a column out of the mix.
func (m *master) ban(j int) { m.prog.Cols[j].Gain = bannedGain }

// banned reports whether a column is kept out of the mix.
func (m *master) banned(j int) bool { return m.prog.Cols[j].Gain == bannedGain }

const bannedGain = -1e4 // points, of a column that may not be used

// foremost lists by dog the columns that are not banned, those that gain most at the last answer's prices first, and no
// more than are carried on.
func (m *master) foremost() [][]int {
	byDog, gain := make([][]int, len(m.p.Dogs)), make([]float64, len(m.columns))
	for j, c := range m.columns {
		if c != nil && !m.banned(j) {
			byDog[c.dog] = append(byDog[c.dog], j)
			gain[j] = m.reduced(c)
		}
	}
	for d, js := range byDog {
		slices.SortStableFunc(js, func(a, b int) int { return cmp.Compare(gain[b], gain[a]) })
		byDog[d] = js[:min(len(js), maxColumns)]
	}
	return byDog
}

// slim leaves out the columns that are banned, and of each dog those that gain least, but for those in the basis.
func (m *master) slim() {
	kept := make([]bool, len(m.columns))
	for j, c := range m.columns {
		kept[j] = c == nil
	}
	for _, js := range append(m.foremost(), m.basis, m.idle) {
		for _, j := range js {
			kept[j] = true
		}
	}
	place := make([]int, len(m.columns))
	m.now.X = append(m.now.X, make([]float64, len(m.columns)-len(m.now.X))...) // of columns that came in since
	n := 0
	for j, k := range kept {
		if k {
			place[j] = n
			m.columns[n], m.prog.Cols[n], m.now.X[n] = m.columns[j], m.prog.Cols[j], m.now.X[j]
			n++
		}
	}
	m.columns, m.prog.Cols, m.now.X = m.columns[:n], m.prog.Cols[:n], m.now.X[:n]
	for _, js := range [][]int{m.basis, m.idle, m.slack, m.over} {
		for i, j := range js {
			if j >= 0 {
				js[i] = place[j]
			}
		}
	}
	if m.least >= 0 {
		m.least = place[m.least]
	}
}

// prices reads the multipliers of the last answer.
func (m *master) prices() prices {
	q := newPrices(m.p)
	at := func(r int) float64 {
		if r < 0 {
			return 0
		}
		return math.Max(0, m.now.Y[r])
	}
	for i, r := range m.rows {
		q.row[i] = at(r) / minutesUnit
	}
	for d, r := range m.show {
		q.show[d] = at(r)
	}
	return q
}

// reduced is what the column would gain at the last answer's prices.
func (m *master) reduced(c *column) float64 {
	g := c.value - m.now.Y[m.mix[c.dog]]
	if r := m.show[c.dog]; r >= 0 {
		g += m.now.Y[r] * (c.mean + m.depth)
	}
	for i, r := range m.rows {
		if r >= 0 && m.now.Y[r] != 0 {
			g -= m.now.Y[r] * c.load(m.p, &m.p.Rows[i]) / minutesUnit
		}
	}
	return g
}

// objective is the value of the present mix, overtime counted in at its price.
func (m *master) objective() float64 {
	if m.least >= 0 {
		return m.now.Gain - m.p.Balance*m.depth
	}
	return m.now.Gain
}

// overtimeUsed is the minutes of overtime in the present mix, without end where it may break rows.
func (m *master) overtimeUsed() float64 {
	if m.breaks {
		return math.Inf(1)
	}
	var s float64
	for _, j := range m.over {
		if j >= 0 {
			s += m.now.X[j] * minutesUnit
		}
	}
	return s
}

// part is one column's part in a dog's mix.
type part struct {
	*column
	x float64
}

// parts lists the columns in use.
func (m *master) parts() []part {
	var out []part
	for j, x := range m.now.X {
		if c := m.columns[j]; c != nil && x > 1e-12 {
			out = append(out, part{c, x})
		}
	}
	return out
}

// mixes lists each dog's columns in use.
func (m *master) mixes() [][]part {
	out := make([][]part, len(m.p.Dogs))
	for _, q := range m.parts() {
		out[q.dog] = append(out[q.dog], q)
	}
	return out
}

// plan is the mix as a plan with the sessions given.
func (m *master) plan(sessions [][]int) Plan {
	pl := NewPlan(m.p)
	for d, parts := range m.mixes() {
		copy(pl.Sessions[d], sessions[d])
		var all float64
		for _, q := range parts {
			all += q.x
		}
		for _, q := range parts {
			for a := range q.shares {
				for t, s := range q.shares[a] {
					pl.Shares[d][a][t] += s * q.x / all
				}
			}
		}
	}
	return pl
}
