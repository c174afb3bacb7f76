package season

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// dive fixes the session weeks of the dogs that are open, those whose mix is clearest first, until all are fixed in the
// master.
func (s *solver) dive(m *master) error {
	for {
		open := s.openChoices(m)
		if len(open) == 0 {
			break
		}
		for i, o := range open {
			if i > len(open)/2 && o.x < clearMix {
				break
			}
			s.fixed[o.dog] = o.sessions
			s.dogs[o.dog].setClearings(o.clear)
			m.hold(o.dog, o.sessions)
		}
		if s.clock.expired() {
			s.mixAtHand(m)
			return errCut
		}
		if err := s.makeFeasible(m, s.fixed); err != nil {
			return err
		}
		if err := s.generate(m, diveRounds, diveSmoothing); err != nil {
			return err
		}
		s.mixAtHand(m)
		if changed := s.resettle(m.prices()); changed != nil {
			for _, c := range changed {
				m.hold(c.dog, c.sessions)
				m.addColumn(c)
			}
			if err := s.makeFeasible(m, s.fixed); err != nil {
				return err
			}
		}
		m.slim()
	}
	if err := s.generate(m, finalRounds, diveSmoothing); err != nil {
		return err
	}
	s.keep(m)
	return nil
}

var errCut = errors.New("cut short")

// choice is a dog's session weeks and weeks of clearing, with the part of its mix that has them.
type choice struct {
	*column
	x float64
}

// openChoices lists the open dogs with their heaviest session weeks and weeks of clearing, heaviest first.
func (s *solver) openChoices(m *master) []choice {
	var out []choice
	for d, parts := range m.mixes() {
		if s.fixed[d] != nil {
			continue
		}
		x, have := heaviest(parts)
		out = append(out, choice{have[0].column, x})
	}
	slices.SortStableFunc(out, func(a, b choice) int { return cmp.Compare(b.x, a.x) })
	return out
}

// heaviest are the columns with the session weeks and weeks of clearing that most of a dog's mix has, and how much that is.
func heaviest(parts []part) (x float64, have []part) {
	for i, q := range parts {
		if slices.ContainsFunc(parts[:i], func(o part) bool { return o.sameWay(q.column) }) {
			continue
		}
		var same []part
		sum := 0.0
		for _, o := range parts {
			if o.sameWay(q.column) {
				same = append(same, o)
				sum += o.x
			}
		}
		if sum > x {
			x, have = sum, same
		}
	}
	return x, have
}

// feasibleMaster is a new master that holds to the sessions and keeps the limits; sessions that can't be had are given up.
func (s *solver) feasibleMaster(fixed [][]int) (*master, error) {
	m, err := s.masterOf(s.p, fixed)
	if err != nil {
		return nil, err
	}
	return m, s.makeFeasible(m, fixed)
}

// makeFeasible solves a master that holds to the sessions; those whose set-ups alone break a row are given up.
func (s *solver) makeFeasible(m *master, fixed [][]int) error {
	for {
		if err := m.optimise(); err != nil || m.overtimeUsed() <= overtimeTol {
			return err
		}
		d := s.giveUp(m, fixed)
		if d < 0 {
			return fmt.Errorf("the fixed sessions do not fit")
		}
		m.hold(d, fixed[d])
	}
}

// giveUp drops one fixed session in the week that lacks most minutes, the one with the least work, and returns whose;
// -1 when there is none.
func (s *solver) giveUp(m *master, fixed [][]int) int {
	worst, at := overtimeTol/2, -1
	for i, r := range m.rows {
		if r >= 0 && m.over[r] >= 0 && m.now.X[m.over[r]] > worst {
			worst, at = m.now.X[m.over[r]], i
		}
	}
	if at < 0 {
		return -1
	}
	week := s.p.Rows[at].Week
	work := make([]float64, len(s.p.Dogs))
	for _, q := range m.parts() {
		work[q.dog] += q.x * q.work[week]
	}
	dog := -1
	for d, f := range fixed {
		if f != nil && f[week] > 0 && (dog < 0 || work[d] < work[dog]) {
			dog = d
		}
	}
	if dog < 0 {
		return -1
	}
	fewer := slices.Clone(fixed[dog])
	fewer[week]--
	fixed[dog] = fewer
	return dog
}
