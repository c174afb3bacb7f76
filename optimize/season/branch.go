package season

import (
	"container/heap"
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// What a dog can be worth at given prices, from above: branch and bound over the sessions of the weeks. In a node every
// week has a least and a most number of sessions. Its relaxation lets the sessions be broken: their cost is a line
// below the true cost as a function of the minutes pulled and of the areas touched (levy.go), and a fill price keeps the
// minutes within what the sessions hold; any fill price and any levy give a valid value, good ones a low one.
type node struct {
	low, high []int
	fill      []float64
	parts     [][]float64 // of a session's cost, by payer and week (levy.go)
	value     float64
	split     int     // week to branch on, -1 when the relaxation is exact
	part      float64 // of a session that the relaxation takes in that week
}

func (x *node) clone() *node {
	y := *x
	y.low, y.high, y.fill, y.parts = slices.Clone(x.low), slices.Clone(x.high), slices.Clone(x.fill), cloned(x.parts)
	return &y
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

// line is the cost of a week's sessions from below: at a fill price of least and more, and with the levies of the week, the
// cost is at least base plus what is paid, less gain(price).
type line struct {
	base, least float64
	room        float64 // minutes that the sessions hold
	dear, more  float64 // from this fill price on they hold more
}

// gain is what the sessions are given for the room that they leave, points.
func (l line) gain(fill float64) float64 {
	return l.room*(math.Min(fill, l.dear)-l.least) + l.more*math.Max(0, fill-l.dear)
}

// roomAt is how many minutes the sessions hold at a fill price.
func (l line) roomAt(fill float64) float64 {
	if fill < l.dear {
		return l.room
	}
	return l.more
}

// line is that of week t with low to high sessions, of whose cost the areas pay the part levied.
func (n *dogNets) line(t, low, high int, levied float64) line {
	g := n.dog
	hold := g.clear(t)
	if high == 0 || hold <= 0 {
		return line{base: n.cost(t, 0)}
	}
	l := line{dear: math.Inf(1)}
	step := n.cost(t, low+1) - n.cost(t, low)
	switch {
	case low == high:
		l.base, l.room = n.cost(t, low), hold*float64(low)
	case step <= 0: // more sessions are no dearer: the cheapest number, with the room of the most
		l.base, l.room = n.cost(t, low), hold*float64(high)
		for z := low + 1; z <= high; z++ {
			l.base = math.Min(l.base, n.cost(t, z))
		}
	case low > 0:
		l.base, l.room = n.cost(t, low), hold*float64(low)
		l.dear, l.more = step/hold, hold*float64(high)
	default:
		l.base, l.least, l.room = n.cost(t, 0), (1-levied)*step/hold, hold
		l.dear, l.more = step/hold, hold*float64(high)
	}
	return l
}

// relax sets the nets to the node and works out its value and where to branch. It ends early when the value is down to
// the floor, and returns what the nets' answer takes.
func (n *dogNets) relax(x *node, lines []line, e effort, floor float64) uses {
	n.enter(x, lines)
	best := n.levy(x, lines, e, floor)
	now := n.relaxedValue(lines)
	for range e.sweeps {
		calm := true
		for t := range lines {
			if best <= floor || x.high[t] == 0 || n.stopped() {
				continue
			}
			over := n.work(t) - lines[t].roomAt(n.fill[t])
			if over > fillSlip || (over < -fillSlip && -over*(n.fill[t]-lines[t].least) > n.care) {
				before := n.fill[t]
				v := n.seekFill(t, lines[t], fillSearch{now: now, floor: math.Inf(-1), care: n.care, value: func() float64 { return n.relaxedValue(lines) }})
				if v > now {
					n.setFill(t, before)
					continue
				}
				calm = calm && v >= now-searchTol
				now = v
			}
		}
		best = math.Min(best, now)
		if calm {
			break
		}
	}
	x.value = best
	copy(x.fill, n.fill)
	u := n.uses()
	n.chooseBranch(x, lines, u)
	return u
}

// uses are what the nets' answer takes by week: minutes of work, and points of levies.
type uses struct{ work, levied []float64 }

func (n *dogNets) uses() uses {
	u := uses{make([]float64, n.p.Weeks), make([]float64, n.p.Weeks)}
	for t := range u.work {
		for a, net := range n.nets {
			if share := net.Step(t); share > 0 {
				u.work[t] += n.minutes(a, t)
				u.levied[t] += share * n.levied(a, t)
			}
		}
	}
	return u
}

// mixNode makes the value of a node exact to within tol where answers have to be mixed, and works out again where to branch.
// It returns the value of the mix when whole sessions hold it, which are then in sessions, else -Inf. clear
// gets the weeks of clearing that weigh most in it.
func (n *dogNets) mixNode(x *node, lines []line, tol float64, sessions, clear []int) float64 {
	f, a, ceiling := n.mixLines(lines, tol)
	x.value = math.Min(x.value, ceiling)
	copy(x.fill, n.fill)
	if a.X == nil {
		return math.Inf(-1)
	}
	u := f.uses(a)
	n.chooseBranch(x, lines, u)
	if x.split >= 0 {
		return math.Inf(-1)
	}
	for t, w := range u.work {
		sessions[t] = x.low[t]
		if w > fillSlip {
			sessions[t] = max(x.low[t], int(math.Ceil(w/n.dog.clear(t)-wholeSlip)))
		}
		if sessions[t] > x.high[t] {
			return math.Inf(-1)
		}
	}
	if clear != nil {
		f.heaviestWeeks(a, clear)
	}
	return a.Gain + f.base
}

// mixLines is the best mix of answers at the node's lines, to within tol points, and what none passes.
func (n *dogNets) mixLines(lines []line, tol float64) (f *areaMix, a lp.Answer, ceiling float64) {
	f = newAreaMix(n, lines, nil)
	if n.nodeMix != nil {
		f.carry(n.nodeMix)
	}
	n.nodeMix = f
	a, ceiling = f.generate(tol)
	return f, a, ceiling
}

// relaxedValue is the value of the relaxation at the present fill prices and levies.
func (n *dogNets) relaxedValue(lines []line) float64 {
	v := n.worth - n.areasCost()
	for t, l := range lines {
		v -= l.base
		if l.room > 0 {
			v += l.gain(n.fill[t])
		}
	}
	return v
}

// chooseBranch sets the week to branch on, -1 when whole sessions cost no more than broken ones anywhere: the week in which they
// save most, weighed with what branching on it brought so far.
func (n *dogNets) chooseBranch(x *node, lines []line, u uses) {
	most := 0.0
	x.split = -1
	usual := [2]float64{n.pseudoCosts[0].usual(), n.pseudoCosts[1].usual()}
	for t, l := range lines {
		low, high := x.low[t], x.high[t]
		if low == high {
			continue
		}
		work := u.work[t]
		need := int(math.Ceil(work/n.dog.clear(t) - 1e-9)) // whole sessions that the work takes
		if need <= low {
			continue
		}
		whole := n.cost(t, need)
		broken := l.base + l.least*work + u.levied[t]
		if low > 0 {
			broken = l.base + l.dear*math.Max(0, work-l.room)
		}
		saved := whole - broken
		if saved <= splitTol {
			continue
		}
		part := math.Min(math.Max(1-saved/(n.cost(t, low+1)-n.cost(t, low)), leastPart), 1-leastPart)
		fewer, more := part*n.pseudoCosts[0].week(t, usual[0]), (1-part)*n.pseudoCosts[1].week(t, usual[1])
		if score := saved * math.Sqrt(fewer*more); x.split < 0 || score > most {
			x.split, most, x.part = t, score, part
		}
	}
}

// pseudoCosts remember by week by how much branching on it lowered the value, a whole session at a time.
type pseudoCosts struct {
	sum   []float64
	times []int
}

// restart keeps what is known from other prices, as if it were known from a few times.
func (b *pseudoCosts) restart(weeks int) {
	if b.sum == nil {
		b.sum, b.times = make([]float64, weeks), make([]int, weeks)
	}
	for t, k := range b.times {
		if k > timesKept {
			b.sum[t] *= timesKept / float64(k)
			b.times[t] = timesKept
		}
	}
}

func (b *pseudoCosts) clone() pseudoCosts {
	return pseudoCosts{slices.Clone(b.sum), slices.Clone(b.times)}
}

func (b *pseudoCosts) note(t int, lowered float64) {
	b.sum[t] += math.Max(0, lowered)
	b.times[t]++
}

// usual is the mean of all weeks, a little more than nothing when nothing is known.
func (b *pseudoCosts) usual() float64 {
	var sum float64
	times := 0
	for t, k := range b.times {
		sum += b.sum[t]
		times += k
	}
	return math.Max(splitTol, sum/math.Max(1, float64(times)))
}

func (b *pseudoCosts) week(t int, usual float64) float64 {
	if b.times[t] == 0 {
		return usual
	}
	return math.Max(splitTol, b.sum[t]/float64(b.times[t]))
}

// splitTol is what broken sessions must save to be branched on, points.
const splitTol = 1e-6

// whole is what the dog reaches when the nets' answer, which takes so much, gets the whole sessions that it needs, and
// those sessions; false where the weeks don't have so many, and all that they have.
func (n *dogNets) whole(u uses, into []int) (value float64, ok bool) {
	value, ok = n.worth-n.areasCost()-n.holeGap(), true
	for t, work := range u.work {
		z := n.low[t]
		if work > 0 {
			z = max(z, int(math.Ceil(work/n.dog.clear(t)-wholeSlip)))
		}
		if z > n.high[t] {
			z, ok = n.high[t], false
		}
		into[t] = z
		value += n.fill[t]*work + u.levied[t] - n.cost(t, z)
	}
	return value, ok
}

// highest bounds the dog's value at the prices that its nets hold, by at most the given nodes and to within tol of a value
// that it reaches; columns that are known already reach theirs. It leaves the dog with the best sessions that it met.
func (n *dogNets) highest(known []*column, tol float64, most int) float64 {
	n.setHoles(n.openHoles)
	n.relaxDead(true)
	weeks := n.p.Weeks
	lines := make([]line, weeks)
	root := &node{low: slices.Clone(n.low), high: slices.Clone(n.high), fill: make([]float64, weeks), parts: n.firstParts()}
	n.care = math.Max(searchTol, carePart*tol)
	reached := math.Inf(-1)
	dived := math.Inf(-1)  // about what the sessions have that the dive left
	closed := math.Inf(-1) // highest value among nodes that need no branching
	sessions, best := make([]int, weeks), make([]int, weeks)
	clear := n.dog.clearings()
	for _, c := range known {
		if v := n.lagrangian(c); v > reached {
			reached = v
			copy(best, c.sessions)
			copy(clear, c.clear)
		}
	}
	mix := func(x *node, tol float64) {
		heaviest := slices.Clone(clear)
		if v := n.mixNode(x, lines, tol, sessions, heaviest); v > reached {
			reached = v
			if v > dived {
				copy(best, sessions)
				copy(clear, heaviest)
			}
		}
	}
	relax := func(x *node, e effort) {
		v, ok := n.whole(n.relax(x, lines, e, reached+tol), sessions)
		if ok && v > math.Max(reached, dived) || math.IsInf(reached, -1) && math.IsInf(dived, -1) { // nothing better is known yet
			copy(best, sessions)
			n.chosenWeeks(clear)
		}
		if ok {
			reached = math.Max(reached, v)
		}
		if x.split < 0 && x.value > reached+tol {
			mix(x, tol/2)
		}
		if x.split < 0 {
			closed = math.Max(closed, x.value)
		}
	}
	for side := range n.pseudoCosts {
		n.pseudoCosts[side].restart(weeks)
	}
	if n.parts == nil || most > rootNodes {
		relax(root, rootEffort)
	} else {
		relax(root, againEffort)
	}
	n.parts = root.parts
	if root.value > reached+tol && n.holed() {
		mix(root, math.Max(tol/2, mixTol))
		n.openHoles = n.holes
		if root.split < 0 {
			closed = math.Max(closed, root.value)
		}
	}
	if root.split >= 0 && root.value > reached+tol {
		dived = n.diveSessions(root, lines, best, clear, math.Max(tol, mixTol))
	}
	var queue nodes
	if root.split >= 0 {
		queue = nodes{root}
	}
	for count := 1; len(queue) > 0 && count < most && !n.stopped(); {
		x := queue[0]
		if x.value <= math.Max(reached+tol, closed) {
			break
		}
		heap.Pop(&queue)
		for side := range 2 {
			y := x.clone()
			if side == 0 {
				y.high[x.split] = x.low[x.split]
			} else {
				y.low[x.split]++
			}
			relax(y, childEffort)
			part := x.part
			if side == 1 {
				part = 1 - part
			}
			n.pseudoCosts[side].note(x.split, (x.value-y.value)/part)
			y.value = math.Min(y.value, x.value)
			if y.split >= 0 {
				heap.Push(&queue, y)
			}
			count++
		}
	}
	value := closed
	if len(queue) > 0 {
		value = math.Max(value, queue[0].value)
	}
	value += n.doubt()
	n.noLevies()
	n.relaxDead(false)
	n.setClearings(clear)
	for t, z := range best {
		n.setSessions(t, z)
		n.setFill(t, 0)
	}
	return value
}
