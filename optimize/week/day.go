package week

import (
	"math"
	"slices"
)

// block is one day: what can be done on it, and the bounds of its hands.
type block struct {
	m       *menu
	day     int
	lines   []int
	free    []int   // its stretches
	longest int     // of them
	items   []int   // those with options on the day
	options [][]int // as items
	size    int     // options
	modes   []*mode
	steps   int // of all searches so far
	limit   int // of steps, where a search ends early
}

// mode is a day with so many breaks in each of its stretches: with these the bounds are straight.
type mode struct {
	rows   []row
	shares []share
	q      prices    // where the last search for prices ended
	share  []float64 // prices of shares
	low    float64   // the bound there
}

// share is the time for dogs that two pairs of hands share on the day, counted for those who begin with them.
type share struct {
	first int
	most  float64
}

// takes is what an option takes of a share.
func (s *share) takes(o *option) float64 {
	switch {
	case o.helper < 0:
		return 0
	case o.first == s.first:
		return o.shared[0] + o.shared[1]
	}
	return o.shared[1]
}

// net is an option's gain without what it takes of the shares.
func (o *mode) net(x *option, gain float64) float64 {
	if x.helper >= 0 {
		for k := range o.shares {
			gain -= o.share[k] * o.shares[k].takes(x)
		}
	}
	return gain
}

// mostModes is how many modes a day may have; days with more have one in which breaks are counted in parts.
const mostModes = 64

// blocks are the days on which something can be done.
func (m *menu) blocks() (blocks []*block) {
	for t := range m.p.Days {
		b := &block{m: m, day: t}
		for i, options := range m.items {
			var here []int
			for _, c := range options {
				if m.options[c].day == t {
					here = append(here, c)
				}
			}
			if len(here) > 0 {
				b.items = append(b.items, i)
				b.options = append(b.options, here)
				b.size += len(here)
			}
		}
		if len(b.items) == 0 {
			continue
		}
		for li := range m.lines {
			if m.lines[li].day == t {
				b.lines = append(b.lines, li)
				b.free = append(b.free, m.lines[li].free...)
			}
		}
		b.longest = b.free[0]
		for _, f := range b.free {
			if m.free[f].minutes > m.free[b.longest].minutes {
				b.longest = f
			}
		}
		b.addModes()
		blocks = append(blocks, b)
	}
	return blocks
}

// whole are all days as one, without links: each item chooses among all its options.
func (m *menu) whole() *block {
	b := &block{m: m}
	var rows []row
	for i, options := range m.items {
		b.items = append(b.items, i)
		b.options = append(b.options, options)
	}
	for li := range m.lines {
		rows = append(rows, m.lineRows(li)...)
	}
	for f := range m.free {
		rows = append(rows, m.looseRows(f)...)
	}
	b.modes = append(b.modes, m.newMode(rows, nil))
	return b
}

func (b *block) addModes() {
	m := b.m
	var rows []row
	for _, li := range b.lines {
		rows = append(rows, m.lineRows(li)...)
	}
	count := 1
	for _, f := range b.free {
		count *= 1 + m.p.mostBreaks(m.free[f].minutes)
	}
	shares := b.shares()
	if count > mostModes {
		for _, f := range b.free {
			rows = append(rows, m.looseRows(f)...)
		}
		b.modes = append(b.modes, m.newMode(rows, shares))
		return
	}
	for n := range count {
		own := slices.Clone(rows)
		for _, f := range b.free {
			kinds := 1 + m.p.mostBreaks(m.free[f].minutes)
			own = append(own, m.breakRows(f, n%kinds)...)
			n /= kinds
		}
		b.modes = append(b.modes, m.newMode(own, shares))
	}
}

// firstPrice is where the prices of a minute begin, in points.
const firstPrice = 0.005

func (m *menu) newMode(rows []row, shares []share) *mode {
	o := &mode{rows: rows, shares: shares, q: m.newPrices(len(rows)), share: make([]float64, len(shares))}
	for r := range rows {
		if rows[r].a > 0 {
			o.q.row[r] = math.Min(rows[r].cap, firstPrice)
		}
	}
	return o
}

