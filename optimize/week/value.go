package week

import (
	"cmp"
	"math"
	"slices"
)

// slack is the part of a minute by which arithmetic may miss a bound.
const slack = 1e-7

// none is the choice of an item that is left out.
const none = -1

// pullRoom is the most minutes of pulling in free time of so many minutes of which other are taken, with the breaks
// that they need: the largest x with x + breaks(x)*break <= minutes - other.
func (p *Problem) pullRoom(minutes, other float64) (most float64) {
	for n := 0.0; ; n++ {
		left := minutes - other - n*p.Break
		if left <= most {
			return math.Max(0, most)
		}
		most = math.Max(most, math.Min(left, (n+1)*p.BreakAfter))
	}
}

// piece is a part of a session in a line.
type piece struct {
	item, part     int
	stretch        int // place among the line's
	minutes, value float64
	rate           float64 // value a minute
	least          float64 // minutes
}

// sortPieces puts the parts of every load in the order of what a minute of them is worth.
func (m *menu) sortPieces() {
	for c := range m.options {
		o := &m.options[c]
		for k := range o.loads {
			ld := &o.loads[k]
			l := &m.lines[m.free[ld.stretch].line]
			at := slices.Index(l.free, ld.stretch)
			for _, a := range ld.parts {
				part := &m.p.Sessions[o.item].Parts[a]
				value := m.p.worth(part, l.hands)
				ld.pieces = append(ld.pieces, piece{o.item, a, at, part.Minutes, value, value / part.Minutes, part.Least})
			}
			slices.SortStableFunc(ld.pieces, func(a, b piece) int { return cmp.Compare(b.rate, a.rate) })
		}
	}
}

// worth is what a part is worth when the hands do it: less than its value where others could.
func (p *Problem) worth(part *Part, hands int) float64 {
	if part.Kind == JacketKind {
		return part.Value
	}
	return max(0, part.Value-p.Hands[hands].Dear*part.Minutes)
}

// filling is the work of a line while it is filled in.
type filling struct {
	room   [8]float64 // of pulling, by stretch
	heads  [][]piece  // of the options, what is left of them
	parts  []filled
	crumbs [8]*piece // parts that would be cut too short: they are left out
	count  int
	cut    bool // some part is not whole
}

// filled is a part with its minutes.
type filled struct {
	of      *piece
	minutes float64
}

// worth is the value of a line when the items take the chosen options: their parts are filled in by what a minute of
// them is worth, until stretches, hand load or worth end. The bounds are nested, so that filling by worth is best. What would be cut
// too short is left out, and its time is for others. It is false when set-ups and duties alone don't fit, or when so
// little is left of a session that it is not worth doing. done, if not nil, is given the minutes of each part.
func (m *menu) worth(li int, chosen []int, done func(item, part int, minutes float64)) (value float64, ok bool) {
	f := &m.filling
	f.count = 0
	for {
		before := f.count
		if value, ok = m.fill(f, li, chosen); !ok {
			return 0, false
		}
		if f.count == before {
			break
		}
	}
	if f.cut && !m.worthDoing(f, li, chosen) {
		return 0, false
	}
	if done != nil {
		for _, x := range f.parts {
			done(x.of.item, x.of.part, x.minutes)
		}
	}
	return value, true
}

// fill fills a line in but for the crumbs that are known, and finds more of them.
func (m *menu) fill(f *filling, li int, chosen []int) (value float64, ok bool) {
	l := &m.lines[li]
	heads := f.heads[:0]
	var other float64
	for n, stretch := range l.free {
		sum := 0.0
		for _, c := range chosen {
			if c == none {
				continue
			}
			for k := range m.options[c].loads {
				if ld := &m.options[c].loads[k]; ld.stretch == stretch {
					sum += ld.other
					if len(ld.pieces) > 0 {
						heads = append(heads, ld.pieces)
					}
				}
			}
		}
		if sum > m.free[stretch].minutes+slack {
			return 0, false
		}
		f.room[n] = m.p.pullRoom(m.free[stretch].minutes, sum)
		other += sum
	}
	f.heads = heads
	f.parts, f.cut = f.parts[:0], false
	strip, even := l.strip, l.even-other
	value = -m.p.Even * max(0, -even)
	for len(heads) > 0 {
		best := 0
		for k := range heads {
			if heads[k][0].rate > heads[best][0].rate {
				best = k
			}
		}
		x := &heads[best][0]
		if heads[best] = heads[best][1:]; len(heads[best]) == 0 {
			heads = slices.Delete(heads, best, best+1)
		}
		most := min(x.minutes, f.room[x.stretch], strip)
		if x.rate < m.p.Even {
			most = min(most, max(0, even))
		}
		if most < x.minutes-slack {
			f.cut = true
			if most <= 0 || slices.Contains(f.crumbs[:f.count], x) {
				continue
			}
			if most < x.least && f.count < len(f.crumbs) {
				f.crumbs[f.count] = x
				f.count++
				return 0, true
			}
		} else if f.count > 0 && slices.Contains(f.crumbs[:f.count], x) {
			continue
		}
		value += x.rate*most - m.p.Even*max(0, most-max(0, even))
		f.room[x.stretch] -= most
		strip -= most
		even -= most
		f.parts = append(f.parts, filled{x, most})
	}
	return value, true
}

