package season

import (
	"context"
	"math"
	"reflect"
	"slices"
)

// DefaultGap is the relative gap at which a solve stops looking for better plans.
const DefaultGap = 1e-4

// columnTol is what a column must gain to be added, points.
const columnTol = 1e-7

// solver is one solve in progress.
type solver struct {
	p       *Problem
	opt     Options
	clock   *clock
	workers func(n int, work func(i int)) // does work(0), .., work(n-1)
	dogs    []*dogNets
	columns columnPool
	fixed   [][]int     // by dog: the sessions that it is held to, nil while they are open
	known   [][]*column // by dog: columns whose sessions and weeks of clearing alone are asked, nil for all; nil = all of all dogs
	held    bool        // dogs are held to some sessions (dogNets.low, high): what is asked says nothing of a bound
	best    incumbent   // that the search goes on from
	rough   incumbent   // the plan at hand: the answer while it is better than the best
	bound   float64     // points that no plan passes
	lpValue float64     // points: of the column generation with all sessions open
	duals   duals
	phase   phase
	rounds  int // of pricing, in all
}

// columnPool is by dog the columns that a solve remembers.
type columnPool struct {
	useful [][]*column // ever of use, with the sessions as they are fixed
	open   [][]*column // the useful ones when all sessions were open
	basic  [][]*column // in use in the last master
}

// duals are the prices that a solve goes by.
type duals struct {
	incumbent prices // of the last master that was kept: in the end the plan's own
	lp        prices // where the column generation with all sessions open is, or about: a bound is looked for there
	best      prices // with the least value of the Lagrangian in the last column generation
}

// phase is what the present work may take.
type phase struct {
	nodes     int     // of a dog whose sessions are open: limit of its branch and bound
	timeShare float64 // of the time limit that may have been used when it ends
}

// bounds reports whether a bound is wanted more than columns.
func (f phase) bounds() bool { return f.nodes > rootNodes }

// Solve plans the season. The plan is feasible and Bound is valid whatever ended the search: convergence, the time
// limit or the context. The only error is a malformed problem. Its course: rounds of column generation at smoothed prices,
// then the session weeks fixed dog by dog (the dive), then single sessions changed while that gains (polish.go, perturb.go),
// then the bound (bound.go).
func Solve(ctx context.Context, p *Problem, opt Options) (Result, error) {
	if err := Validate(p); err != nil {
		return Result{}, err
	}
	if opt.Gap <= 0 {
		opt.Gap = DefaultGap
	}
	s := newSolver(ctx, p, opt)
	if opt.Touch != (Touch{}) {
		s.clock.limit *= searchPart
		if opt.Keep {
			s.shutAsStart()
		}
	}
	if m := s.warm(); m != nil {
		s.offerMix(m, s.fixed)
		if opt.Keep {
			s.reshare()
		} else {
			s.mend(m)
		}
	} else if m := s.root(); m != nil && !s.proven() {
		s.columns.open = slices.Clone(s.columns.useful)
		join := func() {}
		if !opt.Quick {
			join = s.proveBeside()
		}
		if s.diveWeeks(m) == nil {
			s.offerMix(m, s.fixed)
			if !opt.Quick {
				s.improve(m, wholeImprovement(p))
			}
		}
		join()
	}
	s.duals.incumbent.row = p.onlyFull(s.duals.incumbent.row, s.best.plan)
	row, eased := s.ease()
	if !opt.Keep {
		s.prove()
	}
	r := s.result(row, eased)
	if opt.Touch != (Touch{}) {
		s.clock.limit = opt.Limit
		r.Workable, r.Moved = s.workable(p, r.Plan)
		r.Cut = r.Cut || s.clock.expired()
	}
	return r, nil
}

func newSolver(ctx context.Context, p *Problem, opt Options) *solver {
	stop := func() bool { return ctx.Err() != nil }
	s := newBareSolver(&clock{cancelled: stop, stopwatch: opt.Seconds, limit: opt.Limit}, p, opt)
	s.offer(NewPlan(p), s.idleValue())
	return s
}

