package season

import (
	"math"
	"slices"
)

// An area at given prices. With open weeks and prices fixed, one area asks for the curve Q (Q(-1) = 0) that
// minimises
//
//	sum_k c_k max(0, Q(i_k) - Q(j_k) - l_k) + sum_t price_t (Q(t) - Q(t-1))
//
// under 0 <= Q(t) - Q(t-1) <= most_t and the grip rule: bounds are charges with an infinite c. That is the
// linear-programming dual of a minimum-cost flow (an L-natural-convex function; Murota, Discrete Convex
// Analysis, SIAM 2003): node 0 is the ground Q(-1), node t+1 is Q(t), every charge is an arc i -> j of capacity c
// and cost l, and the node potentials of an optimal flow are the optimal curve. areaNet is a primal network
// simplex on it (strongly feasible trees, Cunningham 1976) in whole numbers, so that it can't cycle through
// rounding and its curve lies on the grid of its thresholds. It keeps its tree between solves: opening or
// closing a week changes the cost of one arc, a price change moves flow between two parallel arcs.

const (
	shareGrid = 1e6 // potentials and arc costs are in millionths of an area
	valueGrid = 1e9 // flows and capacities are in billionths of a point a share
	endless   = int64(1) << 60
)

// Where an arc stands.
const (
	arcLow  int8 = 1  // flow 0
	arcTree int8 = 0  // in the tree
	arcFull int8 = -1 // flow at capacity
)

type areaNet struct {
	weeks int
	nodes int32

	tail, head []int32
	cost       []int64
	room       []int64 // capacity
	flow       []int64
	state      []int8

	up    []int32 // arc of week t that forbids Q(t) < Q(t-1)
	down  []int32 // arc of week t that forbids Q(t) - Q(t-1) > most
	price []int64
	most  []int64 // of an open week
	open  []bool

	parent, pred, depth, first, next, prev []int32
	pot                                    []int64
	stack                                  []int32
	few                                    []int32 // arcs that paid when they were last looked at
	moved                                  []int32 // nodes whose potential changed since their arcs were looked at
	isMoved                                []bool
	around                                 [][]int32 // by node: the arcs that touch it

	charges []charge // float form of the capacitated arcs, in arc order from chargeBase
	total   wide     // of flow times cost
	least   float64  // minimum at the last solve
	slack   float64  // how far whole-number rounding can put the optimum off, points
	dirty   bool
}

// charge remembers which week and term an arc stands for.
type charge struct {
	arc   int32
	week  int
	slope float64
}

func onGrid(x, grid float64) int64 { return int64(math.Round(x * grid)) }

// newAreaNet builds the net of an area. All weeks start closed and all prices zero; value gives the points of
// the area's full readiness by week and may be changed later with setValue.
func newAreaNet(a *Area, weeks int) *areaNet {
	n := &areaNet{weeks: weeks, nodes: int32(weeks + 1)}
	n.up, n.down = make([]int32, weeks), make([]int32, weeks)
	n.price, n.most, n.open = make([]int64, weeks), make([]int64, weeks), make([]bool, weeks)
	node := func(t int) int32 { return int32(max(t, -1) + 1) }
	past := func(t, a2 int) float64 { return a.PastAt(t) - a.PastAt(t-a2) }
	for t := range weeks {
		n.most[t] = onGrid(a.Most[t], shareGrid)
		n.up[t] = n.addArc(node(t-1), node(t), 0, endless)
		n.down[t] = n.addArc(node(t), node(t-1), 0, endless)
		n.price[t] = 1
		if a.Grip > 0 {
			room := max(0, 1-past(t, a.Grip))
			n.addArc(node(t), node(t-a.Grip), onGrid(room, shareGrid), endless)
			n.off(room)
		}
	}
	for t := range weeks {
		for _, k := range a.Young {
			free := k.Allow - past(t, k.Weeks)
			n.addCharge(node(t), node(t-k.Weeks), free, t, k.Slope)
		}
		for _, k := range a.Old {
			free := k.Allow - 1 + past(t, k.Weeks)
			if t-k.Weeks < 0 && free >= 0 {
				continue // the ground is never above Q(t): no charge is possible
			}
			n.addCharge(node(t-k.Weeks), node(t), free, t, k.Slope)
		}
	}
	m := len(n.tail)
	n.flow, n.state = make([]int64, m), make([]int8, m)
	n.parent, n.pred, n.depth = make([]int32, n.nodes), make([]int32, n.nodes), make([]int32, n.nodes)
	n.first, n.next, n.prev = make([]int32, n.nodes), make([]int32, n.nodes), make([]int32, n.nodes)
	n.pot, n.stack = make([]int64, n.nodes), make([]int32, 0, n.nodes)
	n.few, n.moved = make([]int32, 0, m), make([]int32, 0, n.nodes)
	n.isMoved = make([]bool, n.nodes)
	n.around = make([][]int32, n.nodes)
	for k := range n.tail {
		n.around[n.tail[k]] = append(n.around[n.tail[k]], int32(k))
		n.around[n.head[k]] = append(n.around[n.head[k]], int32(k))
	}
	n.restart()
	return n
}

