package week

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// draft is a choice that keeps all rules, with the worth of each line, so that a change is priced by the lines that it
// touches.
type draft struct {
	m      *menu
	chosen []int
	line   []float64
	value  float64
	tries  int // changes priced
}

func newDraft(m *menu, chosen []int) *draft {
	d := &draft{m: m, chosen: slices.Clone(chosen), line: make([]float64, len(m.lines))}
	for li := range m.lines {
		d.line[li], _ = m.worth(li, d.chosen, nil)
	}
	d.value, _ = m.value(d.chosen)
	return d
}

// change is an item and the option that it is to take.
type change struct{ item, option int }

// price is what the draft would be worth with the changes made; false when a rule would be broken.
func (d *draft) price(changes ...change) (value float64, ok bool) {
	d.tries++
	var old [4]int
	var touched [8]int
	lines := touched[:0]
	touch := func(c int) {
		if c == none {
			return
		}
		value += d.m.options[c].gain
		for _, l := range d.m.options[c].loads {
			if li := d.m.free[l.stretch].line; !slices.Contains(lines, li) {
				lines = append(lines, li)
			}
		}
	}
	for k, ch := range changes {
		old[k] = d.chosen[ch.item]
		touch(old[k])
	}
	before := value
	value = 0
	for _, ch := range changes {
		touch(ch.option)
		d.chosen[ch.item] = ch.option
	}
	value += d.value - before
	ok = d.fits(changes) && d.m.sharedFit(d.chosen)
	for _, li := range lines {
		if !ok {
			break
		}
		v, fits := d.m.worth(li, d.chosen, nil)
		value += v - d.line[li]
		ok = ok && fits
	}
	for k, ch := range changes {
		d.chosen[ch.item] = old[k]
	}
	return value, ok
}

// fits reports whether the changed items go with the rest, and whether every bath still has its session.
func (d *draft) fits(changes []change) bool {
	for _, ch := range changes {
		if ch.option != none && !d.m.fits(ch.item, ch.option, d.chosen) || !d.m.inOrder(ch.item, d.chosen) {
			return false
		}
	}
	for i := len(d.m.p.Sessions); i < len(d.chosen); i++ {
		if c := d.chosen[i]; c != none && d.m.bath(i) && !d.m.followed(&d.m.options[c], d.chosen) {
			return false
		}
	}
	return true
}

// make makes the changes, worth value.
func (d *draft) make(value float64, changes ...change) {
	for _, ch := range changes {
		for _, c := range []int{d.chosen[ch.item], ch.option} {
			if c != none {
				for _, l := range d.m.options[c].loads {
					d.line[d.m.free[l.stretch].line] = -1
				}
			}
		}
		d.chosen[ch.item] = ch.option
	}
	for li := range d.line {
		d.line[li], _ = d.m.worth(li, d.chosen, nil)
	}
	d.value = value
}

// better gives item i its best option beside the others'.
func (d *draft) better(i int) bool {
	best, option := d.value+gainStep, d.chosen[i]
	for n := -1; n < len(d.m.items[i]); n++ {
		c := none
		if n >= 0 {
			c = d.m.items[i][n]
		}
		if c == d.chosen[i] {
			continue
		}
		if v, ok := d.price(change{i, c}); ok && v > best {
			best, option = v, c
		}
	}
	if option == d.chosen[i] {
		return false
	}
	d.make(best, change{i, option})
	return true
}

// betterChain places the sessions that must be placed before item i, then i.
func (d *draft) betterChain(i int) {
	if b := d.m.before[i]; b != none && d.chosen[b] == none {
		d.betterChain(b)
	}
	d.better(i)
}

// drop leaves item i out, and the sessions that must not be placed without it.
func (d *draft) drop(i int) bool {
	if a := d.m.after[i]; a != none && d.chosen[a] != none && !d.drop(a) {
		return false
	}
	v, ok := d.price(change{i, none})
	if ok {
		d.make(v, change{i, none})
	}
	return ok
}

// betterPair moves item i and one other item at once: the first pair of moves that is worth more.
func (d *draft) betterPair(i int) bool {
	for _, c := range d.m.items[i] {
		if c == d.chosen[i] {
			continue
		}
		for j := range d.chosen {
			if j == i || !d.meet(i, c, j) {
				continue
			}
			for n := -1; n < len(d.m.items[j]); n++ {
				e := none
				if n >= 0 {
					e = d.m.items[j][n]
				}
				if e == d.chosen[j] {
					continue
				}
				if v, ok := d.price(change{i, c}, change{j, e}); ok && v > d.value+gainStep {
					d.make(v, change{i, c}, change{j, e})
					return true
				}
			}
		}
	}
	return false
}

// meet reports whether item j has to do with item i taking option c: it is the same dog's, or works on that day.
func (d *draft) meet(i, c, j int) bool {
	other := d.chosen[j]
	return d.m.dog(i) == d.m.dog(j) || other != none && d.m.options[other].day == d.m.options[c].day
}

// settle makes changes of one item while they are worth more.
func (d *draft) settle() {
	for again := true; again; {
		again = false
		for i := range d.chosen {
			again = d.better(i) || again
		}
	}
}

// improve makes changes of one item, then of two, while they are worth more.
func (d *draft) improve(most int) {
	for again := true; again && d.tries < most; {
		d.settle()
		again = false
		for i := 0; i < len(d.chosen) && !again && d.tries < most; i++ {
			again = d.betterPair(i)
		}
	}
}

const (
	goTries = 5000 // changes priced in one go
	near    = 0.03 // points below the best so far from which a kicked choice is improved by twos
)

// first finds a good choice: the items with most value first, each where it adds most, improved and kicked.
func (m *menu) first(opt Options) []int {
	order := make([]int, len(m.items))
	worth := make([]float64, len(order))
	for i := range order {
		order[i] = i
		if m.session(i) {
			for _, a := range m.p.Sessions[i].Parts {
				worth[i] += a.Value
			}
		} else {
			worth[i] = m.p.Duties[i-len(m.p.Sessions)].Value
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(worth[b], worth[a]) })
	d := newDraft(m, empty(len(order)))
	for _, i := range order {
		d.betterChain(i)
	}
	d.improve(opt.Tries / 2)
	return d.kick(opt).chosen
}

// kick looks for a better choice: it takes the work of two days and a little more out of the best, puts it back in
// another order and improves that. The kicks are the same for the same problem.
func (d *draft) kick(opt Options) *draft {
	r := rand.New(rand.NewPCG(uint64(len(d.m.options)), uint64(len(d.m.items))))
	for tries := d.tries; tries < opt.Tries; {
		if opt.Seconds != nil && opt.Limit > 0 && opt.Seconds() > opt.Limit {
			break
		}
		k := newDraft(d.m, d.chosen)
		one, other := r.IntN(d.m.p.Days), r.IntN(d.m.p.Days)
		var out []int
		for _, i := range r.Perm(len(k.chosen)) {
			c := k.chosen[i]
			if c != none && d.m.options[c].day != one && d.m.options[c].day != other && r.IntN(len(k.chosen)) > 0 {
				continue
			}
			if k.drop(i) {
				out = append(out, i)
			}
		}
		for _, i := range out {
			k.betterChain(i)
		}
		k.settle()
		if k.value > d.value-near {
			k.improve(goTries)
		}
		tries += k.tries + 1
		if k.value > d.value+gainStep {
			d = k
		}
	}
	return d
}

func empty(n int) []int { return slices.Repeat([]int{none}, n) }
