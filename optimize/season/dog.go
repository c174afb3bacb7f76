package season

import "math"

// A dog at given prices: which weeks to open for sessions. With the weeks given, its areas are solved one by one
// (area.go); the weeks are chosen by opening, closing and shifting them while that pays. The nets are kept, so a
// step costs only what it changes.
type dogNets struct {
	p      *Problem
	d      int
	dog    *Dog
	nets   []*areaNet
	open   []bool
	worth  float64   // points of full readiness in all weeks at the present show price
	show   float64   // show price that the nets' values hold
	linear []float64 // by week: points a session at the present prices, without stay
	opened []float64 // by week: points that an open week costs
	count  []int     // by week: sessions that an open week has at that cost
}

func newDogNets(p *Problem, d int) *dogNets {
	n := &dogNets{p: p, d: d, dog: &p.Dogs[d], show: math.NaN()}
	for a := range n.dog.Areas {
		n.nets = append(n.nets, newAreaNet(&n.dog.Areas[a], p.Weeks))
	}
	n.open = make([]bool, p.Weeks)
	n.linear, n.opened, n.count = make([]float64, p.Weeks), make([]float64, p.Weeks), make([]int, p.Weeks)
	return n
}

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

// weight is the dog's points of full readiness in week t at a show price.
func (g *Dog) weight(t int, show float64) float64 {
	v := g.Value[t]
	if show != 0 && g.Shows != nil {
		v += show * g.Shows[t]
	}
	return v
}

// setPrices brings the nets to the prices. spread, if not nil, is added to the price of a minute of work in a week.
func (n *dogNets) setPrices(w weekly, q prices, spread []float64) {
	if show := q.show[n.d]; show != n.show {
		n.show = show
		value := make([]float64, n.p.Weeks)
		for a, net := range n.nets {
			for t := range value {
				value[t] = n.dog.weight(t, show) * n.dog.Areas[a].Weight
			}
			net.setValue(value)
		}
		n.worth = 0
		var all float64
		for _, a := range n.dog.Areas {
			all += a.Weight
		}
		for t := range n.p.Weeks {
			n.worth += all * n.dog.weight(t, show)
		}
	}
	session := q.session[n.d]
	for t := range n.p.Weeks {
		n.linear[t] = n.dog.SessionCost + w.setUp[t]*n.dog.SetUp - session[t]*n.dog.clear(t)
		n.opened[t], n.count[t] = n.cheapest(t, 1)
		extra := session[t]
		if spread != nil {
			extra += spread[t]
		}
		for a, net := range n.nets {
			area := &n.dog.Areas[a]
			net.setPrice(t, area.Minutes*(w.kind[t][area.Kind]+extra))
		}
	}
}

// cheapest is the least cost of week t with at least so many sessions, and how many those are.
func (n *dogNets) cheapest(t, least int) (float64, int) {
	best, at := math.Inf(1), least
	for z := least; z <= n.dog.Most[t]; z++ {
		if c := n.linear[t]*float64(z) + n.dog.stay(t, z); c < best {
			best, at = c, z
		}
	}
	return best, at
}

func (n *dogNets) setOpen(t int, open bool) {
	n.open[t] = open
	for _, net := range n.nets {
		net.setOpen(t, open)
	}
}

// areasCost solves the areas and adds up what they take.
func (n *dogNets) areasCost() float64 {
	var s float64
	for _, net := range n.nets {
		net.solve()
		s += net.minimum()
	}
	return s
}

// value is the dog's Lagrangian value with the weeks that are open.
func (n *dogNets) value() float64 {
	v := n.worth - n.areasCost()
	for t, o := range n.open {
		if o {
			v -= n.opened[t]
		} else {
			v -= n.dog.stay(t, 0)
		}
	}
	return v
}

// work is the minutes of pulling in week t.
func (n *dogNets) work(t int) float64 {
	var s float64
	for a, net := range n.nets {
		s += net.pulled(t) * n.dog.Areas[a].Minutes
	}
	return s
}

// search opens, closes and shifts weeks while that pays, at most so many passes, and returns the value reached.
func (n *dogNets) search(passes int) float64 {
	best := n.value()
	try := func(ts ...int) bool {
		for _, t := range ts {
			n.setOpen(t, !n.open[t])
		}
		if v := n.value(); v > best+searchTol {
			best = v
			return true
		}
		for _, t := range ts {
			n.setOpen(t, !n.open[t])
		}
		return false
	}
	for range passes {
		gained := false
		for t := range n.open {
			if n.dog.canOpen(t) && try(t) {
				gained = true
			}
		}
		for t := range n.open {
			for _, s := range [2]int{t - 1, t + 1} {
				if s >= 0 && s < len(n.open) && n.open[t] && !n.open[s] && n.dog.canOpen(s) && try(t, s) {
					gained = true
					break
				}
			}
		}
		if !gained {
			break
		}
	}
	n.areasCost()
	return best
}

const searchTol = 1e-7

// openAll opens every week that can be worked and closes those again in which nothing is pulled.
func (n *dogNets) openAll() {
	for t := range n.open {
		n.setOpen(t, n.dog.canOpen(t))
	}
	n.areasCost()
	for t, o := range n.open {
		if o && n.opened[t] > n.dog.stay(t, 0) && n.work(t) == 0 {
			n.setOpen(t, false)
		}
	}
	n.areasCost()
}
