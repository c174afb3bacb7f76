package week

import (
	"cmp"
	"math"
	"slices"
)

// search is a branch and price (Barnhart et al. 1998): the week's work is mixed from works of single days, each exact,
// and what is mixed in parts is decided one way or the other.
type search struct {
	m      *menu
	opt    Options
	blocks []*block
	links  *links
	lp     *master

	best      []int
	bestValue float64
	near      [][]int // choices that were nearly as good when found, or the best before a better one

	barred []int     // option: how many decisions bar it
	bonus  []float64 // item: points that placing it brings where it must be placed
	gain   []float64 // option: its gain with the links priced
	open   []*node
	closed float64 // largest bound of what was left without searching on
	nodes  int
}

// node is a part of all choices.
type node struct {
	above *node
	set   // what was decided
	in    bool
	depth int
	bound float64
}

// set is some options of an item: one of them is to be chosen, or none.
type set struct {
	item    int
	options []int
	share   float64 // that the mix has of them
}

const (
	wholeShare = 1e-4 // what is so near to 0 or 1 is whole
	leastShare = 1e-6
	mostly     = 0.3 // share from which an option is taken first where the mix is made whole
	sure       = 3   // points that leaving out what must be placed costs
)

func newSearch(m *menu, opt Options, first []int) *search {
	s := &search{m: m, opt: opt, blocks: m.blocks(), links: m.links(), best: first, closed: math.Inf(-1)}
	s.opt.Within = max(opt.Within, gainStep)
	s.bestValue, _ = m.value(first)
	most := slices.Clone(s.links.most)
	for range s.blocks {
		most = append(most, 1)
	}
	s.lp = newMaster(most)
	s.barred, s.gain = make([]int, len(m.options)), make([]float64, len(m.options))
	s.bonus = make([]float64, len(m.items))
	s.addChoice(first)
	return s
}

// gainStep is the part of a point below which two choices are as good.
const gainStep = 1e-9

// steps is how much was looked at so far.
func (s *search) steps() (sum int) {
	for _, b := range s.blocks {
		sum += b.steps
	}
	return sum + s.lp.simplex.Pivots*pivotSteps
}

// pivotSteps is what a pivot counts as.
const pivotSteps = 20

// late reports whether the search has had its time.
func (s *search) late() bool {
	return s.nodes >= s.opt.Nodes || s.steps() >= s.opt.Steps || s.opt.Seconds != nil && s.opt.Limit > 0 && s.opt.Seconds() > s.opt.Limit
}

// beaten reports whether nothing within a bound is worth enough more than the best choice.
func (s *search) beaten(bound float64) bool { return bound <= s.bestValue+s.opt.Within }

// run looks for the best choice and returns what no choice is worth more than: the node with the highest bound first.
func (s *search) run() (bound float64) {
	s.visit(&node{bound: s.loose()})
	for len(s.open) > 0 && !s.late() {
		n := 0
		for k, o := range s.open {
			if o.bound > s.open[n].bound {
				n = k
			}
		}
		if s.beaten(s.open[n].bound) {
			break
		}
		next := s.open[n]
		s.open = slices.Delete(s.open, n, n+1)
		s.visit(next)
	}
	bound = max(s.bestValue, s.closed)
	for _, o := range s.open {
		bound = max(bound, o.bound)
	}
	return bound
}

// looseRounds is how many rounds of prices the first bound gets.
const looseRounds = 300

// loose is a quick bound on the whole week, for searches that end early.
func (s *search) loose() float64 {
	gain := make([]float64, len(s.m.options))
	for c := range gain {
		gain[c] = s.m.options[c].gain
	}
	b := s.m.whole()
	return b.relax(b.modes[0], &walk{gain: gain, barred: s.barred}, nil, s.bestValue, looseRounds)
}

// visit bounds a node, looks for a choice near its mix, and decides one thing that is mixed.
func (s *search) visit(n *node) {
	s.nodes++
	s.decide(n, 1)
	defer s.decide(n, -1)
	n.bound = min(n.bound, s.bound(false))
	if s.beaten(n.bound) {
		s.closed = max(s.closed, n.bound)
		return
	}
	s.dive()
	s.lp.solve()
	what, ok := s.undecided(s.shares())
	if !ok && !s.late() { // a whole mix: the rest of the bound is closed by more work of days, or by what these mix
		s.take(s.mostOf(s.shares()))
		n.bound = min(n.bound, s.bound(true))
		shares := s.shares()
		s.take(s.mostOf(shares))
		what, ok = s.undecided(shares)
	}
	if !ok || s.beaten(n.bound) || s.late() {
		s.closed = max(s.closed, n.bound)
		return
	}
	for _, in := range []bool{true, false} {
		s.open = append(s.open, &node{above: n, set: what, in: in, depth: n.depth + 1, bound: n.bound})
	}
}

