package week

import (
	"math"
	"slices"
)

// tree is a branch and bound over the items' options. At each node the rows that bind hands' days together are priced
// (Lagrangian relaxation, Held and Karp 1971): at given prices every item chooses for itself, and the sum is a bound.
type tree struct {
	m    *menu
	rows []row
	opt  Options

	best      []int
	bestValue float64

	barred []int // option: how many chosen ones go against it
	chosen []int // undecided items have none
	done   []bool
	fixed  int // items decided

	nodes   int
	cut     bool
	open    float64 // largest bound of what was cut off unsearched
	spare   []prices
	buffers []buffer
}

// buffer is one depth's working memory.
type buffer struct {
	value []float64 // option: reduced gain
	top   []float64 // item: best reduced gain
	pick  []int     // item: its option
	use   []float64 // row: what the picks use
}

func newTree(m *menu, opt Options) *tree {
	t := &tree{m: m, rows: m.rows(), opt: opt, open: math.Inf(-1)}
	t.barred = make([]int, len(m.options))
	t.done = make([]bool, len(m.items))
	t.chosen = empty(len(m.items))
	t.best = empty(len(m.items))
	t.bestValue, _ = m.value(t.best)
	return t
}

func empty(n int) []int { return slices.Repeat([]int{none}, n) }

// try takes a choice as the best so far if it is.
func (t *tree) try(chosen []int) {
	if v, ok := t.m.value(chosen); ok && v > t.bestValue+gainStep {
		t.bestValue = v
		copy(t.best, chosen)
	}
}

// gainStep is the part of a point below which two choices are as good.
const gainStep = 1e-9

// late reports whether the search has had its time.
func (t *tree) late() bool {
	if t.nodes >= t.opt.Nodes || t.opt.Seconds != nil && t.opt.Limit > 0 && t.opt.Seconds() > t.opt.Limit {
		t.cut = true
	}
	return t.cut
}

// search proves the best choice, or ends with what is left open: first with a part of the nodes from a quick start, then,
// if that was not enough, from the best choice that can be found.
func (t *tree) search() (bound float64) {
	all := t.opt.Nodes
	t.opt.Nodes = all / firstNodes
	t.start()
	bound = t.prove()
	if !t.cut || bound <= t.bestValue+gainStep {
		return bound
	}
	t.opt.Nodes, t.nodes, t.cut, t.open = all, 0, false, math.Inf(-1)
	t.kick(bound)
	return math.Min(bound, t.prove())
}

// firstNodes is the part of the nodes that the first search may take.
const firstNodes = 4

// prove searches from the root and returns what no choice can beat.
func (t *tree) prove() (bound float64) {
	q := prices{row: make([]float64, len(t.rows)), other: make([]float64, len(t.m.free)), pull: make([]float64, len(t.m.free))}
	root := t.relax(&q, 0, rootRounds)
	t.branch(&q, 0, root)
	if t.cut {
		return math.Max(t.bestValue, math.Min(root, t.open))
	}
	return t.bestValue
}

// How many rounds of prices the root and the nodes get.
const (
	rootRounds = 400
	nodeRounds = 6
	memory     = 0.7 // of earlier steps' direction, which keeps prices from going to and fro (Camerini et al. 1975)
	patience   = 15  // rounds without a lower bound before steps are halved
)

func (t *tree) buffer(depth int) *buffer {
	for len(t.buffers) <= depth {
		t.buffers = append(t.buffers, buffer{
			value: make([]float64, len(t.m.options)), top: make([]float64, len(t.m.items)),
			pick: make([]int, len(t.m.items)), use: make([]float64, len(t.rows)),
		})
		t.spare = append(t.spare, prices{
			row: make([]float64, len(t.rows)), other: make([]float64, len(t.m.free)), pull: make([]float64, len(t.m.free)),
		})
	}
	return &t.buffers[depth]
}

// relax looks for prices with a low bound and returns it; q and the depth's buffer are left as at that bound. It ends
// early when the bound can't beat the best choice.
func (t *tree) relax(q *prices, depth, rounds int) float64 {
	b := t.buffer(depth)
	keep := append([]float64(nil), q.row...)
	low, pace, stale := math.Inf(1), 1.0, 0
	clear(b.use)
	for range rounds {
		bound := t.price(q, b)
		if bound < low-gainStep {
			low, stale = bound, 0
			copy(keep, q.row)
		} else if stale++; stale > patience {
			pace, stale = pace/2, 0
			copy(q.row, keep)
			bound = t.price(q, b)
		}
		if low <= t.bestValue+gainStep || !t.step(q, b, bound, pace) {
			break
		}
	}
	copy(q.row, keep)
	return math.Min(low, t.price(q, b))
}

// price computes the bound at prices q, with each undecided item's best option.
func (t *tree) price(q *prices, b *buffer) (bound float64) {
	q.spread(t.rows)
	for r, price := range q.row {
		bound += price * t.rows[r].most
	}
	for i, options := range t.m.items {
		if t.done[i] {
			b.pick[i] = t.chosen[i]
			if c := t.chosen[i]; c != none {
				bound += t.m.reduced(&t.m.options[c], q)
			}
			continue
		}
		b.top[i], b.pick[i] = 0, none
		for _, c := range options {
			if t.barred[c] > 0 {
				continue
			}
			b.value[c] = t.m.reduced(&t.m.options[c], q)
			if b.value[c] > b.top[i] {
				b.top[i], b.pick[i] = b.value[c], c
			}
		}
		bound += b.top[i]
	}
	return bound
}