// newBareSolver is a solver without a plan.
func newBareSolver(c *clock, p *Problem, opt Options) *solver {
	n := len(p.Dogs)
	p = p.withClearings()
	none := incumbent{value: math.Inf(-1)}
	s := &solver{
		p: p, opt: opt, clock: c, workers: inParallel, dogs: make([]*dogNets, n), fixed: make([][]int, n),
		columns: columnPool{make([][]*column, n), make([][]*column, n), make([][]*column, n)},
		best:    none, rough: none, bound: p.ceiling(),
		duals: duals{newPrices(p), newPrices(p), newPrices(p)}, phase: phase{rootNodes, 1},
	}
	inParallel(n, func(d int) {
		s.dogs[d] = newDogNets(p, d)
		s.dogs[d].stop = c.expired
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
		for t := range p.Weeks {
			s += p.Dogs[d].weight(t, 0) * all
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
	if s.best.offer(pl, value) {
		s.report()
	}
}

func (s *solver) report() {
	if s.opt.Progress != nil {
		s.opt.Progress(Progress{Objective: math.Max(s.best.value, s.rough.value), Bound: s.bound, Seconds: s.clock.seconds()})
	}
}

// proven reports whether the plan is within the wanted gap of the bound.
func (s *solver) proven() bool { return gap(s.bound, s.best.value) <= s.opt.Gap }

// gap is (bound - value) / max(1, |bound|).
func gap(bound, value float64) float64 { return (bound - value) / math.Max(1, math.Abs(bound)) }

// root generates columns with all sessions open: first at little effort for a dog, then with a branch and bound that
// says what the dogs can be worth at most.
func (s *solver) root() *master {
	s.firstAtHand()
	s.tatonnement()
	m, err := s.master()
	if err != nil {
		return nil
	}
	s.earlyIncumbent(m)
	s.phase.timeShare = rootPart
	s.mixAtHand(m)
	err = s.generate(m, maxRounds, smoothing)
	s.mixAtHand(m)
	s.duals.lp, s.lpValue = s.duals.best, m.objective()
	s.phase = phase{s.proveNodes(), boundPart}
	if err == nil && !s.opt.Quick && !s.proven() && !s.clock.spent(s.phase.timeShare) {
		err = s.generate(m, proveRounds, smoothing)
	}
	s.mixAtHand(m)
	s.keep(m)
	s.duals.lp, s.phase = s.duals.best, phase{rootNodes, 1}
	if err != nil {
		return nil
	}
	return m
}

// earlyIncumbent offers the plan that has every dog's heaviest choice of sessions, so that there is one at every moment.
func (s *solver) earlyIncumbent(m *master) {
	fixed := make([][]int, len(s.fixed))
	for _, c := range s.openChoices(m) {
		fixed[c.dog] = c.sessions
		s.dogs[c.dog].setClearings(c.clear)
	}
	if m, err := s.feasibleMaster(fixed); err == nil {
		s.offerMix(m, fixed)
	}
}

// each brings every dog to the prices and does the work on it, dogs in parallel. When time is over, work on some may be
// left out: what came of it must not be used.
func (s *solver) each(q prices, work func(*dogNets)) {
	w := s.p.weekPrices(q.row)
	s.workers(len(s.dogs), func(d int) {
		if !s.clock.expired() {
			s.dogs[d].setPrices(w, q)
			work(s.dogs[d])
		}
	})
}

// master is a new, solved master over the useful columns that agree with the fixed sessions.
func (s *solver) master() (*master, error) { return s.masterOf(s.p, s.fixed) }

// masterOf is one with other hours or other sessions fixed.
func (s *solver) masterOf(p *Problem, fixed [][]int) (*master, error) {
	m := newMaster(p, s.clock.expired, fixed)
	for d, cols := range s.columns.useful {
		for _, c := range cols {
			if f := fixed[d]; f == nil {
				m.addColumn(c)
			} else if o := c.heldTo(p, f); o != nil {
				m.addColumn(o)
			}
		}
	}
	return m, m.optimise()
}

// generate adds columns until a round gains nothing to speak of.
func (s *solver) generate(m *master, rounds int, smooth float64) error {
	stab := newStabilisation(smooth)
	allOpen := s.known == nil && !s.held && !slices.ContainsFunc(s.fixed, func(f []int) bool { return f != nil })
	for range rounds {
		if s.clock.spent(s.phase.timeShare) {
			return nil
		}
		s.rounds++
		s.noteBasic(m)
		q := m.prices()
		switch {
		case stab.active():
			q = stab.best.mixed(stab.part, q)
		case allOpen && !s.phase.bounds(): // these have been asked already
			q = s.duals.lp.mixed(stab.part, q)
		case allOpen:
			q = s.duals.lp
		}
		var lagrange float64
		cols := make([][]*column, len(s.dogs))
		values := make([]float64, len(s.dogs))
		if allOpen {
			q.show, lagrange = s.p.sharedOut(q.show)
		}
		ceilings := make([]float64, len(s.dogs))
		s.each(q, func(n *dogNets) { cols[n.d], values[n.d], ceilings[n.d] = s.ask(n, mixTol) })
		if s.clock.expired() {
			return nil
		}
		lagrange += m.p.worth(q.row)
		ceiling := lagrange
		gained := 0.0
		for d, asked := range cols {
			lagrange += values[d]
			ceiling += ceilings[d]
			gained += m.addGaining(asked)
		}
		if allOpen && s.phase.bounds() {
			lagrange = ceiling
		}
		if stab.note(q, lagrange) {
			s.duals.best = q
		}
		if allOpen && !s.calm() && ceiling < s.bound {
			s.bound = ceiling
			s.report()
		}
		if gained <= promiseTol*math.Max(1, math.Abs(m.objective())) && !stab.missed() {
			return nil
		}
		if err := m.optimise(); err != nil {
			return err
		}
		if allOpen && !s.phase.bounds() {
			if err := s.again(m); err != nil {
				return err
			}
		}
		if (!allOpen || s.phase.bounds()) && stab.least-m.objective() <= roundTol*math.Max(1, math.Abs(stab.least)) {
			return nil
		}
	}
	return nil
}

// calm reports whether weeks of clearing are looked at for columns alone, which is faster, and says nothing of a bound. With a time
// limit there should be one early.
func (s *solver) calm() bool { return !s.phase.bounds() && !s.small() && !s.clock.timed() }

// again generates columns with the sessions and weeks of clearing that are in use alone, which costs little and brings the prices on.
func (s *solver) again(m *master) error {
	if s.clock.expired() {
		return nil
	}
	best := s.duals.best
	s.known = s.inUse(m)
	defer func() { s.known, s.duals.best = nil, best }()
	return s.generate(m, againRounds, diveSmoothing)
}

// inUse are by dog the heaviest columns of its mix that differ in sessions or weeks of clearing; nil of dogs whose sessions are fixed.
func (s *solver) inUse(m *master) [][]*column {
	known := make([][]*column, len(s.dogs))
	for d, parts := range m.mixes() {
		for s.fixed[d] == nil && len(known[d]) < knownWays {
			parts = slices.DeleteFunc(parts, func(q part) bool {
				return !s.dogs[d].within(q.sessions) || slices.ContainsFunc(known[d], q.sameWay)
			})
			if len(parts) == 0 {
				break
			}
			_, have := heaviest(parts)
			known[d] = append(known[d], have[0].column)
		}
	}
	return known
}

// noteBasic notes the columns in use.
func (s *solver) noteBasic(m *master) {
	for d := range s.columns.basic {
		s.columns.basic[d] = nil
	}
	for _, q := range m.parts() {
		if s.fixed[q.dog] != nil || s.dogs[q.dog].within(q.sessions) {
			s.columns.basic[q.dog] = append(s.columns.basic[q.dog], q.column)
		}
	}
}

// ask are good columns of the dog at its present prices, the best's value there, and what no column passes; of a dog whose
// sessions are fixed, about what the best with these sessions has.
func (s *solver) ask(n *dogNets, tol float64) (cols []*column, value, ceiling float64) {
	if f := s.fixed[n.d]; f != nil {
		n.take(f)
		c, value := n.bestMix(tol)
		return []*column{c}, value, value
	}
	if s.known != nil && s.known[n.d] != nil {
		value = math.Inf(-1)
		for _, c := range s.known[n.d] {
			n.setClearings(c.clear)
			n.take(c.sessions)
			o, v := n.bestMix(tol)
			cols, value = append(cols, o), math.Max(value, v)
		}
		return cols, value, value
	}
	basic := s.columns.basic[n.d]
	n.frozen = s.calm()
	ceiling = n.highest(basic, s.near(), s.phase.nodes)
	n.frozen = false
	if !s.phase.bounds() {
		tol = math.Max(tol, s.near())
	}
	if n.dog.hasDead() {
		n.descend(clearingLooks, tol)
	}
	first, value := n.bestMix(tol)
	n.openHoles = n.holes
	if s.phase.bounds() {
		return []*column{first}, value, ceiling
	}
	if len(basic) > 0 && s.rounds%2 == 0 { // from one that is in use
		used := basic[s.rounds/2%len(basic)]
		n.setClearings(used.clear)
		n.take(used.sessions)
	}
	n.search()
	if n.dog.hasDead() {
		n.descend(clearingLooks, tol)
	}
	second, v := n.bestMix(tol)
	return []*column{first, second}, math.Max(value, v), ceiling
}

// addGaining takes in the columns that gain at the last answer's prices, and returns what the best of them gains.
func (m *master) addGaining(cols []*column) float64 {
	most := 0.0
	for i, c := range cols {
		if g := m.reduced(c); g > columnTol && (i == 0 || !c.sameWay(cols[0])) {
			most = math.Max(most, g)
			m.addColumn(c)
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
		s.columns.useful[d] = kept
	}
	s.duals.incumbent = m.prices()
}

// checkpoint is what a plan's sessions are fixed to, to go back to.
type checkpoint struct {
	fixed  [][]int
	useful [][]*column
	duals  prices // of the incumbent
	value  float64
	clear  [][]int // by dog: its decided weeks of clearing
}

func (s *solver) checkpoint() checkpoint {
	c := checkpoint{fixed: slices.Clone(s.fixed), useful: slices.Clone(s.columns.useful), duals: s.duals.incumbent, value: s.best.value}
	for _, n := range s.dogs {
		c.clear = append(c.clear, n.dog.clearings())
	}
	return c
}

// goBackUnlessBetter reports whether there is a better plan by now; if not, all goes back to the checkpoint.
func (s *solver) goBackUnlessBetter(c checkpoint) bool {
	if s.best.value > c.value {
		return true
	}
	s.fixed, s.columns.useful, s.duals.incumbent = c.fixed, c.useful, c.duals
	for d, n := range s.dogs {
		n.setClearings(c.clear[d])
	}
	return false
}

// offerMix offers the plan of a master that holds to the sessions.
func (s *solver) offerMix(m *master, sessions [][]int) {
	if m.overtimeUsed() <= overtimeTol {
		pl := m.plan(sessions)
		s.p.trim(pl)
		s.offer(pl, s.p.planValue(pl))
	}
}

// improvement is what may be done for a plan whose sessions are fixed.
type improvement struct {
	steps   int  // of polishing without a time limit, in all
	perturb bool // a small season is perturbed now and then
}

// wholeImprovement is that of a plan that is sought afresh.
func wholeImprovement(p *Problem) improvement {
	return improvement{steps: max(polishBudget, polishADog*len(p.Dogs)), perturb: true}
}

// improve makes the most of the best plan's sessions, beginning in a master with all sessions fixed (nil = a new one), and
// makes the prices those of the best plan: of a master that has its columns, so that it can only be better.
func (s *solver) improve(m *master, by improvement) {
	m, err := s.bestIn(m)
	if err != nil {
		return
	}
	if s.clear() {
		m = nil
	}
	if m, err = s.bestIn(m); err != nil {
		return
	}
	s.polish(m, by.steps)
	if s.repair() {
		m = nil
	}
	if by.perturb && s.perturb(by.steps) {
		m = nil
	}
	if s.clock.expired() {
		return
	}
	if m, err = s.bestIn(m); err == nil && s.generate(m, finalRounds, diveSmoothing) == nil {
		s.keep(m)
		s.offerMix(m, s.fixed)
		s.clear()
	}
}

// bestIn brings the best plan's sessions and columns into a master with all sessions fixed; nil = a new one.
func (s *solver) bestIn(m *master) (*master, error) {
	for d, z := range s.best.plan.Sessions {
		s.dogs[d].clearAs(s.best.plan.Shares[d])
		c := newColumn(s.p, d, slices.Clone(z), s.best.plan.Shares[d])
		s.columns.useful[d] = append(s.columns.useful[d], c)
		if m != nil {
			if !slices.Equal(s.fixed[d], z) {
				m.hold(d, c.sessions)
			}
			m.addColumn(c)
		}
		s.fixed[d] = c.sessions
	}
	if m == nil {
		return s.master()
	}
	return m, m.optimise()
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
	for i, v := range s.duals.incumbent.row {
		if v > 0 && (row < 0 || v > s.duals.incumbent.row[row]) {
			row = i
		}
	}
	if row < 0 || s.clock.expired() || slices.ContainsFunc(s.fixed, func(f []int) bool { return f == nil }) {
		return -1, Plan{}
	}
	p := *s.p
	p.Rows = slices.Clone(p.Rows)
	p.Rows[row].Capacity += minutesUnit
	defer func(rounds int, best prices) { // these are no part of the search
		s.rounds, s.duals.best = rounds, best
	}(s.rounds, s.duals.best)
	m, err := s.masterOf(&p, s.fixed)
	if err != nil || s.generate(m, finalRounds, diveSmoothing) != nil {
		return -1, Plan{}
	}
	return row, m.plan(s.fixed)
}

func (s *solver) result(dearest int, eased Plan) Result {
	r := Result{
		Plan: s.best.plan, Objective: s.best.value, Bound: s.bound, Prices: s.duals.incumbent.row, Dearest: dearest, Eased: eased,
		Cut: s.clock.expired(), Rounds: s.rounds, Seconds: s.clock.seconds(),
	}
	if s.rough.value > s.best.value+startSlip*math.Max(1, math.Abs(s.best.value)) {
		same := reflect.DeepEqual(s.rough.plan.Sessions, s.best.plan.Sessions)
		r.Plan, r.Objective = s.rough.plan, s.rough.value
		r.Prices = s.p.onlyFull(r.Prices, r.Plan)
		if !same || dearest >= 0 && r.Prices[dearest] == 0 { // eased is another plan's
			r.Dearest = -1
		}
	}
	r.Gap = gap(r.Bound, r.Objective)
	return r
}

// onlyFull are the prices of the rows that the plan fills; a minute more is worth nothing in the others.
func (p *Problem) onlyFull(row []float64, pl Plan) []float64 {
	cols := make([]*column, len(p.Dogs))
	for d := range cols {
		cols[d] = newColumn(p, d, pl.Sessions[d], pl.Shares[d])
	}
	kept := slices.Clone(row)
	for i := range kept {
		left := p.Rows[i].Capacity
		for _, c := range cols {
			left -= c.load(p, &p.Rows[i])
		}
		if left > fullTol {
			kept[i] = 0
		}
	}
	return kept
}

// fullTol is how many minutes a full row may have left by rounding.
const fullTol = 1e-3
