package week

import (
	"math"
	"slices"
)

// Options bound the search. The same numbers of nodes, steps and tries give the same answer.
type Options struct {
	Nodes   int            // nodes of the search
	Steps   int            // steps of the search, of about half a microsecond
	Tries   int            // changes priced in looking for a first good week
	Within  float64        // points by which a better week, if there is one, does not matter
	Limit   float64        // seconds; 0 = none
	Seconds func() float64 // stopwatch; nil = no clock
}

// DefaultOptions are enough for the usual week.
func DefaultOptions() Options {
	return Options{Nodes: 5000, Steps: 8_000_000, Tries: 40000, Within: DefaultWithin}
}

// DefaultWithin is a part of a point that nobody sees in a week: about what a day sooner is worth to the session that
// presses most.
const DefaultWithin = 0.002

// Result is a week laid out.
type Result struct {
	Sessions []PlacedSession // as the problem's
	Duties   []PlacedDuty    // as the problem's
	Lines    []Line          // hands' days with work, by day, then hands

	Objective, Bound, Gap float64 // points; Gap = (Bound-Objective) / max(1, |Bound|)
	Proven                bool    // no week is worth more by Options.Within, but for shared sessions that Least leaves out (Gap counts them)
	Nodes                 int
}

// PlacedSession is what became of a session.
type PlacedSession struct {
	Placed  bool
	Day     int
	Hands   int       // who set it up
	Helper  int       // who did a part of it; -1 = nobody
	Minutes []float64 // of each part
	By      []int     // hands of each part; -1 = left out
}

// PlacedDuty is what became of a duty.
type PlacedDuty struct {
	Placed     bool
	Day, Hands int
}

// Solve lays the week out. The error says what is wrong with the problem.
func Solve(p *Problem, opt Options) (Result, error) {
	if err := p.Validate(); err != nil {
		return Result{}, err
	}
	m := newMenu(p)
	first := m.first(opt)
	t := newSearch(m, opt, first)
	bound := t.run()
	r := m.result(t.best)
	for _, other := range t.near {
		if x := m.result(other); x.Objective > r.Objective+gainStep {
			r = x
		}
	}
	r.Bound, r.Nodes, r.Proven = bound, t.nodes, t.beaten(bound)
	r.Gap = (bound - r.Objective) / math.Max(1, math.Abs(bound))
	return r, nil
}

// result is a choice in the problem's own terms, without shared sessions of which too little is left.
func (m *menu) result(chosen []int) Result {
	chosen = slices.Clone(chosen)
	var r Result
	for again := true; again; {
		r = m.placed(chosen)
		again = false
		for i := range m.p.Sessions {
			var pull float64
			for _, x := range r.Sessions[i].Minutes {
				pull += x
			}
			if s := &m.p.Sessions[i]; chosen[i] != none && pull < s.minutes()-slack && (pull == 0 || pull < s.Least) {
				m.leave(i, chosen)
				again = true
			}
		}
	}
	r.Lines = m.layOut(chosen, r.Sessions)
	return r
}

// leave leaves a session out, with those that must not be placed without it, and the baths that are for it.
func (m *menu) leave(i int, chosen []int) {
	for ; i != none; i = m.after[i] {
		chosen[i] = none
	}
	for b, c := range chosen {
		if c != none && m.bath(b) && !m.followed(&m.options[c], chosen) {
			chosen[b] = none
		}
	}
}

// placed is a choice with the minutes and the worth of its parts.
func (m *menu) placed(chosen []int) Result {
	p := m.p
	r := Result{Sessions: make([]PlacedSession, len(p.Sessions)), Duties: make([]PlacedDuty, len(p.Duties))}
	for i := range p.Sessions {
		s := PlacedSession{Hands: -1, Helper: -1}
		for range p.Sessions[i].Parts {
			s.Minutes, s.By = append(s.Minutes, 0), append(s.By, -1)
		}
		if c := chosen[i]; c != none {
			o := &m.options[c]
			s.Placed, s.Day, s.Hands, s.Helper = true, o.day, o.lead, o.helper
		}
		r.Sessions[i] = s
	}
	for i, c := range chosen {
		if c == none {
			continue
		}
		r.Objective += m.options[c].gain
		if n := i - len(p.Sessions); n >= 0 {
			r.Duties[n] = PlacedDuty{true, m.options[c].day, m.options[c].lead}
		}
	}
	for li := range m.lines {
		value, _ := m.worth(li, chosen, func(item, part int, minutes float64) {
			if minutes > slack {
				r.Sessions[item].Minutes[part], r.Sessions[item].By[part] = minutes, m.lines[li].hands
			}
		})
		r.Objective += value
	}
	return r
}
