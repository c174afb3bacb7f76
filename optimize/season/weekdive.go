package season

import (
	"cmp"
	"math"
	"slices"
)

// A dive by weeks: of the master's mix the sessions that are nearest to whole are held, week by week, and the dogs with broken sessions
// answer that with others, until no dog's mix has different sessions. Fixing whole dogs at once (dive.go) gives away more, because the
// columns met before have few of the sessions that go with those of the others.

// diveWeeks fixes the sessions of the dogs that are open.
func (s *solver) diveWeeks(m *master) error {
	open := make([]bool, len(s.dogs))
	for d, f := range s.fixed {
		open[d] = f == nil
	}
	err := s.holdWeeks(m, open)
	for d, n := range s.dogs {
		if open[d] {
			n.low, n.high = n.dog.open(s.p.Weeks)
		}
	}
	if err != nil {
		return err
	}
	return s.dive(m)
}

// holdWeeks holds sessions of the open dogs until their mixes have no broken ones.
func (s *solver) holdWeeks(m *master, open []bool) error {
	best := s.duals.best
	s.held = true
	defer func() { s.held, s.known, s.duals.best = false, nil, best }()
	for range mostHolds {
		broken, dogs := s.brokenSessions(m, open)
		changed := s.holdMore(broken, dogs)
		if len(changed) == 0 || s.clock.spent(diveTime) {
			break
		}
		for _, d := range changed {
			m.keepWithin(d, s.dogs[d].low, s.dogs[d].high)
		}
		if err := m.optimise(); err != nil {
			return err
		}
		s.known = s.inUse(m)
		for d, some := range dogs {
			if some {
				s.known[d] = nil
			}
		}
		if err := s.generate(m, 1, 0); err != nil {
			return err
		}
		if err := s.again(m); err != nil {
			return err
		}
		if s.clock.expired() {
			s.mixAtHand(m)
			return errCut
		}
		m.slim()
	}
	return nil
}

// brokenSession is a week of which a dog's mix has a part of a session beyond whole ones.
type brokenSession struct {
	dog, week, whole int
	part             float64
}

// brokenSessions are those of the open dogs, the nearest to one more first, and which dogs have some.
func (s *solver) brokenSessions(m *master, open []bool) (broken []brokenSession, dogs []bool) {
	dogs = make([]bool, len(s.dogs))
	for d, parts := range m.mixes() {
		if !open[d] {
			continue
		}
		var all float64
		sessions := make([]float64, s.p.Weeks)
		for _, q := range parts {
			all += q.x
			for t, z := range q.sessions {
				sessions[t] += q.x * float64(z)
			}
		}
		for t, z := range sessions {
			z /= all
			whole := math.Floor(z + brokenPart)
			if z-whole <= brokenPart {
				continue
			}
			dogs[d] = true
			if int(whole) < s.dogs[d].high[t] {
				broken = append(broken, brokenSession{d, t, int(whole), z - whole})
			}
		}
	}
	slices.SortStableFunc(broken, func(a, b brokenSession) int { return cmp.Compare(b.part, a.part) })
	return broken, dogs
}

// holdMore holds more sessions: the nearest to whole of some of the dogs, and all that are as good as whole. Where a dog has none that is
// likely, its least likely ones are left out. It returns whose range is another now.
func (s *solver) holdMore(broken []brokenSession, dogs []bool) (changed []int) {
	most := 0
	for _, some := range dogs {
		if some {
			most++
		}
	}
	most = max(1, int(math.Ceil(holdDogs*float64(most))))
	for _, b := range broken {
		n := s.dogs[b.dog]
		seen := slices.Contains(changed, b.dog)
		if b.part < surePart && (seen || len(changed) >= most) {
			continue
		}
		if !seen {
			n.low, n.high = slices.Clone(n.low), slices.Clone(n.high)
			changed = append(changed, b.dog)
		}
		if b.part >= likelyPart && s.holdsSetUp(b.week, b.dog) {
			n.low[b.week] = b.whole + 1
			continue
		}
		for _, o := range broken {
			if o.dog == b.dog && (o == b || b.part < likelyPart && o.part <= b.part/2) {
				n.low[o.week], n.high[o.week] = min(n.low[o.week], o.whole), o.whole
			}
		}
	}
	return changed
}

// holdsSetUp reports whether the week's hours hold the set-ups of the sessions that are held, and of one more of the dog.
func (s *solver) holdsSetUp(week, dog int) bool {
	for _, r := range s.p.Rows {
		if r.Week != week || !r.SetUps {
			continue
		}
		left := r.Capacity - s.dogs[dog].dog.SetUp
		for d, n := range s.dogs {
			z := n.low[week]
			if f := s.fixed[d]; f != nil {
				z = f[week]
			}
			left -= n.dog.SetUp * float64(z)
		}
		if left < 0 {
			return false
		}
	}
	return true
}

// keepWithin holds the dog to sessions within the range: its columns that have others are banned, and those of them that can be brought
// into it come in so.
func (m *master) keepWithin(d int, low, high []int) {
	for j := range len(m.columns) {
		c := m.columns[j]
		if c == nil || c.dog != d || m.banned(j) {
			continue
		}
		sessions := slices.Clone(c.sessions)
		for t, z := range sessions {
			sessions[t] = min(max(z, low[t]), high[t])
		}
		if slices.Equal(sessions, c.sessions) {
			continue
		}
		m.ban(j)
		if c.fits(m.p, sessions) {
			m.addColumn(c.with(m.p, sessions))
		}
	}
	m.idle[d] = m.addColumn(idleColumn(m.p, d, low))
}