// step moves the prices towards what the picks use too much of; false when nothing is to be moved.
func (t *tree) step(q *prices, b *buffer, bound, pace float64) bool {
	var norm float64
	other, pull := make([]float64, len(t.m.free)), make([]float64, len(t.m.free))
	for _, c := range b.pick {
		if c == none {
			continue
		}
		o := &t.m.options[c]
		for k := range o.loads {
			l := &o.loads[k]
			other[l.stretch] += l.other
			for _, a := range l.parts {
				if part := &t.m.p.Sessions[o.item].Parts[a]; part.Value > part.Minutes*q.pull[l.stretch] {
					pull[l.stretch] += part.Minutes
				}
			}
		}
	}
	for r := range t.rows {
		row := &t.rows[r]
		over := -row.most
		for _, f := range row.free {
			over += row.a*other[f] + row.b*pull[f]
		}
		if over < 0 && q.row[r] == 0 || over > 0 && q.row[r] >= row.cap {
			over = 0
		}
		b.use[r] = over + memory*b.use[r]
		norm += over * over
	}
	if norm < slack {
		return false
	}
	size := pace * math.Max(bound-t.bestValue, 1e-6) / norm
	for r := range t.rows {
		q.row[r] = math.Min(t.rows[r].cap, math.Max(0, q.row[r]+size*b.use[r]))
	}
	return true
}

// branch tries every option of one undecided item, and below it of the others, where the bound leaves hope.
func (t *tree) branch(q *prices, depth int, bound float64) {
	if bound <= t.bestValue+gainStep {
		return
	}
	if t.fixed == len(t.m.items) {
		t.try(t.chosen)
		return
	}
	if t.late() {
		t.open = math.Max(t.open, bound)
		return
	}
	t.nodes++
	b := t.buffer(depth)
	i := t.choose(b)
	children := []child{{none, 0}}
	for _, c := range t.m.items[i] {
		if t.barred[c] == 0 && (!t.m.bath(i) || t.m.followed(&t.m.options[c], t.chosen)) {
			children = append(children, child{c, b.value[c]})
		}
	}
	slices.SortStableFunc(children, func(a, b child) int {
		switch {
		case a.value > b.value:
			return -1
		case a.value < b.value:
			return 1
		}
		return 0
	})
	top := b.top[i]
	for _, c := range children {
		below := bound - top + c.value
		if below <= t.bestValue+gainStep {
			return
		}
		if t.take(i, c.option) {
			own := t.prices(depth+1, q)
			below = math.Min(below, t.relax(own, depth+1, nodeRounds))
			t.branch(own, depth+1, below)
		}
		t.drop(i, c.option)
	}
}

// child is an option of the item that is branched on.
type child struct {
	option int
	value  float64 // reduced
}

func (t *tree) prices(depth int, q *prices) *prices {
	t.buffer(depth)
	own := &t.spare[depth]
	copy(own.row, q.row)
	return own
}

// choose is the undecided item to branch on: sessions before duties before baths; of the sessions the one that loses
// most by not having its best option.
func (t *tree) choose(b *buffer) int {
	best, most, class := -1, 0.0, 0
	for i, options := range t.m.items {
		if t.done[i] {
			continue
		}
		second := 0.0
		if b.pick[i] == none {
			second = -math.MaxFloat64
			for _, c := range options {
				if t.barred[c] == 0 {
					second = math.Max(second, b.value[c])
				}
			}
		}
		for _, c := range options {
			if t.barred[c] == 0 && c != b.pick[i] {
				second = math.Max(second, b.value[c])
			}
		}
		own := 0
		if !t.m.session(i) {
			own = 1
			if t.m.bath(i) {
				own = 2
			}
		}
		if regret := b.top[i] - second; best < 0 || own < class || own == class && regret > most {
			best, most, class = i, regret, own
		}
	}
	return best
}

// take decides an item; false when its time can't fit beside what is decided already.
func (t *tree) take(i, c int) bool {
	t.done[i] = true
	t.fixed++
	t.chosen[i] = c
	if c == none {
		if a := t.m.after[i]; a != none {
			t.bar(a, 1)
			return t.chosen[a] == none
		}
		return true
	}
	o := &t.m.options[c]
	for _, x := range o.against {
		t.barred[x]++
	}
	for _, l := range o.loads {
		var sum float64
		for _, x := range t.chosen {
			if x != none {
				for _, k := range t.m.options[x].loads {
					if k.stretch == l.stretch {
						sum += k.other
					}
				}
			}
		}
		if sum > t.m.free[l.stretch].minutes+slack {
			return false
		}
	}
	return o.helper < 0 || t.m.sharedFit(t.chosen)
}

// bar bars all options of an item once more, or once less.
func (t *tree) bar(i, by int) {
	for _, c := range t.m.items[i] {
		t.barred[c] += by
	}
}

func (t *tree) drop(i, c int) {
	t.done[i] = false
	t.fixed--
	t.chosen[i] = none
	if a := t.m.after[i]; c == none && a != none {
		t.bar(a, -1)
	}
	if c != none {
		for _, x := range t.m.options[c].against {
			t.barred[x]--
		}
	}
}
