package season

import (
	"math"

	"tuckup/optimize/flow"
)

// For the bound no week of clearing is decided: at given prices of minutes, levies and parts of holes the areas are apart, so
// that each may be cleared by the week that is best for it, and a mix of such seasons is bounded too. Every week has a net of
// its own. Weeks are gathered into windows, whose nets are worth at least as much as any of their weeks: most weeks are never
// asked, because their window, or their own answer at earlier prices, says that they can't be the best.

// windowWeeks is how many weeks of clearing a window gathers.
const windowWeeks = 4

// window is an area cleared by the end of one of the weeks from..to; the week after the season is never.
type window struct {
	from, to int
	parts    []*window // its weeks; nil of a single one
	reach    []float64 // by week: the largest share
	net      *flow.Net // nil while it was not needed
	plan     *flow.Net // of a single week: the area's net when that is decided; nil while it was not needed
	values   int       // which values the net holds

	known        bool // whether it was solved
	least        float64
	leastValues  int // the least is for these values, open weeks, minutes' prices and levies
	open         []bool
	minute, levy []float64
}

// newWindows are the windows of one of the dog's areas.
func (n *dogNets) newWindows(a int) (all []*window) {
	area := &n.dog.Areas[a]
	add := func(in []*window, from, to int) []*window {
		w := &window{from: from, to: to, reach: make([]float64, n.p.Weeks)}
		for t := range w.reach {
			w.reach[t] = area.reachBy(t, from, to)
		}
		return append(in, w)
	}
	for from := 0; from < n.p.Weeks; from += windowWeeks {
		var parts []*window
		for t := from; t < min(from+windowWeeks, n.p.Weeks); t++ {
			if area.living(t) > 0 && n.dog.canOpen(t) {
				parts = add(parts, t, t)
			}
		}
		switch len(parts) {
		case 0:
		case 1:
			all = append(all, parts[0])
		default:
			all = add(all, parts[0].from, parts[len(parts)-1].to)
			all[len(all)-1].parts = parts
		}
	}
	return add(all, n.p.Weeks, n.p.Weeks)
}

// singleWindow is the window of one week; nil where there is none.
func (n *dogNets) singleWindow(a, week int) *window {
	for _, w := range n.windows[a] {
		if week < w.from || week > w.to {
			continue
		}
		if w.parts == nil {
			return w
		}
		for _, x := range w.parts {
			if x.from == week {
				return x
			}
		}
	}
	return nil
}

// needWindows makes an area's windows, and chooses one to begin with.
func (n *dogNets) needWindows(a int) {
	if n.windows[a] == nil {
		n.windows[a] = n.newWindows(a)
	}
	if n.chosen[a] == nil {
		if n.chosen[a] = n.singleWindow(a, n.dog.Areas[a].cleared-1); n.chosen[a] == nil {
			n.chosen[a] = n.windows[a][len(n.windows[a])-1]
		}
	}
}

// windowNet is a window's net, made when it is needed first.
func (n *dogNets) windowNet(a int, w *window) *flow.Net {
	if w.net == nil {
		area := n.dog.Areas[a]
		area.cleared = 1 + w.from
		w.net, w.values = newWindowNet(&area, n.p.Weeks, w.from, w.to), -1
	}
	return w.net
}

// solveArea brings an area's net to its optimum; while no week of clearing is decided it is the net of the best week.
func (n *dogNets) solveArea(a int) {
	if !n.relaxed || n.dog.Areas[a].Dead == 0 {
		n.nets[a].Solve()
		return
	}
	if !n.stale[a] {
		return
	}
	n.stale[a] = false
	best := n.solveWindow(a, n.chosen[a])
	if n.frozen {
		return
	}
	try := func(w *window, least float64) {
		if w == n.chosen[a] || math.Max(least, n.leastOf(a, w)) >= best {
			return
		}
		if v := n.solveWindow(a, w); v < best {
			best, n.chosen[a] = v, w
		}
	}
	for _, w := range n.windows[a] {
		if w.parts == nil {
			try(w, math.Inf(-1))
			continue
		}
		least := n.leastOf(a, w)
		if least < best {
			least = n.solveWindow(a, w)
		}
		for _, x := range w.parts {
			try(x, least)
		}
	}
	n.nets[a] = n.chosen[a].net
}

// solveWindow brings a window's net to the present prices and its optimum, and remembers what it takes.
func (n *dogNets) solveWindow(a int, w *window) float64 {
	net := n.windowNet(a, w)
	if w.values != n.values {
		net.SetValue(n.areaValues(a))
		w.values = n.values
	}
	if w.open == nil {
		w.open, w.minute, w.levy = make([]bool, n.p.Weeks), make([]float64, n.p.Weeks), make([]float64, n.p.Weeks)
	}
	for t, z := range n.sessions {
		w.open[t], w.minute[t], w.levy[t] = z > 0, n.minutePrice(a, t), n.levies[a][t]
		net.SetOpen(t, w.open[t])
		net.SetPrice(t, n.windowPrice(a, w, t, w.minute[t], w.levy[t]))
	}
	if w.to < n.p.Weeks {
		net.SetCharge(0, n.livingPrice(a, w, w.minute))
	}
	net.Solve()
	w.known, w.least, w.leastValues = true, net.Minimum(), n.values
	return w.least
}

// minutePrice is what a minute of an area costs in week t.
func (n *dogNets) minutePrice(a, t int) float64 { return n.minute[t][n.dog.Areas[a].Kind] + n.fill[t] }

