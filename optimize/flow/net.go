// Package flow finds the curve with the least charges on its differences: the price of a step, and what lies beyond allowances
// between two places of the curve. It is numbers only.
package flow

import (
	"math"
	"slices"
)

const (
	shareGrid = 1e6 // potentials and arc costs are in millionths of a unit
	valueGrid = 1e9 // flows and capacities are in billionths of a point a unit
	endless   = int64(1) << 60
)

// Where an arc stands.
const (
	arcLow  int64 = 1  // flow 0
	arcTree int64 = 0  // in the tree
	arcFull int64 = -1 // flow at capacity
)

// Net asks for the curve Q (Q(-1) = 0) over the steps 0..n-1 that minimises
//
//	sum_k c_k max(0, Q(i_k) - Q(j_k) - l_k) + sum_t price_t (Q(t) - Q(t-1))
//
// under 0 <= Q(t) - Q(t-1) <= most_t, 0 where t is closed, and limits Q(i) - Q(j) <= room: bounds are charges with an infinite
// c. That is the linear-programming dual of a minimum-cost flow (an L-natural-convex function; Murota, Discrete Convex
// Analysis, SIAM 2003): node 0 is the ground Q(-1), node t+1 is Q(t), every charge is an arc i -> j of capacity c
// and cost l, and the node potentials of an optimal flow are the optimal curve. Net is a primal network
// simplex on it (strongly feasible trees, Cunningham 1976) in whole numbers, so that it can't cycle through
// rounding and its curve lies on the grid of its thresholds. It keeps its tree between solves: opening or
// closing a step changes the cost of one arc, a price change moves flow between two parallel arcs.
type Net struct {
	steps int
	nodes int32

	arcs  []arc
	up    []int32 // arc of step t that forbids Q(t) < Q(t-1)
	down  []int32 // arc of step t that forbids Q(t) - Q(t-1) > most
	price []int64
	most  []int64 // of an open step
	open  []bool

	tree    []place // by node
	pot     []int64 // by node: potential
	stack   []int32
	few     []int32 // arcs that paid when they were last looked at
	moved   []int32 // nodes whose potential changed since their arcs were looked at
	isMoved []bool
	around  [][]int32 // by node: the arcs that touch it

	charges []charge // float form of the capacitated arcs, in arc order
	more    []int64  // scratch, by step: flow that changed charges send round it
	total   wide     // of flow times cost
	least   float64  // Minimum at the last solve
	slack   float64  // how far whole-number rounding can put the optimum off, points
	dirty   bool
}

// arc goes from tail to head.
type arc struct {
	tail, head int32
	state      int64
	cost       int64
	room       int64 // capacity
	flow       int64
}

// place is where a node hangs in the tree: under its parent by the arc pred, among its parent's children.
type place struct{ parent, pred, depth, first, next, prev int32 }

// charge remembers which step and charge an arc stands for.
type charge struct {
	arc   int32
	step  int // -1 = the slope is points, whatever the values
	slope float64
}

func onGrid(x, grid float64) int64 { return int64(math.Round(x * grid)) }

// Limit forbids that the curve rises by more than Room from step Step-Back to step Step; before step 0 it is the ground.
type Limit struct {
	Step, Back int
	Room       float64
}

// Charge asks for Slope times the step's value for each unit by which Q(From) - Q(To) is above Free; steps before 0 are the
// ground. With a Step below 0 it asks for Slope points a unit, whatever the values.
type Charge struct {
	From, To int
	Free     float64
	Step     int
	Slope    float64
}