func (n *areaNet) addArc(i, j int32, cost, room int64) int32 {
	n.tail, n.head = append(n.tail, i), append(n.head, j)
	n.cost, n.room = append(n.cost, cost), append(n.room, room)
	return int32(len(n.tail) - 1)
}

func (n *areaNet) addCharge(i, j int32, free float64, week int, slope float64) {
	arc := n.addArc(i, j, onGrid(free, shareGrid), 0)
	n.charges = append(n.charges, charge{arc, week, slope})
	n.off(free)
}

// off books the rounding of a threshold that is not on the grid.
func (n *areaNet) off(x float64) {
	n.slack = math.Max(n.slack, math.Abs(x-float64(onGrid(x, shareGrid))/shareGrid))
}

// setValue sets what the area's full readiness is worth by week (points) and starts the net afresh.
func (n *areaNet) setValue(value []float64) {
	for _, c := range n.charges {
		n.room[c.arc] = max(0, onGrid(c.slope*value[c.week], valueGrid))
	}
	n.restart()
}

// restart returns to the tree of the weeks in a row, which is feasible at any prices.
func (n *areaNet) restart() {
	for k := range n.flow {
		n.flow[k], n.state[k] = 0, arcLow
	}
	for v := range n.nodes {
		n.first[v], n.next[v], n.prev[v] = -1, -1, -1
		n.pot[v], n.depth[v] = 0, v
		n.parent[v], n.pred[v] = v-1, -1
		if v > 0 {
			k := n.up[v-1]
			n.pred[v] = k
			n.state[k], n.flow[k] = arcTree, n.price[v-1]
			n.first[v-1] = v
		}
		n.move(v)
	}
	n.total = wide{} // the tree's arcs cost nothing
	n.dirty = true
}

// move notes that the reduced costs round a node have changed.
func (n *areaNet) move(v int32) {
	if !n.isMoved[v] {
		n.isMoved[v] = true
		n.moved = append(n.moved, v)
	}
}

// send changes the flow of one arc.
func (n *areaNet) send(k int32, d int64) {
	n.flow[k] += d
	n.total.add(d, n.cost[k])
}

// setPrice sets the price of pulling the whole area in week t, points.
func (n *areaNet) setPrice(t int, price float64) {
	p := onGrid(price, valueGrid)
	if p < 1 {
		p = 1 // keeps the first tree strongly feasible; booked in the slack
	}
	d := p - n.price[t]
	if d == 0 {
		return
	}
	n.price[t] = p
	n.dirty = true
	u, w := n.up[t], n.down[t]
	switch {
	case n.state[u] == arcTree:
		n.send(u, d)
		if n.flow[u] < 0 {
			n.swap(u, w)
		}
	case n.state[w] == arcTree:
		n.send(w, -d)
		if n.flow[w] < 0 {
			n.swap(w, u)
		}
	case d > 0:
		n.send(u, d)
		n.pivot(u, false)
	default:
		n.send(w, -d)
		n.pivot(w, false)
	}
}

// swap puts arc b in the tree for its antiparallel twin a, whose flow has gone negative.
func (n *areaNet) swap(a, b int32) {
	f := n.flow[a]
	n.send(b, -f)
	n.send(a, -f)
	n.state[b], n.state[a] = arcTree, arcLow
	v := n.child(a)
	n.pred[v] = b
	n.shift(v, b)
}

// child is the lower end of a tree arc.
func (n *areaNet) child(k int32) int32 {
	if v := n.tail[k]; v > 0 && n.pred[v] == k {
		return v
	}
	return n.head[k]
}

// setOpen opens or closes week t.
func (n *areaNet) setOpen(t int, open bool) {
	if n.open[t] == open {
		return
	}
	n.open[t] = open
	k := n.down[t]
	before := n.cost[k]
	if open {
		n.cost[k] = n.most[t]
	} else {
		n.cost[k] = 0
	}
	n.total.add(n.flow[k], n.cost[k]-before)
	n.dirty = true
	if n.state[k] == arcTree {
		n.shift(n.child(k), k)
	} else {
		n.move(n.tail[k])
	}
}