// decide makes the decisions of a node, or takes them back.
func (s *search) decide(n *node, by int) {
	for ; n.above != nil; n = n.above {
		if n.in {
			s.hold(&n.set, by)
			continue
		}
		for _, c := range n.options {
			s.barred[c] += by
		}
	}
	for j := range s.lp.columns {
		s.recost(&s.lp.columns[j])
	}
}

// hold lets an item take only options of a set.
func (s *search) hold(x *set, by int) {
	s.bonus[x.item] += float64(by) * sure
	for _, c := range s.m.items[x.item] {
		if !slices.Contains(x.options, c) {
			s.barred[c] += by
		}
	}
}

// shares is how much of each option the mix has.
func (s *search) shares() []float64 {
	shares := make([]float64, len(s.m.options))
	for j, x := range s.lp.x {
		if x > leastShare {
			for _, c := range s.lp.columns[j].options {
				shares[c] += x
			}
		}
	}
	return shares
}

// undecided is the set that the mix is least decided on: of whole items, else of an item's days, else of its options; false when
// the mix is whole.
func (s *search) undecided(shares []float64) (what set, ok bool) {
	groups := []func(a, b *option) bool{
		func(_, _ *option) bool { return true },
		func(a, b *option) bool { return a.day == b.day },
		func(_, _ *option) bool { return false },
	}
	for _, same := range groups {
		most := wholeShare
		for i, options := range s.m.items {
			for from := 0; from < len(options); {
				to, sum := from, 0.0
				for ; to < len(options) && (to == from || same(&s.m.options[options[from]], &s.m.options[options[to]])); to++ {
					sum += shares[options[to]]
				}
				open := min(sum, 1-sum)
				if !s.m.session(i) {
					open /= 2
				}
				if open > most {
					most, what, ok = open, set{i, options[from:to], sum}, true
				}
				from = to
			}
		}
		if ok {
			break
		}
	}
	return what, ok
}

// dive follows the mix to a whole choice without new work of days, and looks for a better one near each mix on the way.
func (s *search) dive() {
	var held []set
	for range len(s.m.items) {
		s.lp.solve()
		shares := s.shares()
		s.whole(shares, wholeTries)
		what, ok := s.undecided(shares)
		if !ok {
			break
		}
		held = append(held, what)
		s.hold(&what, 1)
		for j := range s.lp.columns {
			s.recost(&s.lp.columns[j])
		}
	}
	for k := range held {
		s.hold(&held[k], -1)
	}
	for j := range s.lp.columns {
		s.recost(&s.lp.columns[j])
	}
}

// wholeTries is how many changes are priced in making a choice of a mix better.
const wholeTries = 500

// What is nearly as good may be better when shared sessions that are cut too short are left out: so many choices, by so
// many points, are kept.
const (
	nearly   = 0.05
	mostNear = 400
)

// whole makes a whole choice of a mix, by what it has most of, and takes it if it is the best.
func (s *search) whole(shares []float64, tries int) {
	var order []int
	for c, x := range shares {
		if x > mostly {
			order = append(order, c)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(shares[b], shares[a]) })
	d := newDraft(s.m, empty(len(s.m.items)))
	for again := true; again; {
		again = false
		for _, c := range order {
			if i := s.m.options[c].item; d.chosen[i] == none {
				if v, ok := d.price(change{i, c}); ok && v > d.value {
					d.make(v, change{i, c})
					again = true
				}
			}
		}
	}
	for i := range d.chosen {
		d.betterChain(i)
	}
	d.improve(tries)
	s.take(d.chosen)
}

// mostOf is what a mix has for the most part.
func (s *search) mostOf(shares []float64) []int {
	chosen := empty(len(s.m.items))
	for c, x := range shares {
		if x > 1-x {
			chosen[s.m.options[c].item] = c
		}
	}
	return chosen
}

// take takes a choice as the best so far if it is.
func (s *search) take(chosen []int) {
	v, ok := s.m.value(chosen)
	if ok && v > s.bestValue-nearly && len(s.near) < mostNear {
		s.near = append(s.near, chosen)
	}
	if ok && v > s.bestValue+gainStep {
		s.best, s.bestValue = chosen, v
		s.addChoice(s.best)
	}
}