// New is a net of the steps that most has: how far the curve may rise in each while it is open. Limits and charges are in any
// order, and that order decides between curves that cost the same. All steps begin closed, prices and values zero.
func New(most []float64, limits []Limit, charges []Charge) *Net {
	steps := len(most)
	n := &Net{steps: steps, nodes: int32(steps + 1)}
	n.up, n.down = make([]int32, steps), make([]int32, steps)
	n.price, n.most, n.open = make([]int64, steps), make([]int64, steps), make([]bool, steps)
	node := func(t int) int32 { return int32(max(t, -1) + 1) }
	for t := range steps {
		n.most[t] = onGrid(most[t], shareGrid)
		n.up[t] = n.addArc(node(t-1), node(t), 0, endless)
		n.down[t] = n.addArc(node(t), node(t-1), 0, endless)
		n.price[t] = 1
		for _, l := range limits {
			if l.Step == t {
				n.addArc(node(t), node(t-l.Back), onGrid(l.Room, shareGrid), endless)
				n.off(l.Room)
			}
		}
	}
	for _, c := range charges {
		var room int64
		if c.Step < 0 {
			room = max(0, onGrid(c.Slope, valueGrid))
		}
		arc := n.addArc(node(c.From), node(c.To), onGrid(c.Free, shareGrid), room)
		n.charges = append(n.charges, charge{arc, c.Step, c.Slope})
		n.off(c.Free)
	}
	n.more = make([]int64, steps)
	n.tree, n.pot = make([]place, n.nodes), make([]int64, n.nodes)
	n.few, n.moved, n.stack = make([]int32, 0, len(n.arcs)), make([]int32, 0, n.nodes), make([]int32, 0, n.nodes)
	n.isMoved = make([]bool, n.nodes)
	n.around = make([][]int32, n.nodes)
	for k := range n.arcs {
		n.around[n.arcs[k].tail] = append(n.around[n.arcs[k].tail], int32(k))
		n.around[n.arcs[k].head] = append(n.around[n.arcs[k].head], int32(k))
	}
	n.restart()
	return n
}

func (n *Net) addArc(i, j int32, cost, room int64) int32 {
	n.arcs = append(n.arcs, arc{tail: i, head: j, cost: cost, room: room})
	return int32(len(n.arcs) - 1)
}

// off books the rounding of a threshold that is not on the grid.
func (n *Net) off(x float64) {
	n.slack = math.Max(n.slack, math.Abs(x-float64(onGrid(x, shareGrid))/shareGrid))
}

// Blur books in the doubt that limits given to New were off by up to so much.
func (n *Net) Blur(off float64) { n.slack = math.Max(n.slack, off) }

// SetValue sets what a unit of the charges of each step costs, points.
func (n *Net) SetValue(value []float64) {
	for _, c := range n.charges {
		if c.step >= 0 {
			n.setRoom(c.arc, max(0, onGrid(c.slope*value[c.step], valueGrid)))
		}
	}
	n.level()
}

// SetCharge sets the points of charge k in the order of New, which must be one of points.
func (n *Net) SetCharge(k int, points float64) {
	n.setRoom(n.charges[k].arc, max(0, onGrid(points, valueGrid)))
	n.level()
}

// setRoom sets the capacity of a charge's arc. A flow at the old capacity goes to the new one, and one above it comes down; what
// changes is noted for the steps between, which must send it back.
func (n *Net) setRoom(k int32, room int64) {
	a := &n.arcs[k]
	if a.room == room {
		return
	}
	flow := min(a.flow, room)
	if a.state == arcFull {
		flow = room
	}
	if a.room == 0 {
		n.move(a.tail)
	}
	a.room, n.dirty = room, true
	if a.state == arcFull && room == 0 {
		a.state = arcLow
	}
	d := flow - a.flow
	if d == 0 {
		return
	}
	n.send(k, d)
	from, to := a.tail, a.head
	if from < to {
		from, to, d = to, from, -d
	}
	for v := to; v < from; v++ {
		n.more[v] += d
	}
}

// level sends round the steps what changed charges ask for.
func (n *Net) level() {
	for t, d := range n.more {
		if d != 0 {
			n.more[t] = 0
			n.supply(t, d)
		}
	}
}

