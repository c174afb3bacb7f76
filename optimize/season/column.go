package season

import "math"

// column is one way to work one dog through the season.
type column struct {
	dog      int
	sessions []int
	shares   [][]float64 // area, week
	value    float64     // readiness, session and stay points
	mean     float64     // mean show readiness, 0..1
	kinds    []float64   // minutes by week and kind
	work     []float64   // minutes by week
}

// column is the nets' present answer as a column. Where the work of a week needs more sessions than the prices would
// take, it has them; fixed, if not nil, gives the sessions.
func (n *dogNets) column(fixed []int) *column {
	c := &column{dog: n.d, sessions: make([]int, n.p.Weeks), shares: make([][]float64, len(n.nets))}
	for a, net := range n.nets {
		c.shares[a] = make([]float64, n.p.Weeks)
		for t := range c.shares[a] {
			c.shares[a][t] = net.pulled(t)
		}
	}
	c.measure(n.p)
	for t, o := range n.open {
		switch {
		case fixed != nil:
			c.sessions[t] = fixed[t]
		case o:
			need := int(math.Ceil(c.work[t]/n.dog.clear(t) - 1e-9))
			_, c.sessions[t] = n.cheapest(t, max(1, min(need, n.dog.Most[t])))
		}
	}
	c.price(n.p)
	return c
}

// idleColumn pulls nothing.
func idleColumn(p *Problem, d int, fixed []int) *column {
	c := &column{dog: d, sessions: make([]int, p.Weeks), shares: make([][]float64, len(p.Dogs[d].Areas))}
	for a := range c.shares {
		c.shares[a] = make([]float64, p.Weeks)
	}
	copy(c.sessions, fixed)
	c.measure(p)
	c.price(p)
	return c
}

// with is the column with other sessions.
func (c *column) with(p *Problem, sessions []int) *column {
	o := *c
	o.sessions = sessions
	o.price(p)
	return &o
}

// fits reports whether the sessions are enough for every week in which the column pulls.
func (c *column) fits(sessions []int) bool {
	for t, w := range c.work {
		if w > 0 && sessions[t] == 0 {
			return false
		}
	}
	return true
}

// measure sets the minutes.
func (c *column) measure(p *Problem) {
	g := &p.Dogs[c.dog]
	c.kinds, c.work = make([]float64, p.Weeks*p.Kinds), make([]float64, p.Weeks)
	for a := range g.Areas {
		for t, s := range c.shares[a] {
			m := s * g.Areas[a].Minutes
			c.kinds[t*p.Kinds+g.Areas[a].Kind] += m
			c.work[t] += m
		}
	}
}

// price sets value and mean.
func (c *column) price(p *Problem) {
	g := &p.Dogs[c.dog]
	c.value, c.mean = 0, 0
	ready := make([]float64, p.Weeks)
	for a := range g.Areas {
		addReady(ready, &g.Areas[a], c.shares[a])
	}
	for t, r := range ready {
		c.value += g.Value[t]*r - g.SessionCost*float64(c.sessions[t]) - g.stay(t, c.sessions[t])
		if g.Shows != nil {
			c.mean += g.Shows[t] * r
		}
	}
}

// addReady adds an area's weighted readiness (0..1, unclipped) by week.
func addReady(ready []float64, a *Area, shares []float64) {
	curve := make([]float64, len(shares))
	var sum float64
	for t, s := range shares {
		sum += s
		curve[t] = a.PastAt(t) + sum
	}
	back := func(t int) float64 {
		if t >= 0 {
			return curve[t]
		}
		return a.PastAt(t)
	}
	for t := range shares {
		r := 1.0
		for _, k := range a.Young {
			r -= k.Slope * math.Max(0, curve[t]-back(t-k.Weeks)-k.Allow)
		}
		for _, k := range a.Old {
			r -= k.Slope * math.Max(0, 1-k.Allow-curve[t]+back(t-k.Weeks))
		}
		ready[t] += a.Weight * r
	}
}

// load is what the column puts on a row, minutes.
func (c *column) load(p *Problem, r *Row) float64 {
	var m float64
	for k := range p.Kinds {
		if r.counts(k) {
			m += c.kinds[r.Week*p.Kinds+k]
		}
	}
	if r.SetUps {
		m += p.Dogs[c.dog].SetUp * float64(c.sessions[r.Week])
	}
	return m
}

// overrun is the work of week t less what its sessions hold, minutes.
func (c *column) overrun(p *Problem, t int) float64 {
	return c.work[t] - p.Dogs[c.dog].clear(t)*float64(c.sessions[t])
}
