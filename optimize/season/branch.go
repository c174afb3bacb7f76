package season

import (
	"container/heap"
	"math"
	"slices"
)

// What a dog can be worth at given prices, from above: branch and bound over the sessions of the weeks. In a node every
// week has a least and a most number of sessions. Its relaxation lets the sessions be broken: their cost is a line
// below the true cost as a function of the minutes pulled, and a fill price keeps the minutes within what the sessions
// hold; any fill price gives a valid value, good ones a low one.
type node struct {
	low, high []int
	fill      []float64
	value     float64
	split     int // week to branch on, -1 when the relaxation is exact
}

// nodes is a heap, the highest value first.
type nodes []*node

func (h nodes) Len() int           { return len(h) }
func (h nodes) Less(i, j int) bool { return h[i].value > h[j].value }
func (h nodes) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *nodes) Push(x any)        { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// line is the cost of a week's sessions from below, as a function of the minutes pulled: for every fill price in
// least..most it is at least base + price·minutes - (price - least)·room.
type line struct{ base, least, most, room float64 }

// line is that of week t with low to high sessions.
func (n *dogNets) line(t, low, high int) line {
	g := n.dog
	if high == 0 || g.clear(t) <= 0 {
		return line{base: n.cost(t, 0)}
	}
	step := n.cost(t, low+1) - n.cost(t, low)
	switch {
	case low == high:
		return line{base: n.cost(t, low), most: math.Inf(1), room: g.clear(t) * float64(low)}
	case step <= 0: // more sessions are no dearer: the cheapest number, with the room of the most
		base := n.cost(t, low)
		for z := low + 1; z <= high; z++ {
			base = math.Min(base, n.cost(t, z))
		}
		return line{base: base, most: math.Inf(1), room: g.clear(t) * float64(high)}
	case low > 0:
		return line{base: n.cost(t, low), most: step / g.clear(t), room: g.clear(t) * float64(low)}
	}
	var pullable float64
	for a := range g.Areas {
		pullable += g.Areas[a].Minutes * g.Areas[a].Most[t]
	}
	hold := math.Min(pullable, g.clear(t))
	if hold <= 0 {
		return line{base: n.cost(t, 0), most: math.Inf(1)}
	}
	return line{base: n.cost(t, 0), least: step / hold, most: math.Inf(1), room: g.clear(t) * float64(high)}
}

// relax sets the nets to the node and works out its value and where to branch.
func (n *dogNets) relax(x *node, lines []line) {
	for t := range lines {
		lines[t] = n.line(t, x.low[t], x.high[t])
		n.setSessions(t, min(x.high[t], 1))
		x.fill[t] = math.Min(math.Max(x.fill[t], lines[t].least), lines[t].most)
		if x.high[t] == 0 {
			x.fill[t] = 0
		}
		n.setFill(t, x.fill[t])
	}
	best := n.relaxedValue(lines)
	for range relaxSweeps {
		calm := true
		for t := range lines {
			if x.high[t] == 0 {
				continue
			}
			over := n.work(t) - lines[t].room
			if (over > fillSlip && n.fill[t] < lines[t].most) || (over < -fillSlip && n.fill[t] > lines[t].least) {
				before := n.fill[t]
				v := n.settleFill(t, lines)
				if v < best-searchTol {
					best, calm = v, false
				} else if v > best {
					n.setFill(t, before)
				}
			}
		}
		if calm {
			break
		}
	}
	x.value = n.relaxedValue(lines)
	for t := range lines {
		x.fill[t] = n.fill[t]
	}
	x.split = n.split(x, lines)
}

// relaxedValue is the value of the relaxation at the present fill prices.
func (n *dogNets) relaxedValue(lines []line) float64 {
	v := n.worth - n.areasCost()
	for t, l := range lines {
		v -= l.base
		if l.room > 0 {
			v += (n.fill[t] - l.least) * l.room
		}
	}
	return v
}

// settleFill looks for the fill price of week t with the least value, and returns that.
func (n *dogNets) settleFill(t int, lines []line) float64 {
	l := lines[t]
	low, high := l.least, l.most
	now := n.fill[t]
	if n.work(t) > l.room {
		low = now
	} else {
		high = now
	}
	if math.IsInf(high, 1) {
		high = math.Max(2*low, low+n.guess(t))
		for range 30 {
			n.setFill(t, high)
			n.areasCost()
			if n.work(t) <= l.room+fillSlip {
				break
			}
			low, high = high, 2*high
		}
	}
	best, at := math.Inf(1), now
	for range fillHalves {
		mid := (low + high) / 2
		n.setFill(t, mid)
		if v := n.relaxedValue(lines); v < best {
			best, at = v, mid
		}
		switch work := n.work(t); {
		case work > l.room+fillSlip:
			low = mid
		case work < l.room-fillSlip:
			high = mid
		default:
			low, high = mid, mid
		}
		if low == high {
			break
		}
	}
	for _, end := range [2]float64{l.least, l.most} { // the ends of what is allowed may be best
		if (end == low || end == high) && !math.IsInf(end, 1) {
			n.setFill(t, end)
			if v := n.relaxedValue(lines); v < best {
				best, at = v, end
			}
		}
	}
	n.setFill(t, at)
	return n.relaxedValue(lines)
}

// split is the week in which broken sessions save most, -1 when none does.
func (n *dogNets) split(x *node, lines []line) int {
	at, most := -1, splitTol
	for t, l := range lines {
		low, high := x.low[t], x.high[t]
		if low == high {
			continue
		}
		work := n.work(t)
		need := int(math.Ceil(work/n.dog.clear(t) - 1e-9)) // whole sessions that the work takes
		if need <= low {
			continue
		}
		whole := n.cost(t, need)
		broken := l.base + l.least*work
		if low > 0 {
			broken = l.base + l.most*math.Max(0, work-l.room)
		}
		if saved := whole - broken; saved > most {
			at, most = t, saved
		}
	}
	return at
}

const (
	splitTol    = 1e-6 // points that broken sessions must save to be branched on
	relaxSweeps = 2    // sweeps over the fill prices of a node
)

// whole is what the dog reaches when the work of the present relaxation gets the whole sessions that it takes, and
// those sessions; false where the weeks don't have so many.
func (n *dogNets) whole(into []int) (float64, bool) {
	v := n.worth - n.areasCost()
	for t := range into {
		work := n.work(t)
		z := 0
		if work > 0 {
			z = int(math.Ceil(work/n.dog.clear(t) - wholeSlip))
		}
		if z > n.dog.Most[t] {
			return 0, false
		}
		into[t] = z
		v += n.fill[t]*work - n.cost(t, z)
	}
	return v, true
}

// wholeSlip is the part of a session by which work may pass whole sessions and still count as held by them; fit makes
// it so.
const wholeSlip = 0.01

// highest bounds the dog's value at the prices that its nets hold, by at most so many nodes and to within tol of a value
// that it reaches. It leaves the dog with the best sessions that it met.
func (n *dogNets) highest(tol float64, most int) float64 {
	weeks := n.p.Weeks
	lines := make([]line, weeks)
	root := &node{low: make([]int, weeks), high: make([]int, weeks), fill: make([]float64, weeks)}
	for t := range weeks {
		if n.dog.canOpen(t) {
			root.high[t] = n.dog.Most[t]
		}
	}
	reached := math.Inf(-1)
	sessions, best := make([]int, weeks), make([]int, weeks)
	relax := func(x *node) {
		n.relax(x, lines)
		if v, ok := n.whole(sessions); ok && v > reached {
			reached = v
			copy(best, sessions)
		}
	}
	relax(root)
	open := nodes{root}
	closed := math.Inf(-1) // highest value among nodes that need no branching
	for count := 1; len(open) > 0 && count < most; {
		x := open[0]
		if x.value <= math.Max(reached+tol, closed) {
			break
		}
		heap.Pop(&open)
		if x.split < 0 {
			closed = math.Max(closed, x.value)
			continue
		}
		for side := range 2 {
			y := &node{low: slices.Clone(x.low), high: slices.Clone(x.high), fill: slices.Clone(x.fill)}
			if side == 0 {
				y.high[x.split] = x.low[x.split]
			} else {
				y.low[x.split]++
			}
			relax(y)
			y.value = math.Min(y.value, x.value)
			heap.Push(&open, y)
			count++
		}
	}
	value := closed
	if len(open) > 0 {
		value = math.Max(value, open[0].value)
	}
	for _, net := range n.nets {
		value += net.doubt()
	}
	for t, z := range best {
		n.setSessions(t, z)
		n.setFill(t, 0)
	}
	return value
}
