package week

import (
	"cmp"
	"math"
	"slices"
)

// tilts are what the prices of a day's time are multiplied by, those of its longest stretch and those of the others:
// what is left of a day that fills up is dearer, or cheaper, than the time of the whole day.
var tilts = [...][2]float64{
	{1, 1}, {0, 0}, {0.5, 0.5}, {0.75, 1}, {0.9, 0.8}, {1.15, 1}, {1.4, 1.2}, {2, 2}, {1, 0.4}, {1, 1.6},
}

// tilted is a bound at each of the tilts; the least of them counts.
type tilted [len(tilts)]float64

// What the parts of the search count as, in steps of half a microsecond or so.
const (
	relaxPart  = 8 // options for one step in a round of prices
	tablePart  = 3 // options for one step in a table of tilted prices
	walkSteps  = 4 // looks for one step
	weighLooks = 8 // that weighing a day's work counts as
)

// walk is a search for the best work of a day.
type walk struct {
	b      *block
	gain   []float64 // option: what it gains
	barred []int     // option: not to be taken if above 0
	theta  float64   // only what is worth more is looked for
	looks  int
	most   int // looks in a mode
	taken  []int
	found  [][]int // better and better

	value  []tilted // option
	tops   []tilted // place in items: of its best option
	rest   []tilted // place in order: most that the items from there on can add
	sums   []tilted // options taken: what they come to
	order  []int    // places in items
	scaled prices
}

// best looks for work of the day that is worth more than theta: it returns what no work is worth more than, at least
// theta, and what was found on the way. It is false when it ended early.
func (b *block) best(gain []float64, barred []int, theta float64, most int) (value float64, found [][]int, ok bool) {
	w := walk{
		b: b, gain: gain, barred: slices.Clone(barred), theta: theta, scaled: b.m.newPrices(0),
		value: make([]tilted, len(b.m.options)), tops: make([]tilted, len(b.items)),
		rest: make([]tilted, len(b.items)+1), sums: make([]tilted, len(b.items)+1), order: make([]int, len(b.items)),
	}
	for _, o := range b.modes {
		b.relax(o, &w, nil, theta, dayRounds)
	}
	slices.SortStableFunc(b.modes, func(x, y *mode) int { return cmp.Compare(y.low, x.low) })
	ok = true
	for _, o := range b.modes {
		if o.low <= w.theta {
			continue
		}
		w.looks, w.most = 0, min(most, (b.limit-b.steps)*walkSteps)
		if !w.mode(o) {
			ok = false
			value = math.Max(value, o.low)
		}
		b.steps += w.looks / walkSteps
	}
	return math.Max(value, w.theta), w.found, ok
}

// How many rounds of prices a day gets, a mode without shared dogs, and a choice of shared dogs.
const (
	dayRounds    = 30
	plainRounds  = 10
	sharedRounds = 8
)

// mode looks for the best work in a mode, for each choice of dogs that are shared by itself: these hang together in a
// way that prices of time don't see.
func (w *walk) mode(o *mode) bool {
	if len(o.shares) == 0 {
		return w.fill(o)
	}
	plain := &mode{rows: o.rows, q: w.b.m.newPrices(len(o.rows))}
	copy(plain.q.row, o.q.row)
	s := sharing{w: w, o: plain}
	for _, options := range w.b.options {
		for _, c := range options {
			if w.b.m.options[c].helper >= 0 {
				if w.barred[c] == 0 {
					s.options = append(s.options, c)
				}
				w.barred[c]++
			}
		}
	}
	w.b.relax(plain, w, nil, w.theta, plainRounds)
	alone := make([]float64, len(w.b.m.items))
	bound := w.b.ask(plain, w, nil, func(c int) {
		x := &w.b.m.options[c]
		alone[x.item] = w.b.m.reduced(x, w.gain[c], &plain.q)
	})
	for _, c := range s.options {
		x := &w.b.m.options[c]
		s.change = append(s.change, w.b.m.reduced(x, w.gain[c], &plain.q)-alone[x.item])
	}
	ok := s.from(0, bound)
	for _, options := range w.b.options {
		for _, c := range options {
			if w.b.m.options[c].helper >= 0 {
				w.barred[c]--
			}
		}
	}
	return ok
}

// sharing goes through the choices of shared dogs of a mode.
type sharing struct {
	w       *walk
	o       *mode // without the shares
	options []int
	change  []float64 // what taking one changes of the bound
}

