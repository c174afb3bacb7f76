package season

import "slices"

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
	clear    []int       // by area: its decided week of clearing, by which the minutes are; nil where the dog has no dead hair
}

// newColumn works out what the shares in the sessions are worth and take by the weeks of clearing that are decided; it keeps both.
func newColumn(p *Problem, d int, sessions []int, shares [][]float64) *column {
	return newColumnBy(p, d, sessions, shares, p.Dogs[d].clearings())
}

// newColumnBy is newColumn with the weeks of clearing given.
func newColumnBy(p *Problem, d int, sessions []int, shares [][]float64, clear []int) *column {
	c := &column{dog: d, sessions: sessions, shares: shares, clear: clear}
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

// sameWay reports whether both have the same sessions and weeks of clearing: such columns can be mixed into one plan.
func (c *column) sameWay(o *column) bool {
	return slices.Equal(c.sessions, o.sessions) && slices.Equal(c.clear, o.clear)
}

// heldTo is the column with the sessions given and the minutes of the weeks of clearing that are decided; nil where these don't
// hold it.
func (c *column) heldTo(p *Problem, sessions []int) *column {
	if !slices.Equal(c.clear, p.Dogs[c.dog].clearings()) {
		if !c.clearsLate(p) {
			return nil
		}
		c = newColumn(p, c.dog, c.sessions, c.shares)
	}
	if !c.fits(p, sessions) {
		return nil
	}
	return c.with(p, sessions)
}

// clearsLate reports whether no area is cleared before the week that is decided, and none takes more living hair from then on than
// it may.
func (c *column) clearsLate(p *Problem) bool {
	for a := range p.Dogs[c.dog].Areas {
		area := &p.Dogs[c.dog].Areas[a]
		week, decided := area.clearing()
		if !decided {
			continue
		}
		if !area.holds(c.shares[a]) {
			return false
		}
		sum := 0.0
		for t, s := range c.shares[a] {
			sum += s
			if t < week && sum > area.Dead+clearedTol || t == week && sum > area.Dead+area.Most[t]+clearedTol ||
				t > week && s > area.Most[t]+clearedTol {
				return false
			}
		}
	}
	return true
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
		area := g.Areas[a]
		if c.clear != nil {
			area.cleared = c.clear[a]
		}
		for t, m := range area.MinutesOf(c.shares[a]) {
			c.kinds[t*p.Kinds+area.Kind] += m
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
