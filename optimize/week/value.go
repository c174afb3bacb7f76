package week

import (
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
	item, part, stretch int
	minutes, value      float64
}

// worth is the value of a line when the items take the chosen options: their parts are filled in by what a minute of
// them is worth, until stretches, hand load or worth end. The bounds are nested, so that filling by worth is best.
// It is false when set-ups and duties alone don't fit. done, if not nil, is given the minutes of each part.
func (m *menu) worth(li int, chosen []int, done func(item, part int, minutes float64)) (value float64, ok bool) {
	l := &m.lines[li]
	var buffer [48]piece
	pieces := buffer[:0]
	var rooms [8]float64
	room := rooms[:0]
	var other float64
	for _, f := range l.free {
		sum := 0.0
		for _, c := range chosen {
			if c == none {
				continue
			}
			o := &m.options[c]
			for k := range o.loads {
				ld := &o.loads[k]
				if ld.stretch != f {
					continue
				}
				sum += ld.other
				for _, a := range ld.parts {
					part := &m.p.Sessions[o.item].Parts[a]
					pieces = append(pieces, piece{o.item, a, len(room), part.Minutes, part.Value})
				}
			}
		}
		if sum > m.free[f].minutes+slack {
			return 0, false
		}
		room = append(room, m.p.pullRoom(m.free[f].minutes, sum))
		other += sum
	}
	slices.SortStableFunc(pieces, func(a, b piece) int {
		switch x, y := a.value*b.minutes, b.value*a.minutes; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	strip, even := l.strip, l.even-other
	value = -m.p.Even * math.Max(0, -even)
	for _, x := range pieces {
		most := math.Min(x.minutes, math.Min(room[x.stretch], strip))
		if x.value < m.p.Even*x.minutes {
			most = math.Min(most, math.Max(0, even))
		}
		if most > 0 {
			value += x.value*most/x.minutes - m.p.Even*math.Max(0, most-math.Max(0, even))
			room[x.stretch] -= most
			strip -= most
			even -= most
		} else {
			most = 0
		}
		if done != nil {
			done(x.item, x.part, most)
		}
	}
	return value, true
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
