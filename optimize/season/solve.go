package season

import (
	"context"
	"math"
	"slices"
	"sync/atomic"
)

// DefaultGap is the relative gap at which a solve stops looking for better plans.
const DefaultGap = 1e-4

// columnTol is what a column must gain to be added, points.
const columnTol = 1e-7

// solver is one solve in progress.
type solver struct {
	p          *Problem
	ctx        context.Context
	opt        Options
	dogs       []*dogNets
	pool       [][]*column // by dog: columns that were ever of use
	met        [][]*column // by dog: the pool when all sessions were open
	fixed      [][]int     // by dog: settled sessions, nil while open
	best       Plan
	value      float64 // of best
	rough      Plan    // the plan at hand while there is no better one
	roughValue float64
	bound      float64
	seeds      [][]*column // by dog: columns in use
	centre     prices      // of the last master that was kept: in the end the plan's own
	part       float64     // of the time limit that the present work may have used when it ends
	nodes      int         // of a dog whose sessions are open: limit of its branch and bound
	hope       float64     // value of the column generation with all sessions open
	open       prices      // the same of the column generation with all sessions open
	least      prices      // with the least value of the Lagrangian in the last column generation
	rounds     int
	mends      bool // a plan made before is mended
	cut        bool
	dearest    int // row, -1 when none has a price
	eased      Plan
	aside      bool         // it works beside another, on one core
	enough     *atomic.Bool // the other is done: no more work
}

// Solve plans the season. The plan is feasible and Bound is valid whatever ended the search: convergence, the time
// limit or the context. The only error is a malformed problem. Its course: rounds of column generation at smoothed prices,
// then the session weeks settled dog by dog (the dive), then single sessions changed while that gains (polish.go, kick.go),
// then the bound (bound.go).
func Solve(ctx context.Context, p *Problem, opt Options) (Result, error) {
	if err := Validate(p); err != nil {
		return Result{}, err
	}
	if opt.Gap <= 0 {
		opt.Gap = DefaultGap
	}
	s := newSolver(ctx, p, opt)
	if m := s.warm(); m != nil {
		s.take(m)
		s.mend(m)
	} else if m := s.root(); m != nil {
		s.met = slices.Clone(s.pool)
		join := s.proveAside()
		if s.dive(m) == nil {
			s.take(m)
			s.finish(m)
		}
		join()
	}
	s.dearest, s.eased = s.ease()
	s.prove()
	s.over()
	return s.result(), nil
}

func newSolver(ctx context.Context, p *Problem, opt Options) *solver {
	s := newSolverOf(ctx, p, opt)
	s.offer(NewPlan(p), s.idleValue())
	return s
}

// newSolverOf is a solver without a plan.
func newSolverOf(ctx context.Context, p *Problem, opt Options) *solver {
	s := &solver{
		p: p, ctx: ctx, opt: opt, nodes: rootNodes, part: 1, enough: new(atomic.Bool), bound: p.ceiling(), centre: newPrices(p), open: newPrices(p), least: newPrices(p), value: math.Inf(-1), roughValue: math.Inf(-1),
		dogs: make([]*dogNets, len(p.Dogs)), pool: make([][]*column, len(p.Dogs)), met: make([][]*column, len(p.Dogs)), fixed: make([][]int, len(p.Dogs)),
		seeds: make([][]*column, len(p.Dogs)),
	}
	inParallel(len(p.Dogs), func(d int) {
		s.dogs[d] = newDogNets(p, d)
		s.dogs[d].late = s.late
	})
	return s
}

// ceiling is the value of every dog fully ready in every week at no cost.
func (p *Problem) ceiling() float64 {
	var s float64
	for d := range p.Dogs {
		var all float64
		for _, a := range p.Dogs[d].Areas {
			all += a.Weight
		}
		for _, v := range p.Dogs[d].Value {
			s += v * all
		}
	}
	if p.balanced() {
		s += p.Balance
	}
	return s
}

