package week

import "math"

// Options bound the search.
type Options struct {
	Nodes   int            // nodes of the search; the same number gives the same answer
	Tries   int            // changes priced in looking for a better week where the first nodes prove nothing
	Limit   float64        // seconds; 0 = none
	Seconds func() float64 // stopwatch; nil = no clock
}

// DefaultOptions are enough for the usual week.
func DefaultOptions() Options { return Options{Nodes: 20000, Tries: 150000} }

// Result is a week laid out.
type Result struct {
	Sessions []PlacedSession // as the problem's
	Duties   []PlacedDuty    // as the problem's
	Lines    []Line          // hands' days with work, by day, then hands

	Objective, Bound, Gap float64 // points; Gap = (Bound-Objective) / max(1, |Bound|), 0 = proven best
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
	t := newTree(m, opt)
	bound := t.search()
	r := m.result(t.best)
	r.Bound, r.Nodes = bound, t.nodes
	r.Objective += t.bestValue
	r.Gap = (bound - r.Objective) / math.Max(1, math.Abs(bound))
	return r, nil
}

// result is a choice in the problem's own terms.
func (m *menu) result(chosen []int) Result {
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
	for i := range p.Duties {
		if c := chosen[len(p.Sessions)+i]; c != none {
			r.Duties[i] = PlacedDuty{true, m.options[c].day, m.options[c].lead}
		}
	}
	for li := range m.lines {
		m.worth(li, chosen, func(item, part int, minutes float64) {
			if minutes > slack {
				r.Sessions[item].Minutes[part], r.Sessions[item].By[part] = minutes, m.lines[li].hands
			}
		})
	}
	chosen = append([]int(nil), chosen...)
	for i := range p.Sessions {
		r.Objective -= m.dropCrumbs(i, chosen, &r.Sessions[i])
	}
	r.Lines = m.layOut(chosen, r.Sessions)
	return r
}

// dropCrumbs leaves out what was cut so short that it is not worth doing and returns what that costs.
func (m *menu) dropCrumbs(i int, chosen []int, s *PlacedSession) (lost float64) {
	if !s.Placed {
		return 0
	}
	var pull float64
	drop := func(a int) {
		part := &m.p.Sessions[i].Parts[a]
		lost += part.Value * s.Minutes[a] / part.Minutes
		s.Minutes[a], s.By[a] = 0, -1
	}
	for a, x := range s.Minutes {
		if part := &m.p.Sessions[i].Parts[a]; x < part.Minutes-slack && x < part.Least {
			drop(a)
		}
		pull += s.Minutes[a]
	}
	if pull > 0 && (pull >= m.p.Sessions[i].Least || pull >= m.p.Sessions[i].minutes()-slack) {
		return lost
	}
	for a := range s.Minutes {
		drop(a)
	}
	lost += m.options[chosen[i]].gain
	s.Placed, s.Hands, s.Helper = false, -1, -1
	chosen[i] = none
	return lost
}
