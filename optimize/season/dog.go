package season

import (
	"math"
	"slices"

	"tuckup/optimize/flow"
)

// A dog at given prices: how many sessions in which weeks. With the sessions given, its areas are solved one by one
// (area.go) at a price on the minutes of each week that makes the work fit into the sessions (fill.go, areamix.go); the
// sessions are chosen by branch and bound (branch.go) and mended by a search (choose.go). The nets are kept, so a step
// costs only what it changes.
type dogNets struct {
	p         *Problem
	d         int
	dog       *Dog
	nets      []*flow.Net // in use
	plans     []*flow.Net // of the areas as their weeks of clearing are decided
	windows   [][]*window // by area: while no week of clearing is decided (windows.go); nil where nothing is dead
	chosen    []*window   // by area: whose net was the best
	stale     []bool      // by area: the best window may be another now
	frozen    bool        // the windows stay as they were chosen: where no bound is wanted
	values    int         // counts how often the areas' values changed
	sessions  []int
	shut      [][]bool    // by area and week: no touch of it, though there is a session; nil = none
	low, high []int       // by week: the fewest and the most sessions that are looked for
	fill      []float64   // by week: points a minute that keep the work within the sessions
	minute    [][]float64 // by week and kind: points a minute at the rows' prices
	linear    []float64   // by week: points a session at the present prices, without stay
	worth     float64     // points of full readiness in all weeks at the present show price and prices of holes
	full      float64     // the same without parts of holes
	show      float64     // show price that the nets' values hold
	holes     [][]float64 // by week and area: part of the points for shows that goes by the area alone (hole.go); nil = none
	openHoles [][]float64 // those of the last best column with sessions open

	levies      [][]float64    // by area and week: points of a session's cost that the area pays for its largest share
	parts       [][]float64    // by payer and week: parts of a session's cost that were good before
	pulls       [][]float64    // scratch of levy: by payer and week, what it takes of a session
	care        float64        // points that a node's fill prices may leave on the table
	pseudoCosts [2]pseudoCosts // by branching to fewer and to more sessions

	mixes        []*areaMix  // the last ones, the latest first
	nodeMix      *areaMix    // the last one of a node
	stop         func() bool // whether time is over; nil = never
	best, before trial
	relaxed      bool // no week of clearing is decided: for the bound
}

func newDogNets(p *Problem, d int) *dogNets {
	n := &dogNets{p: p, d: d, dog: &p.Dogs[d], show: math.NaN()}
	areas := len(n.dog.Areas)
	n.windows, n.chosen, n.stale = make([][]*window, areas), make([]*window, areas), make([]bool, areas)
	for a := range n.dog.Areas {
		n.plans = append(n.plans, newAreaNet(&n.dog.Areas[a], p.Weeks))
	}
	n.nets = slices.Clone(n.plans)
	n.sessions = make([]int, p.Weeks)
	n.linear, n.fill = make([]float64, p.Weeks), make([]float64, p.Weeks)
	n.levies = table(len(n.nets), p.Weeks)
	n.low, n.high = n.dog.open(p.Weeks)
	return n
}

// open are the fewest and the most sessions by week where none are held.
func (g *Dog) open(weeks int) (low, high []int) {
	low, high = make([]int, weeks), make([]int, weeks)
	for t := range high {
		if g.canOpen(t) {
			high[t] = g.Most[t]
		}
	}
	return low, high
}

// within reports whether the dog may have the sessions.
func (n *dogNets) within(sessions []int) bool {
	for t, z := range sessions {
		if z < n.low[t] || z > n.high[t] {
			return false
		}
	}
	return true
}

// stopped reports whether work on the dog should come to an end.
func (n *dogNets) stopped() bool { return n.stop != nil && n.stop() }

// clear is how many minutes of work one session of week t holds.
func (g *Dog) clear(t int) float64 { return g.Minutes[t] - g.SetUp }

// stay is what z sessions in week t cost for differing from the accepted ones.
func (g *Dog) stay(t, z int) float64 {
	if t >= len(g.Kept) {
		return 0
	}
	return g.Stay * math.Abs(float64(z-g.Kept[t]))
}

// canOpen reports whether the dog can be worked in week t.
func (g *Dog) canOpen(t int) bool { return g.Most[t] > 0 && g.clear(t) > 0 }

// cost is what z sessions in week t cost at the present prices, points.
func (n *dogNets) cost(t, z int) float64 { return n.linear[t]*float64(z) + n.dog.stay(t, z) }

// setPrices brings the nets to the prices of the rows and the shows.
func (n *dogNets) setPrices(w weekPrices, q prices) {
	if show := q.show[n.d]; show != n.show {
		n.setShow(show)
	}
	n.minute = w.kind
	for t := range n.p.Weeks {
		n.linear[t] = n.dog.SessionCost + w.setUp[t]*n.dog.SetUp
		n.setFill(t, n.fill[t])
	}
}

// setShow sets the price of the dog's mean show readiness.
func (n *dogNets) setShow(show float64) {
	n.show, n.worth, n.full = show, 0, 0
	n.values++
	for a := range n.nets {
		value := n.areaValues(a)
		for t, v := range value {
			n.worth += v
			n.full += n.dog.weight(t, show) * n.dog.Areas[a].Weight
		}
		n.plans[a].SetValue(value)
		n.stale[a] = true
	}
	n.worth += n.holeWorth()
}

// areaValues are what full readiness of an area is worth by week.
func (n *dogNets) areaValues(a int) []float64 {
	value := make([]float64, n.p.Weeks)
	for t := range value {
		value[t] = n.areaValue(t, a)
	}
	return value
}

// setFill sets the price that keeps week t's work within its sessions.
func (n *dogNets) setFill(t int, fill float64) {
	n.fill[t] = fill
	for a := range n.nets {
		n.setPrice(a, t)
	}
}

func (n *dogNets) setSessions(t, z int) {
	n.sessions[t] = z
	for a, net := range n.nets {
		if n.relaxed && n.dog.Areas[a].Dead > 0 {
			n.stale[a] = true
		} else {
			net.SetOpen(t, n.touches(a, t))
		}
	}
}

// take sets the sessions of all weeks.
func (n *dogNets) take(sessions []int) {
	for t, z := range sessions {
		n.setSessions(t, z)
	}
}

// areasCost solves the areas and adds up what they take.
func (n *dogNets) areasCost() float64 {
	var s float64
	for a := range n.nets {
		n.solveArea(a)
		s += n.nets[a].Minimum()
	}
	return s
}

// value bounds from above what the dog is worth at the rows' prices with its sessions, and is that where the fill
// prices are right.
func (n *dogNets) value() float64 {
	v := n.worth - n.areasCost()
	for t, z := range n.sessions {
		v += float64(z)*(n.fill[t]*n.dog.clear(t)-n.linear[t]) - n.dog.stay(t, z)
	}
	return v
}

// work is the minutes of pulling in week t.
func (n *dogNets) work(t int) float64 {
	var s float64
	for a := range n.nets {
		s += n.minutes(a, t)
	}
	return s
}

// room is the minutes of pulling that the sessions of week t hold.
func (n *dogNets) room(t int) float64 { return n.dog.clear(t) * float64(n.sessions[t]) }