// total is the objective of one column a dog.
func (p *Problem) total(cols []*column) float64 {
	var s float64
	least := math.Inf(1)
	for _, c := range cols {
		s += c.value
		if p.Dogs[c.dog].Shows != nil {
			least = math.Min(least, c.mean)
		}
	}
	if p.balanced() {
		s += p.Balance * least
	}
	return s
}

func (s *solver) idleValue() float64 {
	cols := make([]*column, len(s.p.Dogs))
	for d := range cols {
		cols[d] = idleColumn(s.p, d, nil)
	}
	return s.p.total(cols)
}

// offer keeps a feasible plan if it is the best so far.
func (s *solver) offer(pl Plan, value float64) {
	if value > s.value {
		s.best, s.value = pl, value
		s.report()
	}
}

func (s *solver) report() {
	if s.opt.Progress != nil {
		s.opt.Progress(Progress{Objective: math.Max(s.value, s.roughValue), Bound: s.bound, Seconds: s.seconds()})
	}
}

func (s *solver) seconds() float64 {
	if s.opt.Seconds == nil {
		return 0
	}
	return s.opt.Seconds()
}

// timed reports whether there is a time limit.
func (s *solver) timed() bool { return s.opt.Limit > 0 && s.opt.Seconds != nil }

// over reports whether the search must end.
func (s *solver) over() bool {
	s.cut = s.cut || s.late()
	return s.cut
}

// proven reports whether the plan is within the wanted gap of the bound.
func (s *solver) proven() bool { return gap(s.bound, s.value) <= s.opt.Gap }

// gap is (bound - value) / max(1, |bound|).
func gap(bound, value float64) float64 { return (bound - value) / math.Max(1, math.Abs(bound)) }

// root generates columns with all sessions open: first at little effort for a dog, then with a branch and bound that
// says what the dogs can be worth at the most.
func (s *solver) root() *master {
	s.firstAtHand()
	s.start()
	m, err := s.master()
	if err != nil {
		return nil
	}
	s.glance(m)
	s.part = rootPart
	s.mixAtHand(m)
	err = s.generate(m, maxRounds, smoothing)
	s.mixAtHand(m)
	s.open, s.hope = s.least, m.objective()
	s.nodes, s.part = s.proveNodes(), boundPart
	if err == nil && !s.past() {
		err = s.generate(m, proveRounds, smoothing)
	}
	s.mixAtHand(m)
	s.keep(m)
	s.open, s.nodes, s.part = s.least, rootNodes, 1
	if err != nil {
		return nil
	}
	return m
}

// glance offers the plan that has every dog's heaviest choice of sessions, so that there is one at every moment.
func (s *solver) glance(m *master) {
	g := *s
	g.fixed = make([][]int, len(s.fixed))
	for _, c := range s.unsettled(m) {
		g.fixed[c.dog] = c.sessions
	}
	if m, err := g.resettle(); err == nil {
		g.take(m)
		s.best, s.value = g.best, g.value
	}
}

// past reports whether the time of the present part of the work is over.
func (s *solver) past() bool {
	return s.over() || (s.timed() && s.seconds() >= s.part*s.opt.Limit)
}

// late reports whether time is over or the other is done; any goroutine may ask.
func (s *solver) late() bool {
	return s.ctx.Err() != nil || s.enough.Load() || (s.timed() && s.seconds() >= s.opt.Limit)
}

// each brings every dog to the prices and does the work on it, dogs in parallel. When time is over, work on some may be
// left out: what came of it must not be used.
func (s *solver) each(q prices, work func(*dogNets)) {
	w := s.p.weekly(q.row)
	one := func(d int) {
		if !s.late() {
			s.dogs[d].setPrices(w, q)
			work(s.dogs[d])
		}
	}
	if !s.aside {
		inParallel(len(s.dogs), one)
		return
	}
	for d := range s.dogs {
		one(d)
	}
}