// shift restores potential(tail) - potential(head) = cost on the tree arc k above node v.
func (n *areaNet) shift(v, k int32) {
	d := n.cost[k] - n.pot[n.tail[k]] + n.pot[n.head[k]]
	if n.head[k] == v {
		d = -d
	}
	if d != 0 {
		n.drop(v, d)
	}
}

// drop adds d to the potentials of the subtree of v and sets its depths.
func (n *areaNet) drop(v int32, d int64) {
	n.stack = append(n.stack[:0], v)
	for len(n.stack) > 0 {
		v = n.stack[len(n.stack)-1]
		n.stack = n.stack[:len(n.stack)-1]
		if d != 0 {
			n.pot[v] += d
			n.move(v)
		}
		n.depth[v] = n.depth[n.parent[v]] + 1
		for c := n.first[v]; c >= 0; c = n.next[c] {
			n.stack = append(n.stack, c)
		}
	}
}

// solve brings the net to its optimum at the present prices, open weeks and values.
func (n *areaNet) solve() {
	if !n.dirty {
		return
	}
	limit := 200 * len(n.tail)
	for round := 0; ; round++ {
		if round == limit { // a warm tree need not be strongly feasible; the row of weeks is
			n.restart()
		}
		k := n.entering()
		if k < 0 {
			break
		}
		n.pivot(k, n.state[k] == arcLow)
	}
	n.dirty = false
	n.least = n.dual()
}

// entering is an arc whose flow pays to change, or -1 at the optimum: the one that pays most among those that paid when
// they were last looked at, as long as one of them still does. Then the arcs are looked at whose ends have moved since;
// all others are as they were.
func (n *areaNet) entering() int32 {
	best, at := int64(0), int32(-1)
	for _, k := range n.few {
		if r := n.pay(k); r < best {
			best, at = r, k
		}
	}
	if at >= 0 {
		return at
	}
	n.few = n.few[:0]
	if 2*len(n.moved) >= len(n.pot) {
		at = n.lookAtAll()
	} else {
		for _, v := range n.moved {
			for _, k := range n.around[v] {
				if r := n.pay(k); r < 0 && n.room[k] > 0 {
					n.few = append(n.few, k)
					if r < best {
						best, at = r, k
					}
				}
			}
		}
	}
	for _, v := range n.moved {
		n.isMoved[v] = false
	}
	n.moved = n.moved[:0]
	return at
}

// lookAtAll notes all arcs that pay and tells the one that pays most.
func (n *areaNet) lookAtAll() int32 {
	best, at := int64(0), int32(-1)
	state, pot := n.state, n.pot
	tail, head, cost := n.tail[:len(state)], n.head[:len(state)], n.cost[:len(state)]
	for k, s := range state {
		if s == arcTree {
			continue
		}
		r := cost[k] - pot[tail[k]] + pot[head[k]]
		if s == arcFull {
			r = -r
		}
		if r < 0 && n.room[k] > 0 {
			n.few = append(n.few, int32(k))
			if r < best {
				best, at = r, int32(k)
			}
		}
	}
	return at
}

// pay is the reduced cost of changing arc k's flow the way that its state allows; an arc in the tree has none.
func (n *areaNet) pay(k int32) int64 {
	return int64(n.state[k]) * (n.cost[k] - n.pot[n.tail[k]] + n.pot[n.head[k]])
}

// pivot sends as much flow as goes round the cycle that arc k closes with the tree: more along k if raise, else
// less. What blocks leaves the tree.
func (n *areaNet) pivot(k int32, raise bool) {
	from, to := n.tail[k], n.head[k] // flow comes down the tree to from, crosses k, goes up from to
	most := n.room[k] - n.flow[k]
	if !raise {
		from, to = to, from
		most = n.flow[k]
	}
	join := n.join(from, to)
	leave, onFrom := int32(-1), false
	for v := from; v != join; v = n.parent[v] {
		a := n.pred[v]
		room := n.room[a] - n.flow[a]
		if n.tail[a] == v {
			room = n.flow[a]
		}
		if room < most {
			most, leave, onFrom = room, v, true
		}
	}
	for v := to; v != join; v = n.parent[v] {
		a := n.pred[v]
		room := n.flow[a]
		if n.tail[a] == v {
			room = n.room[a] - n.flow[a]
		}
		if room <= most {
			most, leave, onFrom = room, v, false
		}
	}
	if most > 0 {
		n.push(k, raise, from, to, join, most)
	}
	if leave < 0 {
		n.settle(k)
		return
	}
	n.settle(n.pred[leave])
	n.state[k] = arcTree
	root, above := to, from
	if onFrom {
		root, above = from, to
	}
	n.hang(root, above, k, leave)
}