// restart returns to the tree of the steps in a row, which is feasible at any prices.
func (n *Net) restart() {
	for k := range n.arcs {
		n.arcs[k].flow, n.arcs[k].state = 0, arcLow
	}
	for v := range n.nodes {
		n.tree[v].first, n.tree[v].next, n.tree[v].prev = -1, -1, -1
		n.pot[v], n.tree[v].depth = 0, v
		n.tree[v].parent, n.tree[v].pred = v-1, -1
		if v > 0 {
			k := n.up[v-1]
			n.tree[v].pred = k
			n.arcs[k].state, n.arcs[k].flow = arcTree, n.price[v-1]
			n.tree[v-1].first = v
		}
		n.move(v)
	}
	n.total = wide{} // the tree's arcs cost nothing
	n.dirty = true
}

// move notes that the reduced costs round a node have changed.
func (n *Net) move(v int32) {
	if !n.isMoved[v] {
		n.isMoved[v] = true
		n.moved = append(n.moved, v)
	}
}

// send changes the flow of one arc.
func (n *Net) send(k int32, d int64) {
	n.arcs[k].flow += d
	n.total.add(d, n.arcs[k].cost)
}

// SetPrice sets the price of a whole unit in step t, points.
func (n *Net) SetPrice(t int, price float64) {
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
	n.supply(t, d)
}

