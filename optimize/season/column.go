package season

// column is one way to work one dog through the season.
type column struct {
	dog      int
	sessions []int
	shares   [][]float64 // area, week
	ready    float64     // points for readiness and even work
	value    float64     // those, session and stay points
	mean     float64     // mean show readiness, 0..1
	kinds    []float64   // minutes by week and kind
	work     []float64   // minutes by week
}

// newColumn works out what the shares in the sessions are worth and take; it keeps both.
func newColumn(p *Problem, d int, sessions []int, shares [][]float64) *column {
	c := &column{dog: d, sessions: sessions, shares: shares}
	c.measure(p)
	c.price(p)
	return c
}

// idleColumn pulls nothing in the sessions given; nil is none.
func idleColumn(p *Problem, d int, sessions []int) *column {
	all := make([]int, p.Weeks)
	copy(all, sessions)
	return newColumn(p, d, all, table(len(p.Dogs[d].Areas), p.Weeks))
}

// with is the column with other sessions, which must hold its work.
func (c *column) with(p *Problem, sessions []int) *column {
	o := *c
	o.sessions = sessions
	o.value = o.ready - p.Dogs[c.dog].sessionsCost(sessions)
	return &o
}

// fits reports whether the sessions hold the column's work.
func (c *column) fits(p *Problem, sessions []int) bool {
	for t, w := range c.work {
		if w > p.Dogs[c.dog].clear(t)*float64(sessions[t])+brokenTol {
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
		for t, m := range g.Areas[a].MinutesOf(c.shares[a]) {
			c.kinds[t*p.Kinds+g.Areas[a].Kind] += m
			c.work[t] += m
		}
	}
}

// price sets value and mean.
func (c *column) price(p *Problem) {
	g := &p.Dogs[c.dog]
	ready := newReadyWeeks(p.Weeks)
	for a := range g.Areas {
		ready.add(&g.Areas[a], c.shares[a])
	}
	c.ready, c.mean = ready.points(p, g)
	c.value = c.ready - g.sessionsCost(c.sessions)
}

// sessionsCost is what sessions cost in points.
func (g *Dog) sessionsCost(sessions []int) float64 {
	var s float64
	for t, z := range sessions {
		s += g.SessionCost*float64(z) + g.stay(t, z)
	}
	return s
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
