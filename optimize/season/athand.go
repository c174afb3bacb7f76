package season

import (
	"cmp"
	"math"
	"slices"
)

// The plan at hand. A search that is ended early needs a plan that asks for no linear program: every dog's season is taken
// as it is, and cut back week by week to what the limits leave. It is kept apart from the plans that the search goes on
// from, so that the search is the same with it and without, and is the answer only where it is better than they are.

// atHand keeps a plan if it is the best of its kind so far.
func (s *solver) atHand(pl Plan) {
	if s.rough.offer(pl, s.p.planValue(pl)) {
		s.report()
	}
}

// mixAtHand keeps the plan in which every dog has its heaviest choice of sessions in the master, with the shares of that.
func (s *solver) mixAtHand(m *master) {
	cols := make([]*column, len(s.dogs))
	for d, parts := range m.mixes() {
		if len(parts) == 0 {
			return
		}
		x, have := heaviest(parts)
		shares := table(len(s.p.Dogs[d].Areas), s.p.Weeks)
		for _, q := range have {
			for a := range shares {
				for t, v := range q.shares[a] {
					shares[a][t] += v * q.x / x
				}
			}
		}
		cols[d] = newColumnBy(s.p, d, have[0].sessions, shares, have[0].clear)
	}
	s.atHand(s.p.cutBack(cols))
}

// firstAtHand makes a plan for a long season of a large string, where good answers of the dogs take longer than a person
// waits: a few dogs at a time are asked at prices of the minutes that are left, in several turns. It has nets of its own.
func (s *solver) firstAtHand() {
	if len(s.dogs)*s.p.Weeks < roughSize {
		return
	}
	p := s.p.withClearings()
	dogs := make([]*dogNets, len(s.dogs))
	inParallel(len(dogs), func(d int) {
		dogs[d] = newDogNets(p, d)
		dogs[d].clearSoon(roughRate)
	})
	c, mean := newCutting(p), s.p.meanPrice()
	value := s.p.planValue(c.plan)
	for range roughTurns {
		for part := range slices.Chunk(dogs, roughParts) {
			before := c.clone()
			for _, n := range part {
				c.drop(n.d)
			}
			q := c.prices(roughPrice * mean)
			w := s.p.weekPrices(q.row)
			cols := make([]*column, len(part))
			inParallel(len(part), func(i int) {
				if n := part[i]; !s.clock.expired() {
					n.setPrices(w, q)
					cols[i] = n.rough(func(t int) float64 { return c.room(n.d, t) })
				}
			})
			if s.clock.expired() {
				s.atHand(before.plan)
				return
			}
			for _, col := range cols {
				c.take(col)
			}
			if v := s.p.planValue(c.plan); v > value {
				value = v
			} else {
				c = before
			}
		}
	}
	s.atHand(c.plan)
}

// meanPrice is what a minute is worth in the mean if all that can be had is had with the minutes that there are.
func (p *Problem) meanPrice() float64 {
	minutes := 1.0
	for _, r := range p.Rows {
		if !r.Strip {
			minutes += r.Capacity
		}
	}
	return math.Max(0, p.ceiling()-p.planValue(NewPlan(p))) / minutes
}

// clearSoon decides that all of the dog's dead hair is off as soon as this part of all the sessions that it can have holds it.
func (n *dogNets) clearSoon(part float64) {
	left := 0.0
	for a := range n.dog.Areas {
		left += n.dog.Areas[a].Dead * n.dog.Areas[a].Loose
	}
	week := 0
	for ; week < n.p.Weeks; week++ {
		if n.dog.canOpen(week) {
			left -= part * n.dog.clear(week) * float64(n.dog.Most[week])
		}
		if left <= 0 {
			break
		}
	}
	for a := range n.dog.Areas {
		if n.dog.Areas[a].Dead > 0 {
			n.clearBy(a, week)
		}
	}
}

// rough is about the best season of the dog at the prices that its nets hold, in a hundredth of the time: sessions in the
// weeks that ask for a good part of one where sessions may be broken, and what the areas ask for in them. room is how many
// minutes of pulling a week still has for it.
func (n *dogNets) rough(room func(t int) float64) *column {
	weeks := n.p.Weeks
	x := &node{low: make([]int, weeks), high: make([]int, weeks), fill: make([]float64, weeks), parts: n.firstParts()}
	for t := range weeks {
		if n.dog.canOpen(t) {
			x.high[t] = int(math.Min(float64(n.dog.Most[t]), room(t)/n.dog.clear(t)+1-roughLeast))
		}
	}
	lines := make([]line, weeks)
	n.enter(x, lines)
	n.levy(x, lines, roughEffort, math.Inf(-1))
	n.parts = x.parts
	sessions := make([]int, weeks)
	for t, most := range x.high {
		if most > 0 {
			sessions[t] = min(most, int(math.Ceil(n.work(t)/n.dog.clear(t)-roughLeast)))
		}
	}
	n.noLevies()
	for t, z := range sessions {
		n.setSessions(t, z)
		n.setFill(t, 0)
	}
	n.areasCost()
	shares := table(len(n.nets), weeks)
	for a, net := range n.nets {
		for t := range shares[a] {
			shares[a][t] = net.Step(t)
		}
	}
	return newColumn(n.p, n.d, sessions, shares)
}