// master is a new, solved master over the pool's columns that agree with the settled sessions.
func (s *solver) master() (*master, error) {
	m := newMaster(s.p, s.late, s.fixed)
	for d, cols := range s.pool {
		for _, c := range cols {
			switch f := s.fixed[d]; {
			case f == nil:
				m.add(c)
			case c.fits(s.p, f):
				m.add(c.with(s.p, f))
			}
		}
	}
	return m, m.solve()
}

// generate adds columns until a round gains nothing to speak of.
func (s *solver) generate(m *master, rounds int, smooth float64) error {
	least := math.Inf(1)
	var centre prices
	misses := 0
	whole := !slices.ContainsFunc(s.fixed, func(f []int) bool { return f != nil })
	for range rounds {
		if s.past() {
			return nil
		}
		s.rounds++
		s.seed(m)
		q := m.prices()
		switch {
		case smooth > 0 && !math.IsInf(least, 1):
			q = centre.mixed(smooth, q)
		case whole && s.nodes == rootNodes: // these have been asked already
			q = s.open.mixed(smooth, q)
		case whole:
			q = s.open
		}
		var lagrange float64
		cols := make([][]*column, len(s.dogs))
		values := make([]float64, len(s.dogs))
		if whole {
			q.show, lagrange = s.p.sharedOut(q.show)
		}
		ceilings := make([]float64, len(s.dogs))
		s.each(q, func(n *dogNets) { cols[n.d], values[n.d], ceilings[n.d] = s.ask(n, fitTol) })
		if s.over() {
			return nil
		}
		lagrange += s.p.worth(q.row)
		ceiling := lagrange
		gained := 0.0
		for d, asked := range cols {
			lagrange += values[d]
			ceiling += ceilings[d]
			gained += m.addGaining(asked)
		}
		if whole && s.nodes > rootNodes {
			lagrange = ceiling
		}
		if lagrange < least {
			least, centre, s.least = lagrange, q, q
		}
		if whole && ceiling < s.bound {
			s.bound = ceiling
			s.report()
		}
		if gained <= promiseTol*math.Max(1, math.Abs(m.objective())) {
			if smooth == 0 || misses > mostMisses {
				return nil
			}
			misses++
			smooth /= 2 // the smoothed prices missed: ask nearer to the master's
			if misses > mostMisses {
				smooth = 0
			}
		}
		if err := m.solve(); err != nil {
			return err
		}
		if (!whole || s.nodes > rootNodes) && least-m.objective() <= roundTol*math.Max(1, math.Abs(least)) {
			return nil
		}
	}
	return nil
}

// seed notes the columns in use.
func (s *solver) seed(m *master) {
	for d := range s.seeds {
		s.seeds[d] = nil
	}
	for _, q := range m.parts() {
		s.seeds[q.dog] = append(s.seeds[q.dog], q.column)
	}
}

// ask are good columns of the dog at its present prices, the best's value there, and what no column passes; of a dog whose
// sessions are settled, about what the best with these sessions has.
func (s *solver) ask(n *dogNets, tol float64) (cols []*column, value, ceiling float64) {
	if f := s.fixed[n.d]; f != nil {
		for t, z := range f {
			n.setSessions(t, z)
		}
		c, value := n.fit(tol)
		return []*column{c}, value, value
	}
	ceiling = n.highest(s.seeds[n.d], s.near(), s.nodes)
	first, value := n.fit(tol)
	if seeds := s.seeds[n.d]; s.nodes == rootNodes && len(seeds) > 0 && s.rounds%2 == 0 { // from one that is in use
		for t, z := range seeds[s.rounds/2%len(seeds)].sessions {
			n.setSessions(t, z)
		}
	}
	n.search()
	second, v := n.fit(tol)
	return []*column{first, second}, math.Max(value, v), ceiling
}

// addGaining takes in the columns that gain at the last answer's prices, and returns what the best of them gains.
func (m *master) addGaining(cols []*column) float64 {
	most := 0.0
	for i, c := range cols {
		if g := m.reduced(c); g > columnTol && (i == 0 || !slices.Equal(c.sessions, cols[0].sessions)) {
			most = math.Max(most, g)
			m.add(c)
		}
	}
	return most
}