// shares lists who begins with shared dogs on the day.
func (b *block) shares() (all []share) {
	for _, options := range b.options {
		for _, c := range options {
			o := &b.m.options[c]
			if o.helper >= 0 && !slices.ContainsFunc(all, func(s share) bool { return s.first == o.first }) {
				all = append(all, share{o.first, b.m.sharedRoom(b.day)})
			}
		}
	}
	return all
}

const (
	memory   = 0.5 // of earlier steps' direction, which keeps prices from going to and fro (Camerini et al. 1975)
	pace     = 0.8 // of the step that would reach the target if the bound were straight (Polyak 1969)
	patience = 3   // rounds without a lower bound before steps are halved
)

// relax moves a mode's prices of time to where they bound the worth of its day best, or to where it can't be above
// target (Lagrangian relaxation, Held and Karp 1971). fixed options are taken, others of their items must be barred.
func (b *block) relax(o *mode, w *walk, fixed []int, target float64, rounds int) (low float64) {
	keep, keepShare := slices.Clone(o.q.row), slices.Clone(o.share)
	other, pull := make([]float64, len(b.m.free)), make([]float64, len(b.m.free))
	shared, use := make([]float64, len(o.shares)), make([]float64, len(o.rows)+len(o.shares))
	low, pace, stale := math.Inf(1), pace, 0
	for range rounds {
		b.steps += 1 + b.size/relaxPart
		clear(other)
		clear(pull)
		clear(shared)
		bound := b.ask(o, w, fixed, func(c int) {
			b.m.use(&b.m.options[c], &o.q, other, pull)
			for r := range o.shares {
				shared[r] += o.shares[r].takes(&b.m.options[c])
			}
		})
		if bound < low {
			low, stale = bound, 0
			copy(keep, o.q.row)
			copy(keepShare, o.share)
		} else if stale++; stale > patience {
			pace, stale = pace/2, 0
		}
		if low <= target {
			break
		}
		if !o.step(other, pull, shared, use, pace*(bound-target)) {
			break
		}
	}
	copy(o.q.row, keep)
	copy(o.share, keepShare)
	o.low = low
	return low
}

// ask lets every item choose for itself at a mode's prices and returns the sum, which bounds the worth of the day.
func (b *block) ask(o *mode, w *walk, fixed []int, picked func(option int)) (bound float64) {
	o.q.spread(o.rows)
	for r, price := range o.q.row {
		bound += price * o.rows[r].most
	}
	for r, price := range o.share {
		bound += price * o.shares[r].most
	}
	for _, c := range fixed {
		x := &b.m.options[c]
		bound += b.m.reduced(x, o.net(x, w.gain[c]), &o.q)
		picked(c)
	}
	for k := range b.items {
		top, pick := 0.0, none
		for _, c := range b.options[k] {
			if w.barred[c] > 0 {
				continue
			}
			x := &b.m.options[c]
			if v := b.m.reduced(x, o.net(x, w.gain[c]), &o.q); v > top {
				top, pick = v, c
			}
		}
		bound += top
		if pick != none {
			picked(pick)
		}
	}
	return bound
}

// step moves the prices towards what is used too much of; false when nothing is to be moved.
func (o *mode) step(other, pull, shared, use []float64, size float64) bool {
	var norm float64
	push := func(k int, over, price, most float64) {
		if over < 0 && price == 0 || over > 0 && price >= most {
			over = 0
		}
		use[k] = over + memory*use[k]
		norm += over * over
	}
	for r := range o.rows {
		x := &o.rows[r]
		over := -x.most
		for _, f := range x.free {
			over += x.a*other[f] + x.b*pull[f]
		}
		push(r, over, o.q.row[r], x.cap)
	}
	for r := range o.shares {
		push(len(o.rows)+r, shared[r]-o.shares[r].most, o.share[r], math.Inf(1))
	}
	if norm < slack {
		return false
	}
	for r := range o.rows {
		o.q.row[r] = min(o.rows[r].cap, max(0, o.q.row[r]+size/norm*use[r]))
	}
	for r := range o.shares {
		o.share[r] = max(0, o.share[r]+size/norm*use[len(o.rows)+r])
	}
	return true
}
