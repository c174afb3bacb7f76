package season

import (
	"math"
	"slices"
)

const (
	reopenLooks  = 2    // times that all dogs are asked, the next only after a gain
	reopenTries  = 4    // dogs whose sessions are exchanged after each
	reopenRounds = 5    // pricing rounds of the string after an exchange
	reopenTol    = 2e-4 // relative: what a dog's new sessions must promise
)

// reopen chooses all sessions of single dogs anew at the plan's own prices, the dog that promises most first, and keeps
// what makes the plan better. It is for a settled plan whose prices and columns were kept.
func (s *solver) reopen() {
	for range reopenLooks {
		cols, gains := s.anew()
		value := s.value
		for range reopenTries {
			at, most := -1, reopenTol*math.Max(1, math.Abs(s.value))
			for d, g := range gains {
				if g > most {
					at, most = d, g
				}
			}
			if at < 0 || s.past() {
				break
			}
			gains[at] = 0
			s.exchange(cols[at])
		}
		if s.value <= value {
			return
		}
	}
}

// exchange settles a dog's sessions as the column has them, if that makes the plan better.
func (s *solver) exchange(c *column) {
	fixed, pool, centre, value := slices.Clone(s.fixed), slices.Clone(s.pool), s.centre, s.value
	s.fixed[c.dog] = c.sessions
	s.pool[c.dog] = append(slices.Clone(s.pool[c.dog]), c)
	m, err := s.resettle()
	if err == nil && s.generate(m, reopenRounds, 0) == nil {
		s.keep(m)
		s.take(m)
	}
	if s.value <= value {
		s.fixed, s.pool, s.centre = fixed, pool, centre
	}
}

// anew is every dog's best found season at the plan's prices with its sessions open, and what that promises over the
// best with its sessions as they are.
func (s *solver) anew() (cols []*column, gains []float64) {
	cols, gains = make([]*column, len(s.dogs)), make([]float64, len(s.dogs))
	s.each(s.centre, func(n *dogNets) {
		now := math.Inf(-1)
		for _, c := range s.pool[n.d] {
			if c.fits(s.p, s.fixed[n.d]) {
				now = math.Max(now, n.lagrangian(c.with(s.p, s.fixed[n.d])))
			}
		}
		for t, z := range s.fixed[n.d] {
			n.setSessions(t, z)
		}
		n.search()
		c, v := n.fit(s.pool[n.d], fitTol)
		n.highest(0, rootNodes)
		n.search()
		if o, w := n.fit(s.pool[n.d], fitTol); w > v {
			c, v = o, w
		}
		cols[n.d], gains[n.d] = c, v-now
	})
	if s.over() {
		clear(gains)
	}
	return cols, gains
}