// keep takes the master's useful columns back into the pool.
func (s *solver) keep(m *master) {
	for d, js := range m.foremost() {
		kept := make([]*column, len(js)) // not in the old one's place, which may be gone back to
		for i, j := range js {
			kept[i] = m.columns[j]
		}
		s.pool[d] = kept
	}
	s.centre = m.prices()
}

// settled is what a plan has been settled to.
type settled struct {
	fixed  [][]int
	pool   [][]*column
	centre prices
	value  float64
}

func (s *solver) settled() settled {
	return settled{slices.Clone(s.fixed), slices.Clone(s.pool), s.centre, s.value}
}

// better reports whether there is a better plan by now; if not, all goes back to what was settled.
func (s *solver) better(than settled) bool {
	if s.value > than.value {
		return true
	}
	s.fixed, s.pool, s.centre = than.fixed, than.pool, than.centre
	return false
}

// take offers the plan of a master whose sessions are all settled.
func (s *solver) take(m *master) {
	if m.overtimeUsed() <= overtimeTol {
		pl := m.plan(s.fixed)
		s.p.trim(pl)
		s.offer(pl, s.p.planValue(pl))
	}
}

// finish makes the most of the best plan's sessions, beginning in a master with all sessions settled (nil = a new one), and
// makes the prices those of the best plan: of a master that has its columns, so that it can only be better.
func (s *solver) finish(m *master) {
	m, err := s.bestIn(m)
	if err != nil {
		return
	}
	s.polish(m)
	if !s.mends && s.kick() {
		m = nil
	}
	if s.over() {
		return
	}
	if m, err = s.bestIn(m); err == nil && s.generate(m, finalRounds, diveSmoothing) == nil {
		s.keep(m)
		s.take(m)
	}
}

// bestIn brings the best plan's sessions and columns into a master with all sessions settled; nil = a new one.
func (s *solver) bestIn(m *master) (*master, error) {
	for d, z := range s.best.Sessions {
		c := newColumn(s.p, d, slices.Clone(z), s.best.Shares[d])
		s.pool[d] = append(s.pool[d], c)
		if m != nil {
			if !slices.Equal(s.fixed[d], z) {
				m.settle(d, c.sessions)
			}
			m.add(c)
		}
		s.fixed[d] = c.sessions
	}
	if m == nil {
		return s.master()
	}
	return m, m.solve()
}

// planValue is a plan's objective.
func (p *Problem) planValue(pl Plan) float64 {
	cols := make([]*column, len(p.Dogs))
	for d := range cols {
		cols[d] = &column{dog: d, sessions: pl.Sessions[d], shares: pl.Shares[d]}
		cols[d].price(p)
	}
	return p.total(cols)
}

// ease is the plan with the same sessions when the row that is dearest has an hour more.
func (s *solver) ease() (row int, eased Plan) {
	row = -1
	for i, v := range s.centre.row {
		if v > 0 && (row < 0 || v > s.centre.row[row]) {
			row = i
		}
	}
	if row < 0 || s.over() || slices.ContainsFunc(s.fixed, func(f []int) bool { return f == nil }) {
		return -1, Plan{}
	}
	p := *s.p
	p.Rows = slices.Clone(p.Rows)
	p.Rows[row].Capacity += minutesUnit
	e := *s
	e.p = &p
	m, err := e.master()
	if err != nil || e.generate(m, finalRounds, diveSmoothing) != nil {
		return -1, Plan{}
	}
	return row, m.plan(e.fixed)
}

func (s *solver) result() Result {
	r := Result{
		Plan: s.best, Objective: s.value, Bound: s.bound, Prices: s.centre.row, Dearest: s.dearest, Eased: s.eased, Cut: s.cut,
		Rounds: s.rounds, Seconds: s.seconds(),
	}
	if s.roughValue > s.value {
		r.Plan, r.Objective = s.rough, s.roughValue
	}
	r.Gap = gap(r.Bound, r.Objective)
	return r
}