// settle marks an arc out of the tree by the bound that it stands at.
func (n *areaNet) settle(k int32) {
	n.state[k] = arcLow
	if n.flow[k] > 0 {
		n.state[k] = arcFull
	}
}

func (n *areaNet) join(a, b int32) int32 {
	for a != b {
		if n.depth[a] < n.depth[b] {
			b = n.parent[b]
		} else {
			a = n.parent[a]
		}
	}
	return a
}

// push moves the amount round the cycle of arc k.
func (n *areaNet) push(k int32, raise bool, from, to, join int32, amount int64) {
	round := n.cost[k] - n.pot[n.tail[k]] + n.pot[n.head[k]] // what a unit costs all the way round
	if raise {
		n.flow[k] += amount
		n.total.add(amount, round)
	} else {
		n.flow[k] -= amount
		n.total.add(-amount, round)
	}
	for v := from; v != join; v = n.parent[v] {
		if a := n.pred[v]; n.tail[a] == v {
			n.flow[a] -= amount
		} else {
			n.flow[a] += amount
		}
	}
	for v := to; v != join; v = n.parent[v] {
		if a := n.pred[v]; n.tail[a] == v {
			n.flow[a] += amount
		} else {
			n.flow[a] -= amount
		}
	}
}

// hang cuts the subtree below leave's arc, roots it at root and hangs it under above by arc k.
func (n *areaNet) hang(root, above, k, leave int32) {
	v, parent, pred := root, above, k
	for {
		oldParent, oldPred := n.parent[v], n.pred[v]
		n.unlink(v)
		n.parent[v], n.pred[v] = parent, pred
		n.next[v], n.prev[v] = n.first[parent], -1
		if n.first[parent] >= 0 {
			n.prev[n.first[parent]] = v
		}
		n.first[parent] = v
		if v == leave {
			break
		}
		v, parent, pred = oldParent, v, oldPred
	}
	d := n.cost[k] - n.pot[n.tail[k]] + n.pot[n.head[k]]
	if n.head[k] == root {
		d = -d
	}
	n.drop(root, d)
}

func (n *areaNet) unlink(v int32) {
	if n.prev[v] >= 0 {
		n.next[n.prev[v]] = n.next[v]
	} else {
		n.first[n.parent[v]] = n.next[v]
	}
	if n.next[v] >= 0 {
		n.prev[n.next[v]] = n.prev[v]
	}
}

// minimum is the least cost, points: what the charges and the priced minutes take. Valid after solve.
func (n *areaNet) minimum() float64 { return n.least }

// dual is the cost of the flow, which at the optimum is the least cost.
func (n *areaNet) dual() float64 { return -n.total.float() / (shareGrid * valueGrid) }

// doubt bounds how far minimum can be from the optimum of the unrounded numbers, points.
func (n *areaNet) doubt() float64 {
	var rooms float64
	for _, c := range n.charges {
		rooms += float64(n.room[c.arc])
	}
	rounding := float64(len(n.charges)+4*n.weeks) / valueGrid
	return rounding + 2*n.slack*rooms/valueGrid
}

// pulled is the share pulled in week t. Valid after solve.
func (n *areaNet) pulled(t int) float64 {
	return float64(n.pot[t+1]-n.pot[t]) / shareGrid
}

// clone copies the net; what never changes is shared.
func (n *areaNet) clone() *areaNet {
	c := *n
	for _, s := range []*[]int64{&c.cost, &c.flow, &c.price, &c.pot} {
		*s = slices.Clone(*s)
	}
	for _, s := range []*[]int32{&c.parent, &c.pred, &c.depth, &c.first, &c.next, &c.prev} {
		*s = slices.Clone(*s)
	}
	c.state, c.open, c.stack = slices.Clone(n.state), slices.Clone(n.open), nil
	c.few, c.moved, c.isMoved = nil, slices.Clone(n.moved), slices.Clone(n.isMoved)
	return &c
}

// copyFrom brings the net to where its clone is; their values (setValue) must be the same.
func (n *areaNet) copyFrom(c *areaNet) {
	copy(n.cost, c.cost)
	copy(n.flow, c.flow)
	copy(n.price, c.price)
	copy(n.pot, c.pot)
	copy(n.parent, c.parent)
	copy(n.pred, c.pred)
	copy(n.depth, c.depth)
	copy(n.first, c.first)
	copy(n.next, c.next)
	copy(n.prev, c.prev)
	copy(n.state, c.state)
	copy(n.open, c.open)
	n.total, n.dirty, n.least = c.total, c.dirty, c.least
	n.moved = append(n.moved[:0], c.moved...)
	copy(n.isMoved, c.isMoved)
}