// windowPrice is the price of a share in week t; in the window's own weeks it is that of dead hair.
func (n *dogNets) windowPrice(a int, w *window, t int, minute, levy float64) float64 {
	area := &n.dog.Areas[a]
	price := area.Minutes * minute
	if t <= w.to {
		price = area.Loose * minute
	}
	if w.reach[t] > 0 {
		price += levy / w.reach[t]
	}
	return price
}

// livingPrice is what living hair that is pulled in the window's weeks costs beyond dead hair, at least.
func (n *dogNets) livingPrice(a int, w *window, minute []float64) float64 {
	area, least := &n.dog.Areas[a], math.Inf(1)
	for t := w.from; t <= w.to; t++ {
		if area.Most[t] > 0 {
			least = math.Min(least, minute[t])
		}
	}
	return (area.Minutes - area.Loose) * least
}

// leastOf is what a window takes at least at the present prices, by what it took at others: a fall of a week's price saves no more
// than the largest share at that price. Nothing is known once values have changed, or weeks are open that were not.
func (n *dogNets) leastOf(a int, w *window) float64 {
	if !w.known || w.leastValues != n.values {
		return math.Inf(-1)
	}
	area := &n.dog.Areas[a]
	var saved, dead, living float64
	for t, z := range n.sessions {
		if z <= 0 {
			continue
		}
		if !w.open[t] {
			return math.Inf(-1)
		}
		minute := n.minutePrice(a, t)
		fall := n.windowPrice(a, w, t, w.minute[t], w.levy[t]) - n.windowPrice(a, w, t, minute, n.levies[a][t])
		switch {
		case fall <= 0:
		case t < w.from:
			dead = math.Max(dead, fall)
		default:
			saved += fall * w.reach[t]
		}
		if t >= w.from && t <= w.to {
			living += area.living(t)
		}
	}
	saved += dead * area.Dead
	if w.to < n.p.Weeks {
		now := math.Inf(1)
		for t := w.from; t <= w.to; t++ {
			if area.Most[t] > 0 {
				now = math.Min(now, n.minutePrice(a, t))
			}
		}
		saved += living * math.Max(0, n.livingPrice(a, w, w.minute)-(area.Minutes-area.Loose)*now)
	}
	return w.least - saved
}

// chosenWeeks are the weeks of clearing of the areas' nets in use, as areas hold them; nil where the dog has no dead hair.
func (n *dogNets) chosenWeeks(into []int) {
	for a := range into {
		if n.dog.Areas[a].Dead > 0 {
			into[a] = 1 + n.chosen[a].from
		}
	}
}

// relaxDead leaves weeks of clearing open, or has them decided again.
func (n *dogNets) relaxDead(on bool) {
	if n.relaxed == on {
		return
	}
	n.relaxed = on
	for a := range n.dog.Areas {
		if n.dog.Areas[a].Dead == 0 {
			continue
		}
		if on {
			n.needWindows(a)
			n.nets[a], n.stale[a] = n.windowNet(a, n.chosen[a]), true
		} else {
			n.nets[a] = n.plans[a]
			n.bring(n.plans[a], a)
		}
	}
}

// bring brings an area's net to the dog's sessions and prices.
func (n *dogNets) bring(net *flow.Net, a int) {
	for t := range n.sessions {
		net.SetOpen(t, n.touches(a, t))
	}
	for t := range n.minute {
		n.setPrice(a, t)
	}
}

// setPrice sets what an area pays in week t.
func (n *dogNets) setPrice(a, t int) {
	area := &n.dog.Areas[a]
	if n.relaxed && area.Dead > 0 {
		n.stale[a] = true
		return
	}
	minute, net := n.minutePrice(a, t), n.nets[a]
	price := area.Minutes * minute
	if week, decided := area.clearing(); decided && t <= week {
		price = area.Loose * minute
		if t == week {
			net.SetCharge(0, (area.Minutes-area.Loose)*minute)
		}
	}
	if levy := n.levies[a][t]; levy > 0 {
		price += levy / area.living(t)
	}
	net.SetPrice(t, price)
}

// levied is what a unit share of an area pays of a session's cost in week t.
func (n *dogNets) levied(a, t int) float64 {
	levy := n.levies[a][t]
	if levy == 0 {
		return 0
	}
	return levy / n.reach(a, t)
}

// weekOf is the week by whose end the net in use has the area cleared; none is -1.
func (n *dogNets) weekOf(a int) int {
	if n.relaxed && n.dog.Areas[a].Dead > 0 {
		return n.chosen[a].from
	}
	if week, decided := n.dog.Areas[a].clearing(); decided {
		return week
	}
	return -1
}

// minutes are those that the net's answer takes of an area in week t.
func (n *dogNets) minutes(a, t int) float64 {
	area, share := &n.dog.Areas[a], n.nets[a].Step(t)
	switch week := n.weekOf(a); {
	case share <= 0 || t > week:
		return area.Minutes * share
	case t < week:
		return area.Loose * share
	}
	return area.Loose*share + (area.Minutes-area.Loose)*math.Max(0, n.nets[a].Curve(t)-area.Dead)
}

// reach is the largest share of an area that the net in use pulls in week t.
func (n *dogNets) reach(a, t int) float64 {
	if n.relaxed && n.dog.Areas[a].Dead > 0 {
		return n.chosen[a].reach[t]
	}
	return n.dog.Areas[a].reach(t)
}

// doubt is by how much whole-number rounding can have the areas' values wrong, points.
func (n *dogNets) doubt() (sum float64) {
	for a, net := range n.nets {
		most := net.Doubt()
		for _, w := range n.windows[a] {
			if w.net != nil {
				most = math.Max(most, w.net.Doubt())
			}
		}
		sum += most
	}
	return sum
}