// worthDoing reports whether all sessions of a line that one pair of hands does alone have enough left to be worth
// their set-up.
func (m *menu) worthDoing(f *filling, li int, chosen []int) bool {
	for _, c := range chosen {
		if c == none || len(m.options[c].loads) != 1 || len(m.options[c].loads[0].pieces) == 0 || m.free[m.options[c].loads[0].stretch].line != li {
			continue
		}
		s := &m.p.Sessions[m.options[c].item]
		var pull float64
		for _, x := range f.parts {
			if x.of.item == m.options[c].item {
				pull += x.minutes
			}
		}
		if pull < s.Least && pull < s.minutes()-slack {
			return false
		}
	}
	return true
}

// others are the minutes of set-ups and duties that the chosen options have in a stretch.
func (m *menu) others(f int, chosen []int) (sum float64) {
	for _, c := range chosen {
		for k := range m.options[c].loads {
			if l := &m.options[c].loads[k]; l.stretch == f {
				sum += l.other
			}
		}
	}
	return sum
}

// value is what a choice is worth, and whether it keeps all rules.
func (m *menu) value(chosen []int) (value float64, ok bool) {
	for i, c := range chosen {
		if c == none {
			continue
		}
		if !m.fits(i, c, chosen) || !m.inOrder(i, chosen) {
			return 0, false
		}
		value += m.options[c].gain
	}
	if !m.sharedFit(chosen) {
		return 0, false
	}
	for li := range m.lines {
		v, ok := m.worth(li, chosen, nil)
		if !ok {
			return 0, false
		}
		value += v
	}
	return value, true
}

// fits reports whether option c of item i goes with what the other items of its dog chose.
func (m *menu) fits(i, c int, chosen []int) bool {
	o := &m.options[c]
	for _, x := range o.against {
		if chosen[m.options[x].item] == x {
			return false
		}
	}
	return !m.bath(i) || m.followed(o, chosen)
}

// followed reports whether a session follows a lifting bath in time.
func (m *menu) followed(o *option, chosen []int) bool {
	if o.lifted {
		return true
	}
	for _, x := range o.lifts {
		if chosen[m.options[x].item] == x {
			return true
		}
	}
	return false
}

// sharedRoom is the time in which shared dogs must be done by the second hands of a day, from when everybody has begun;
// a break is kept free for pulling before them.
func (m *menu) sharedRoom(t int) float64 {
	second := m.free[m.line(m.second[t], t).free[0]]
	begun := second.start
	for h := range m.at {
		if m.at[h][t] >= 0 {
			begun = math.Max(begun, m.free[m.line(h, t).free[0]].start)
		}
	}
	return second.start + second.minutes - m.p.Break - begun
}

// sharedFit reports whether the dogs that two pairs of hands share can be done one after the other on each day.
func (m *menu) sharedFit(chosen []int) bool {
	for _, c := range chosen {
		if c == none || m.options[c].helper < 0 {
			continue
		}
		o := &m.options[c]
		var sum float64
		for _, x := range chosen {
			if x == none || m.options[x].helper < 0 || m.options[x].day != o.day {
				continue
			}
			sum += m.options[x].shared[1]
			if m.options[x].first == o.first {
				sum += m.options[x].shared[0]
			}
		}
		if sum > m.sharedRoom(o.day)+slack {
			return false
		}
	}
	return true
}

// Breaks is how many breaks so many minutes of pulling need in one go, one after each so many minutes.
func Breaks(pull, after float64) int { return max(0, int(math.Ceil((pull-slack)/after))-1) }
