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
	split     int     // week to branch on, -1 when the relaxation is exact
	part      float64 // of a session that the relaxation takes in that week
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
func (n *dogNets) relax(x *node, lines []line, sweeps int) {
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
	for range sweeps {
		calm := true
		for t := range lines {
			if x.high[t] == 0 || n.stopped() {
				continue
			}
			over := n.work(t) - lines[t].room
			if (over > fillSlip && n.fill[t] < lines[t].most) || (over < -fillSlip && -over*(n.fill[t]-lines[t].least) > n.care) {
				before := n.fill[t]
				v := n.settle(t, lines[t], fillAsk{now: best, floor: math.Inf(-1), care: n.care, value: func() float64 { return n.relaxedValue(lines) }})
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

// split is the week to branch on, -1 when whole sessions cost no more than broken ones anywhere: the week in which they
// save most, weighed with what branching on it brought so far.
func (n *dogNets) split(x *node, lines []line) int {
	at, most := -1, 0.0
	usual := [2]float64{n.brought[0].usual(), n.brought[1].usual()}
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
		saved := whole - broken
		if saved <= splitTol {
			continue
		}
		part := math.Min(math.Max(1-saved/(n.cost(t, low+1)-n.cost(t, low)), leastPart), 1-leastPart)
		fewer, more := part*n.brought[0].week(t, usual[0]), (1-part)*n.brought[1].week(t, usual[1])
		if score := saved * math.Sqrt(fewer*more); at < 0 || score > most {
			at, most, x.part = t, score, part
		}
	}
	return at
}

// brought remembers by week by how much branching on it lowered the value, a whole session at a time (pseudo-costs).
type brought struct {
	sum   []float64
	times []int
}

func (b *brought) restart(weeks int) { b.sum, b.times = make([]float64, weeks), make([]int, weeks) }

func (b *brought) note(t int, lowered float64) {
	b.sum[t] += math.Max(0, lowered)
	b.times[t]++
}

// usual is the mean of all weeks, a little more than nothing when nothing is known.
func (b *brought) usual() float64 {
	var sum float64
	times := 0
	for t, k := range b.times {
		sum += b.sum[t]
		times += k
	}
	return math.Max(splitTol, sum/math.Max(1, float64(times)))
}

func (b *brought) week(t int, usual float64) float64 {
	if b.times[t] == 0 {
		return usual
	}
	return math.Max(splitTol, b.sum[t]/float64(b.times[t]))
}

const (
	splitTol    = 1e-6 // points that broken sessions must save to be branched on
	rootSweeps  = 30   // sweeps over the fill prices of the first node, at the most
	relaxSweeps = 1    // .. of those that take over a node's prices
	care        = 0.5  // of the tolerance: what a fill price may leave on the table
	leastPart   = 0.02 // of a session: parts nearer to none or all count as so much
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
	n.care = math.Max(searchTol, care*tol)
	reached := math.Inf(-1)
	sessions, best := make([]int, weeks), make([]int, weeks)
	relax := func(x *node, sweeps int) {
		n.relax(x, lines, sweeps)
		if v, ok := n.whole(sessions); ok && v > reached {
			reached = v
			copy(best, sessions)
		}
	}
	for side := range n.brought {
		n.brought[side].restart(weeks)
	}
	relax(root, rootSweeps)
	open := nodes{root}
	closed := math.Inf(-1) // highest value among nodes that need no branching
	for count := 1; len(open) > 0 && count < most && !n.stopped(); {
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
			relax(y, relaxSweeps)
			part := x.part
			if side == 1 {
				part = 1 - part
			}
			n.brought[side].note(x.split, (x.value-y.value)/part)
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