// from fills the day beside what is shared already, then shares more of the options from a place on.
func (s *sharing) from(at int, bound float64) bool {
	w := s.w
	if w.b.steps+w.looks/walkSteps > w.b.limit {
		return false
	}
	if bound > w.theta && (len(w.taken) == 0 || w.b.relax(s.o, w, w.taken, w.theta, sharedRounds) > w.theta) && !w.fill(s.o) {
		return false
	}
	for n := at; n < len(s.options); n++ {
		c := s.options[n]
		item := w.b.m.options[c].item
		most := bound + s.change[n]
		for _, x := range s.change[n+1:] {
			most += math.Max(0, x)
		}
		if most <= w.theta || !w.goes(c) || slices.ContainsFunc(w.taken, func(x int) bool { return w.b.m.options[x].item == item }) {
			continue
		}
		ok := true
		w.taken = append(w.taken, c)
		if w.fits(c) {
			w.bar(item, 1)
			ok = s.from(n+1, bound+s.change[n])
			w.bar(item, -1)
		}
		w.taken = w.taken[:len(w.taken)-1]
		if !ok {
			return false
		}
	}
	return true
}

func (w *walk) bar(item, by int) {
	for _, c := range w.b.m.items[item] {
		w.barred[c] += by
	}
}

// fill looks for the best work beside what is taken: items by their worth, each in every way or not at all, where the
// tilted prices leave hope.
func (w *walk) fill(o *mode) bool {
	b := w.b
	b.steps += 1 + b.size/tablePart
	w.scaled.row = slices.Grow(w.scaled.row[:0], len(o.rows))[:len(o.rows)]
	clear(w.tops)
	sum := &w.sums[len(w.taken)]
	for k, tilt := range tilts {
		sum[k] = 0
		for r := range o.rows {
			f := tilt[1]
			if slices.Contains(o.rows[r].free, b.longest) {
				f = tilt[0]
			}
			w.scaled.row[r] = min(o.rows[r].cap, f*o.q.row[r])
			sum[k] += w.scaled.row[r] * o.rows[r].most
		}
		w.scaled.spread(o.rows)
		for _, c := range w.taken {
			sum[k] += b.m.reduced(&b.m.options[c], w.gain[c], &w.scaled)
		}
		for n := range b.items {
			for _, c := range b.options[n] {
				if w.barred[c] == 0 {
					w.value[c][k] = b.m.reduced(&b.m.options[c], w.gain[c], &w.scaled)
					w.tops[n][k] = max(w.tops[n][k], w.value[c][k])
				}
			}
		}
	}
	for n := range w.order {
		w.order[n] = n
	}
	slices.SortStableFunc(w.order, func(x, y int) int { return cmp.Compare(w.tops[y][0], w.tops[x][0]) })
	for n := len(w.order) - 1; n >= 0; n-- {
		for k := range tilts {
			w.rest[n][k] = w.rest[n+1][k] + w.tops[w.order[n]][k]
		}
	}
	if len(w.taken) > 0 {
		w.weigh()
	}
	return w.from(0)
}

// from tries to take more of the items from a place on.
func (w *walk) from(at int) bool {
	acc, sum := &w.sums[len(w.taken)], &tilted{}
	if len(w.taken)+1 < len(w.sums) {
		sum = &w.sums[len(w.taken)+1]
	}
	for n := at; n < len(w.order) && w.hope(acc, &w.rest[n]); n++ {
		for _, c := range w.b.options[w.order[n]] {
			if w.barred[c] > 0 {
				continue
			}
			for k, v := range &w.value[c] {
				sum[k] = acc[k] + v
			}
			if !w.hope(sum, &w.rest[n+1]) || !w.goes(c) {
				continue
			}
			if w.looks++; w.looks > w.most {
				return false
			}
			ok := true
			w.taken = append(w.taken, c)
			if w.fits(c) {
				if w.hope(sum, &w.rest[len(w.order)]) {
					w.weigh()
				}
				ok = w.from(n + 1)
			}
			w.taken = w.taken[:len(w.taken)-1]
			if !ok {
				return false
			}
		}
	}
	return true
}

// hope reports whether what is reached and the most that can be added may be worth enough.
func (w *walk) hope(sum, rest *tilted) bool {
	for k := range sum {
		if sum[k]+rest[k] <= w.theta {
			return false
		}
	}
	return true
}

// goes reports whether an option goes with those taken.
func (w *walk) goes(c int) bool {
	for _, x := range w.b.m.options[c].against {
		if slices.Contains(w.taken, x) {
			return false
		}
	}
	return true
}

// fits reports whether set-ups, duties and shared dogs have time; c was taken last.
func (w *walk) fits(c int) bool {
	m := w.b.m
	for k := range m.options[c].loads {
		f := m.options[c].loads[k].stretch
		if m.others(f, w.taken) > m.free[f].minutes+slack {
			return false
		}
	}
	return m.options[c].helper < 0 || m.sharedFit(w.taken)
}

// weigh takes what was taken as the best if it is.
func (w *walk) weigh() {
	w.looks += weighLooks
	value := 0.0
	for _, c := range w.taken {
		value += w.gain[c]
	}
	for _, li := range w.b.lines {
		v, ok := w.b.m.worth(li, w.taken, nil)
		if !ok {
			return
		}
		value += v
	}
	if value > w.theta {
		w.theta = value
		w.found = append(w.found, slices.Clone(w.taken))
	}
}
