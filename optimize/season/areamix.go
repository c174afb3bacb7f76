package season

import (
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// bestMix is the dog's best column with its sessions at the rows' prices, work kept within the sessions, to within tol points.
// It goes on from the last mix where that had the same sessions, else from the present fill prices. The value is the
// column's Lagrangian value.
func (n *dogNets) bestMix(tol float64) (*column, float64) {
	weeks := n.dog.clearings()
	f := n.mixOf(weeks)
	a, _ := f.generate(tol)
	c := f.season(a)
	return c, n.lagrangian(c)
}

// mixOf is the program of the dog's sessions and the weeks of clearing given, at the present prices.
func (n *dogNets) mixOf(weeks []int) *areaMix {
	var f *areaMix
	if at := slices.IndexFunc(n.mixes, func(f *areaMix) bool { return slices.Equal(f.sessions, n.sessions) && slices.Equal(f.clear, weeks) }); at >= 0 {
		f = n.mixes[at]
		n.mixes = slices.Delete(n.mixes, at, at+1)
	}
	if f != nil && len(f.prog.Cols) <= mixColumns {
		f.reprice()
	} else {
		from := f
		if from == nil && len(n.mixes) > 0 {
			from = n.mixes[0]
		}
		f = newAreaMix(n, n.fixedLines(), slices.Clone(n.sessions))
		f.clear = weeks
		if from != nil {
			f.carry(from)
		}
	}
	n.mixes = slices.Insert(n.mixes[:min(len(n.mixes), mixesKept-1)], 0, f)
	return f
}

// fixedLines are those of the sessions as they are.
func (n *dogNets) fixedLines() []line {
	lines := make([]line, n.p.Weeks)
	for t, z := range n.sessions {
		lines[t] = n.line(t, z, z, 0)
	}
	return lines
}

// reprice brings a program made before to the present prices; what it has asked stays of use.
func (f *areaMix) reprice() {
	f.setLines(f.n.fixedLines())
	for j, x := range f.asked {
		if x != nil {
			f.prog.Cols[j].Gain = f.worth(x)
		}
	}
	f.priceHoles()
}

// worth is what a pull gains at the present prices before holes are counted.
func (f *areaMix) worth(x *pull) float64 {
	n := f.n
	area := &n.dog.Areas[x.area]
	g := -x.cost
	for t, loss := range x.loss {
		if loss == 0 {
			continue
		}
		g -= n.dog.weight(t, n.show) * area.Weight * loss
	}
	for _, t := range f.weeks {
		g -= (n.minute[t][area.Kind] + f.lines[t].least) * x.minutes[t]
		if x.shares[t] > 0 {
			g -= x.levied(n, t) * x.shares[t]
		}
	}
	return g
}

// carry takes over what was in use or asked lately with other sessions and can be with these.
func (f *areaMix) carry(from *areaMix) {
	used := make([]bool, len(from.asked))
	for _, j := range from.basis {
		used[j] = true
	}
	for j, x := range from.asked {
		if x == nil || !used[j] && j < len(from.asked)-mixCarry || !f.n.relaxed && x.week != f.n.weekOf(x.area) {
			continue
		}
		shut := 0.0 // what it pulls in weeks that are closed now
		for _, share := range x.shares {
			shut += share
		}
		for _, t := range f.weeks {
			if f.n.touches(x.area, t) {
				shut -= x.shares[t]
			}
		}
		if shut < shutSlip {
			c := f.entries(x)
			c.Gain = f.worth(x)
			f.addPull(c, x)
		}
	}
}

// generate is the best mix, to within tol points, and what none passes: a small column generation, in which the weeks' limits
// are rows and each area mixes its answers (an area's problem is convex). It leaves the best fill prices in the nets, and
// the best parts of holes.
func (f *areaMix) generate(tol float64) (now lp.Answer, least float64) {
	n := f.n
	centre, holes, smooth := slices.Clone(n.fill), n.holes, mixSmoothing
	least = math.Inf(1)
	if f.sessions == nil || f.unasked() { // the fill prices of a node are near to its best
		least = f.ask()
	}
	for range mixRounds {
		a, err := f.solve()
		if err != nil {
			break
		}
		now = a
		if least-(f.base+a.Gain) <= tol {
			break
		}
		part := smooth
		if math.IsInf(least, 1) { // the fill prices at hand were good at other prices
			part = 0
		}
		f.setHoles(a, holes, part)
		for i, t := range f.weeks {
			y := f.lines[t].least + math.Max(0, a.Y[len(n.nets)+i]/minutesUnit)
			n.setFill(t, part*centre[t]+(1-part)*y)
		}
		before := len(f.prog.Cols)
		if v := f.ask(); v < least {
			least, holes = v, n.holes
			copy(centre, n.fill)
		}
		if least-(f.base+a.Gain) <= tol {
			break
		}
		if !f.gains(before, a.Y) { // the smoothed prices missed: ask the program's own
			if smooth == 0 {
				break
			}
			smooth = 0
		}
	}
	n.setHoles(holes)
	for t, v := range centre {
		n.setFill(t, v)
	}
	return now, least
}

// solve is the best mix of what was asked, with a row for each hole that it would have.
func (f *areaMix) solve() (lp.Answer, error) {
	for {
		a, err := f.simplex.Solve(&f.prog, f.basis, f.n.stop)
		if err != nil {
			return a, err
		}
		f.basis = a.Basis
		if !f.addHoles(a) {
			return a, nil
		}
	}
}

const (
	gainTol  = 1e-9 // points: an area's answer that gains less is none
	shutSlip = 1e-9 // shares in closed weeks that are rounding
)

// areaMix is the program of a dog at fill prices: a row for each area, which mixes its answers, one for each open week, and
// one for each hole at a show that a mix would have.
type areaMix struct {
	n        *dogNets
	sessions []int // that it is for; nil = a node's
	clear    []int // .. and the areas' weeks of clearing
	lines    []line
	base     float64 // points that no mix changes
	prog     lp.Program
	simplex  lp.Simplex
	basis    []int
	weeks    []int
	asked    []*pull // by column: what an area pulls; nil for the others
	holes    []holeRow
}

// unasked reports whether the areas have only been taken as idle yet.
func (f *areaMix) unasked() bool {
	n := 0
	for _, x := range f.asked {
		if x != nil {
			n++
		}
	}
	return n == len(f.n.nets)
}

// pull is an area's season, with the minutes it takes and what it lacks of readiness by week.
type pull struct {
	area, week            int // and by whose end it is cleared of dead hair; -1 = nothing is decided or dead
	shares, minutes, loss []float64
	cost                  float64 // points of uneven work
}

func newAreaMix(n *dogNets, lines []line, sessions []int) *areaMix {
	f := &areaMix{n: n, sessions: sessions}
	f.setLines(lines)
	for range n.nets {
		f.prog.AddEquation(1)
	}
	for a := range n.nets {
		idle := n.pull(a, make([]float64, n.p.Weeks))
		c := f.entries(idle)
		c.Gain = f.worth(idle)
		f.basis = append(f.basis, f.addPull(c, idle))
	}
	for t, l := range lines {
		if l.room <= 0 {
			continue
		}
		_, slack := f.prog.AddLimit(l.room / minutesUnit)
		f.weeks, f.basis = append(f.weeks, t), append(f.basis, slack)
	}
	for i, t := range f.weeks {
		if l := lines[t]; !math.IsInf(l.dear, 1) { // more room at a price, up to so much
			one, slack := f.prog.AddLimit(1)
			more := lp.Col{Gain: (l.least - l.dear) * (l.more - l.room)}
			more.Add(len(n.nets)+i, (l.room-l.more)/minutesUnit)
			more.Add(one, 1)
			f.prog.AddCol(more)
			f.basis = append(f.basis, slack)
		}
	}
	f.pad()
	f.firstHoles()
	return f
}

// pad notes the columns that are no pulls.
func (f *areaMix) pad() {
	f.asked = append(f.asked, make([]*pull, len(f.prog.Cols)-len(f.asked))...)
}

func (f *areaMix) setLines(lines []line) {
	n := f.n
	f.lines, f.base = lines, n.full
	for _, l := range lines {
		f.base -= l.base
	}
}

// entries is a pull's column, as yet without its gain.
func (f *areaMix) entries(x *pull) lp.Col {
	var c lp.Col
	c.Add(x.area, 1)
	for i, t := range f.weeks {
		c.Add(len(f.n.nets)+i, x.minutes[t]/minutesUnit)
	}
	for _, h := range f.holes {
		c.Add(h.row, f.holeEntry(h, x))
	}
	return c
}

func (f *areaMix) addPull(c lp.Col, x *pull) int {
	f.pad()
	f.asked = append(f.asked, x)
	return f.prog.AddCol(c)
}

// pull works out what shares of an area take and lack.
func (n *dogNets) pull(a int, shares []float64) *pull {
	area := n.dog.Areas[a]
	x := &pull{area: a, week: n.weekOf(a), shares: shares, loss: area.losses(shares), cost: area.uneven(shares)}
	area.cleared = 1 + x.week
	x.minutes = area.MinutesOf(shares)
	return x
}

// ask adds the areas' answers at the present fill prices, and returns what no mix passes by them.
func (f *areaMix) ask() (ceiling float64) {
	n := f.n
	ceiling = f.base - n.full + n.worth
	for a := range n.nets {
		n.solveArea(a)
		net := n.nets[a]
		ceiling -= net.Minimum()
		shares := make([]float64, n.p.Weeks)
		for _, t := range f.weeks {
			shares[t] = net.Step(t)
		}
		x := n.pull(a, shares)
		c := f.entries(x)
		c.Gain = f.worth(x)
		f.addPull(c, x)
	}
	for _, t := range f.weeks {
		ceiling += f.lines[t].gain(n.fill[t])
	}
	return ceiling
}

// uses are what the mix takes by week.
func (f *areaMix) uses(a lp.Answer) uses {
	n := f.n
	u := uses{make([]float64, n.p.Weeks), make([]float64, n.p.Weeks)}
	for j, x := range a.X {
		if p := f.asked[j]; x > 0 && p != nil {
			for t, s := range p.shares {
				u.work[t] += x * p.minutes[t]
				u.levied[t] += x * s * p.levied(n, t)
			}
		}
	}
	return u
}

// levied is what a unit share of it pays of a session's cost in week t.
func (x *pull) levied(n *dogNets, t int) float64 {
	levy := n.levies[x.area][t]
	if levy == 0 {
		return 0
	}
	area := n.dog.Areas[x.area]
	if area.Dead > 0 && x.week >= 0 {
		return levy / area.reachBy(t, x.week, x.week)
	}
	return levy / area.reach(t)
}

// heaviestWeeks are for each area with dead hair the week of clearing, as areas hold it, that weighs most in the mix.
func (f *areaMix) heaviestWeeks(a lp.Answer, into []int) {
	weight := table(len(f.n.nets), f.n.p.Weeks+1)
	for j, x := range a.X {
		if p := f.asked[j]; x > 0 && p != nil && p.week >= 0 {
			weight[p.area][p.week] += x
		}
	}
	for area, weeks := range weight {
		if f.n.dog.Areas[area].Dead == 0 {
			continue
		}
		best := 0
		for t, x := range weeks {
			if x > weeks[best] {
				best = t
			}
		}
		into[area] = 1 + best
	}
}

// gains reports whether a column from the given one on gains at the prices.
func (f *areaMix) gains(from int, y []float64) bool {
	return slices.ContainsFunc(f.prog.Cols[from:], func(c lp.Col) bool { return c.Reduced(y) > gainTol })
}

// season is the mix as a season of the dog.
func (f *areaMix) season(a lp.Answer) *column {
	n := f.n
	shares := table(len(n.nets), n.p.Weeks)
	for j, x := range a.X {
		if p := f.asked[j]; x > 0 && p != nil {
			for t, s := range p.shares {
				shares[p.area][t] += x * s
			}
		}
	}
	return newColumn(n.p, n.d, slices.Clone(n.sessions), shares)
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