// supply sends more flow up step t.
func (n *Net) supply(t int, d int64) {
	u, w := n.up[t], n.down[t]
	switch {
	case n.arcs[u].state == arcTree:
		n.send(u, d)
		if n.arcs[u].flow < 0 {
			n.swap(u, w)
		}
	case n.arcs[w].state == arcTree:
		n.send(w, -d)
		if n.arcs[w].flow < 0 {
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
func (n *Net) swap(a, b int32) {
	f := n.arcs[a].flow
	n.send(b, -f)
	n.send(a, -f)
	n.arcs[b].state, n.arcs[a].state = arcTree, arcLow
	v := n.child(a)
	n.tree[v].pred = b
	n.shift(v, b)
}

// child is the lower end of a tree arc.
func (n *Net) child(k int32) int32 {
	if v := n.arcs[k].tail; v > 0 && n.tree[v].pred == k {
		return v
	}
	return n.arcs[k].head
}

// SetOpen opens or closes step t.
func (n *Net) SetOpen(t int, open bool) {
	if n.open[t] == open {
		return
	}
	n.open[t] = open
	k := n.down[t]
	before := n.arcs[k].cost
	if open {
		n.arcs[k].cost = n.most[t]
	} else {
		n.arcs[k].cost = 0
	}
	n.total.add(n.arcs[k].flow, n.arcs[k].cost-before)
	n.dirty = true
	if n.arcs[k].state == arcTree {
		n.shift(n.child(k), k)
	} else {
		n.move(n.arcs[k].tail)
	}
}

// shift restores potential(tail) - potential(head) = cost on the tree arc k above node v.
func (n *Net) shift(v, k int32) {
	d := n.arcs[k].cost - n.pot[n.arcs[k].tail] + n.pot[n.arcs[k].head]
	if n.arcs[k].head == v {
		d = -d
	}
	if d != 0 {
		n.drop(v, d)
	}
}

// drop adds d to the potentials of the subtree of v and sets its depths.
func (n *Net) drop(v int32, d int64) {
	n.stack = append(n.stack[:0], v)
	for len(n.stack) > 0 {
		v = n.stack[len(n.stack)-1]
		n.stack = n.stack[:len(n.stack)-1]
		if d != 0 {
			n.pot[v] += d
			n.move(v)
		}
		n.tree[v].depth = n.tree[n.tree[v].parent].depth + 1
		for c := n.tree[v].first; c >= 0; c = n.tree[c].next {
			n.stack = append(n.stack, c)
		}
	}
}

// Solve brings the net to its optimum at the present prices, open steps and values.
func (n *Net) Solve() {
	if !n.dirty {
		return
	}
	limit := 200 * len(n.arcs)
	for round := 0; ; round++ {
		if round == limit { // a warm tree need not be strongly feasible; the row of steps is
			n.restart()
		}
		k := n.entering()
		if k < 0 {
			break
		}
		n.pivot(k, n.arcs[k].state == arcLow)
	}
	n.dirty = false
	n.least = n.dual()
}

// entering is an arc whose flow pays to change, or -1 at the optimum: the one that pays most among those that have paid ever since
// they were last looked at, as long as there is one. Then the arcs are looked at whose ends have moved since;
// all others are as they were.
func (n *Net) entering() int32 {
	best, at := int64(0), int32(-1)
	few := n.few[:0]
	for _, k := range n.few {
		if r := n.pay(k); r < 0 {
			few = append(few, k)
			if r < best {
				best, at = r, k
			}
		}
	}
	n.few = few
	if at >= 0 {
		return at
	}
	if 2*len(n.moved) >= len(n.pot) {
		at = n.lookAtAll()
	} else {
		for _, v := range n.moved {
			for _, k := range n.around[v] {
				if r := n.pay(k); r < 0 && n.arcs[k].room > 0 {
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
func (n *Net) lookAtAll() int32 {
	best, at := int64(0), int32(-1)
	pot := n.pot
	for k := range n.arcs {
		a := &n.arcs[k]
		if r := a.state * (a.cost - pot[a.tail] + pot[a.head]); r < 0 && a.room > 0 {
			n.few = append(n.few, int32(k))
			if r < best {
				best, at = r, int32(k)
			}
		}
	}
	return at
}

// pay is the reduced cost of changing arc k's flow the way that its state allows; an arc in the tree has none.
func (n *Net) pay(k int32) int64 {
	a := &n.arcs[k]
	return a.state * (a.cost - n.pot[a.tail] + n.pot[a.head])
}

// pivot sends as much flow as goes round the cycle that arc k closes with the tree: more along k if raise, else
// less. What blocks leaves the tree.
func (n *Net) pivot(k int32, raise bool) {
	from, to := n.arcs[k].tail, n.arcs[k].head // flow comes down the tree to from, crosses k, goes up from to
	most := n.arcs[k].room - n.arcs[k].flow
	if !raise {
		from, to = to, from
		most = n.arcs[k].flow
	}
	join := n.join(from, to)
	leave, onFrom := int32(-1), false
	for v := from; v != join; v = n.tree[v].parent {
		a := &n.arcs[n.tree[v].pred]
		room := a.room - a.flow
		if a.tail == v {
			room = a.flow
		}
		if room < most {
			most, leave, onFrom = room, v, true
		}
	}
	for v := to; v != join; v = n.tree[v].parent {
		a := &n.arcs[n.tree[v].pred]
		room := a.flow
		if a.tail == v {
			room = a.room - a.flow
		}
		if room <= most {
			most, leave, onFrom = room, v, false
		}
	}
	if most > 0 {
		n.push(k, raise, from, to, join, most)
	}
	if leave < 0 {
		n.rest(k)
		return
	}
	n.rest(n.tree[leave].pred)
	n.arcs[k].state = arcTree
	root, above := to, from
	if onFrom {
		root, above = from, to
	}
	n.hang(root, above, k, leave)
}

// rest marks an arc out of the tree by the bound that it stands at.
func (n *Net) rest(k int32) {
	n.arcs[k].state = arcLow
	if n.arcs[k].flow > 0 {
		n.arcs[k].state = arcFull
	}
}

func (n *Net) join(a, b int32) int32 {
	for a != b {
		if n.tree[a].depth < n.tree[b].depth {
			b = n.tree[b].parent
		} else {
			a = n.tree[a].parent
		}
	}
	return a
}

// push moves the amount round the cycle of arc k.
func (n *Net) push(k int32, raise bool, from, to, join int32, amount int64) {
	round := n.arcs[k].cost - n.pot[n.arcs[k].tail] + n.pot[n.arcs[k].head] // what a unit costs all the way round
	if raise {
		n.arcs[k].flow += amount
		n.total.add(amount, round)
	} else {
		n.arcs[k].flow -= amount
		n.total.add(-amount, round)
	}
	for v := from; v != join; v = n.tree[v].parent {
		if a := &n.arcs[n.tree[v].pred]; a.tail == v {
			a.flow -= amount
		} else {
			a.flow += amount
		}
	}
	for v := to; v != join; v = n.tree[v].parent {
		if a := &n.arcs[n.tree[v].pred]; a.tail == v {
			a.flow += amount
		} else {
			a.flow -= amount
		}
	}
}

// hang cuts the subtree below leave's arc, roots it at root and hangs it under above by arc k.
func (n *Net) hang(root, above, k, leave int32) {
	v, parent, pred := root, above, k
	for {
		n.unlink(v)
		at, over := &n.tree[v], &n.tree[parent]
		oldParent, oldPred := at.parent, at.pred
		at.parent, at.pred, at.next, at.prev = parent, pred, over.first, -1
		if over.first >= 0 {
			n.tree[over.first].prev = v
		}
		over.first = v
		if v == leave {
			break
		}
		v, parent, pred = oldParent, v, oldPred
	}
	d := n.arcs[k].cost - n.pot[n.arcs[k].tail] + n.pot[n.arcs[k].head]
	if n.arcs[k].head == root {
		d = -d
	}
	n.drop(root, d)
}

func (n *Net) unlink(v int32) {
	if n.tree[v].prev >= 0 {
		n.tree[n.tree[v].prev].next = n.tree[v].next
	} else {
		n.tree[n.tree[v].parent].first = n.tree[v].next
	}
	if n.tree[v].next >= 0 {
		n.tree[n.tree[v].next].prev = n.tree[v].prev
	}
}

// Minimum is the least cost, points: what charges and prices take. Valid after Solve.
func (n *Net) Minimum() float64 { return n.least }

// dual is the cost of the flow, which at the optimum is the least cost.
func (n *Net) dual() float64 { return -n.total.float() / (shareGrid * valueGrid) }

// Doubt bounds how far Minimum can be from the optimum of the unrounded numbers, points.
func (n *Net) Doubt() float64 {
	var rooms float64
	for _, c := range n.charges {
		rooms += float64(n.arcs[c.arc].room)
	}
	rounding := float64(len(n.charges)+4*n.steps) / valueGrid
	return rounding + 2*n.slack*rooms/valueGrid
}

// Step is by how much the curve rises in step t. Valid after Solve.
func (n *Net) Step(t int) float64 {
	return float64(n.pot[t+1]-n.pot[t]) / shareGrid
}

// Curve is how high the curve is at the end of step t. Valid after Solve.
func (n *Net) Curve(t int) float64 { return float64(n.pot[t+1]-n.pot[0]) / shareGrid }

// Clone copies the net; what never changes is shared.
func (n *Net) Clone() *Net {
	c := *n
	c.arcs, c.tree, c.pot = slices.Clone(n.arcs), slices.Clone(n.tree), slices.Clone(n.pot)
	c.price, c.open, c.stack = slices.Clone(n.price), slices.Clone(n.open), nil
	c.more = make([]int64, n.steps)
	c.few, c.moved, c.isMoved = nil, slices.Clone(n.moved), slices.Clone(n.isMoved)
	return &c
}

// CopyFrom brings the net to where its clone is; their values (SetValue) must be the same.
func (n *Net) CopyFrom(c *Net) {
	copy(n.arcs, c.arcs)
	copy(n.tree, c.tree)
	copy(n.price, c.price)
	copy(n.pot, c.pot)
	copy(n.open, c.open)
	n.total, n.dirty, n.least = c.total, c.dirty, c.least
	n.moved = append(n.moved[:0], c.moved...)
	copy(n.isMoved, c.isMoved)
}