// cutBack is the plan of one column a dog, those that gain most first, each week with as much of its work as the limits
// still leave.
func (p *Problem) cutBack(cols []*column) Plan {
	gain := make([]float64, len(cols))
	for d, c := range cols {
		gain[d] = c.value - idleColumn(p, d, nil).value
	}
	order := slices.Clone(cols)
	slices.SortStableFunc(order, func(a, b *column) int { return cmp.Compare(gain[b.dog], gain[a.dog]) })
	c := newCutting(p)
	for _, col := range order {
		c.take(col)
	}
	return c.plan
}

// cutting is a plan that takes in one dog after the other, with what the limits have left.
type cutting struct {
	p    *Problem
	plan Plan
	left []float64 // minutes, by Problem.Rows
	rows [][]int   // by week
}

func newCutting(p *Problem) *cutting {
	c := &cutting{p: p, plan: NewPlan(p), rows: make([][]int, p.Weeks)}
	for i, r := range p.Rows {
		c.left = append(c.left, r.Capacity)
		c.rows[r.Week] = append(c.rows[r.Week], i)
	}
	return c
}

// clone is a copy to go back to: dogs may be dropped from either and taken in again.
func (c *cutting) clone() *cutting {
	return &cutting{
		p: c.p, left: slices.Clone(c.left), rows: c.rows,
		plan: Plan{Sessions: slices.Clone(c.plan.Sessions), Shares: slices.Clone(c.plan.Shares)},
	}
}

// drop takes a dog out.
func (c *cutting) drop(d int) {
	was := newColumn(c.p, d, c.plan.Sessions[d], c.plan.Shares[d])
	for i := range c.left {
		c.left[i] += was.load(c.p, &c.p.Rows[i])
	}
	c.plan.Sessions[d], c.plan.Shares[d] = make([]int, c.p.Weeks), table(len(c.p.Dogs[d].Areas), c.p.Weeks)
}

// take takes in as much of the column's work as the limits leave; its dog must not be in yet.
func (c *cutting) take(col *column) {
	d := col.dog
	for t, rows := range c.rows {
		z, part := c.holds(col, t)
		if z == 0 {
			continue
		}
		c.plan.Sessions[d][t] = z
		for a := range c.plan.Shares[d] {
			c.plan.Shares[d][a][t] = part * col.shares[a][t]
		}
		for _, i := range rows {
			c.left[i] -= c.setUps(d, z, i) + part*c.pulls(col, i)
		}
	}
}

// holds is how many of the column's sessions in week t fit into what is left, and which part of its work.
func (c *cutting) holds(col *column, t int) (z int, part float64) {
	g := &c.p.Dogs[col.dog]
	for z = col.sessions[t]; z > 0; z-- {
		part = 1.0
		if col.work[t] > 0 {
			part = math.Min(1, g.clear(t)*float64(z)/col.work[t])
		}
		for _, i := range c.rows[t] {
			room, pulls := c.left[i]-c.setUps(col.dog, z, i), c.pulls(col, i)
			switch {
			case room < 0:
				part = 0
			case part*pulls > room:
				part = room / pulls
			}
		}
		if work := part * col.work[t]; part >= crumb && work >= crumb*g.SetUp {
			return min(z, max(1, int(math.Ceil(work/g.clear(t))))), part
		}
	}
	return 0, 0
}

// setUps is what z sessions of a dog put on a row, minutes.
func (c *cutting) setUps(d, z, row int) float64 {
	if !c.p.Rows[row].SetUps {
		return 0
	}
	return c.p.Dogs[d].SetUp * float64(z)
}

// pulls is what a column's pulling puts on a row, minutes.
func (c *cutting) pulls(col *column, row int) float64 {
	r := &c.p.Rows[row]
	var m float64
	for k := range c.p.Kinds {
		if r.counts(k) {
			m += col.kinds[r.Week*c.p.Kinds+k]
		}
	}
	return m
}

// room is how many minutes of pulling the limits leave for one session of a dog in week t.
func (c *cutting) room(d, t int) float64 {
	room := math.Inf(1)
	for _, i := range c.rows[t] {
		r := &c.p.Rows[i]
		if r.SetUps || slices.ContainsFunc(c.p.Dogs[d].Areas, func(a Area) bool { return r.counts(a.Kind) }) {
			room = math.Min(room, c.left[i]-c.setUps(d, 1, i))
		}
	}
	return math.Max(0, room)
}

// prices are those of the minutes that are left: middle where half of a row is taken, and rising with what is taken.
func (c *cutting) prices(middle float64) prices {
	q := newPrices(c.p)
	for i, r := range c.p.Rows {
		if r.Capacity > 0 {
			q.row[i] = middle * math.Pow(roughSteep, 1-2*c.left[i]/r.Capacity)
		}
	}
	return q
}
