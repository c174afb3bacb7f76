package season

import (
	"math"

	"tuckup/optimize/flow"
)

// The relaxation for the bound: any week's hair may be taken as dead, which takes fewer minutes and counts for no largest
// share, as long as that is no more of the area than is dead. The price of that limit is the area's credit: any credit
// >= 0 gives a valid bound. No week of clearing is decided in it.

// newNets makes the dog's nets as the weeks of clearing are decided.
func (n *dogNets) newNets() {
	n.plans, n.credits = nil, nil
	n.before, n.best, n.mix = trial{}, trial{}, nil
	for a := range n.dog.Areas {
		area := n.dog.Areas[a]
		net := newAreaNet(&area, n.p.Weeks)
		n.plans, n.credits = append(n.plans, net), append(n.credits, net)
		if area.Dead > 0 {
			area.cleared = 0
			n.credits[a] = newAreaNet(&area, n.p.Weeks)
		}
	}
	n.nets, n.relaxed = n.plans, false
}

// relaxDead puts the relaxation in use, or takes it out.
func (n *dogNets) relaxDead(on bool) {
	if n.relaxed == on {
		return
	}
	n.relaxed, n.nets = on, n.plans
	if on {
		n.nets = n.credits
	}
	for a, net := range n.nets {
		if n.dog.Areas[a].Dead > 0 {
			n.bring(net, a)
		}
	}
}

// bring brings an area's net to the dog's sessions and prices.
func (n *dogNets) bring(net *flow.Net, a int) {
	for t, z := range n.sessions {
		net.SetOpen(t, z > 0)
	}
	n.reprice(net, a)
}

// reprice brings an area's net to the dog's prices, once there are any.
func (n *dogNets) reprice(net *flow.Net, a int) {
	for t := range n.minute {
		n.setPrice(net, a, t, n.minute[t][n.dog.Areas[a].Kind]+n.fill[t])
	}
}

// setPrice sets what an area pays in week t at a price of its minutes.
func (n *dogNets) setPrice(net *flow.Net, a, t int, minute float64) {
	area, price := &n.dog.Areas[a], 0.0
	switch week, decided := area.clearing(); {
	case area.Dead == 0:
		price = area.Minutes * minute
	case n.relaxed:
		price = math.Min(area.Minutes*minute, area.Loose*minute+n.credit[a])
	case !decided || t > week:
		price = area.Minutes * minute
	default:
		price = area.Loose * minute
		if t == week {
			net.SetCharge(0, (area.Minutes-area.Loose)*minute)
		}
	}
	net.SetPrice(t, price+n.levies[a][t])
}

// asDead reports whether the relaxation takes the hair of week t as dead at the present prices.
func (n *dogNets) asDead(a, t int) bool {
	area := &n.dog.Areas[a]
	minute := n.minute[t][area.Kind] + n.fill[t]
	return area.Dead > 0 && area.Loose*minute+n.credit[a] < area.Minutes*minute
}

// minutes are those that the net's answer takes of an area in week t.
func (n *dogNets) minutes(a, t int) float64 {
	area, share := &n.dog.Areas[a], n.nets[a].Step(t)
	if area.Dead == 0 || share <= 0 {
		return area.Minutes * share
	}
	if n.relaxed {
		if n.asDead(a, t) {
			return area.Loose * share
		}
		return area.Minutes * share
	}
	switch week, decided := area.clearing(); {
	case !decided || t > week:
		return area.Minutes * share
	case t < week:
		return area.Loose * share
	}
	return area.Loose*share + (area.Minutes-area.Loose)*math.Max(0, n.nets[a].Curve(t)-area.Dead)
}

// reach is the largest share of an area that the nets in use pull in week t.
func (n *dogNets) reach(a, t int) float64 {
	area := &n.dog.Areas[a]
	if n.relaxed && area.Most[t] > 0 {
		return math.Min(area.Most[t]+area.Dead, area.loosely(t))
	}
	return area.reach(t)
}

// creditWorth is what the limits on dead hair add to the areas' cost in the relaxation.
func (n *dogNets) creditWorth() float64 {
	var s float64
	if n.relaxed {
		for a := range n.dog.Areas {
			s += n.credit[a] * n.dog.Areas[a].Dead
		}
	}
	return s
}

// seekCredit looks for the areas' credits with the least value at the node's fill prices: the value is convex in each, and
// falls while more is taken as dead than there is.
func (n *dogNets) seekCredit(x *node, lines []line) {
	if !n.dog.hasDead() {
		return
	}
	n.enter(x, lines)
	for a := range n.dog.Areas {
		area := &n.dog.Areas[a]
		if area.Dead == 0 {
			continue
		}
		low, high := 0.0, 0.0
		for t := range n.p.Weeks {
			high = math.Max(high, (area.Minutes-area.Loose)*(n.minute[t][area.Kind]+n.fill[t]))
		}
		if high == 0 {
			continue
		}
		at, least := 0.0, math.Inf(1)
		try := func(credit float64) (over float64) {
			n.credit[a] = credit
			over = -area.Dead
			n.reprice(n.nets[a], a)
			n.nets[a].Solve()
			for t := range n.p.Weeks {
				if n.asDead(a, t) {
					over += n.nets[a].Step(t)
				}
			}
			if v := credit*area.Dead - n.nets[a].Minimum(); v < least {
				at, least = credit, v
			}
			return over
		}
		if now := n.credit[a]; now > 0 && now < high {
			if try(now) > 0 {
				low = now
			} else {
				high = now
			}
		}
		for range creditSteps {
			if mid := (low + high) / 2; try(mid) > 0 {
				low = mid
			} else {
				high = mid
			}
		}
		n.credit[a] = at
		n.reprice(n.nets[a], a)
	}
}

// creditSteps is how many times an area's credit is halved.
const creditSteps = 6
