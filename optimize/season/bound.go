package season

import (
	"math"
	"slices"
)

// prove uses the rest of a time limit: it generates columns with all sessions open again, the plan's own among them, and
// bounds every plan's objective from above. Each round's Lagrangian value is a bound: what the rows are worth at the
// round's prices, plus for each dog a bound on its best season there (branch.go). From stage to stage a dog's branch and
// bound has more nodes.
func (s *solver) prove() {
	if !s.clock.timed() || s.proven() || s.clock.expired() {
		return
	}
	for d := range s.fixed {
		s.fixed[d] = nil
		s.columns.useful[d] = slices.Concat(s.columns.useful[d], s.columns.open[d])
	}
	m, err := s.master()
	if err != nil {
		return
	}
	for nodes := s.proveNodes(); !s.clock.expired() && !s.proven(); nodes = min(nodesGrow*nodes, nodesMost) {
		before := s.bound
		s.phase.nodes = nodes
		s.look(lookTimes * nodes)
		if s.generate(m, proveRounds, smoothing) != nil || (nodes == nodesMost && s.bound > before-proveTol*math.Abs(before)) {
			break
		}
		s.duals.lp = s.duals.best
	}
	s.report()
}

// look bounds every plan's objective at the best prices known with all sessions open, by N nodes a dog.
func (s *solver) look(nodes int) {
	q := s.duals.lp
	var bound float64
	q.show, bound = s.p.sharedOut(q.show)
	ceilings := make([]float64, len(s.dogs))
	s.each(q, func(n *dogNets) { ceilings[n.d] = n.highest(s.columns.basic[n.d], s.near(), nodes) })
	if s.clock.expired() {
		return
	}
	for _, c := range ceilings {
		bound += c
	}
	s.bound = math.Min(s.bound, bound+s.p.worth(q.row))
	s.report()
}

// proveNodes is how many nodes a dog's branch and bound has at most where a bound is wanted: as many as a small
// string's dogs need to the end, and fewer for larger strings and longer seasons.
func (s *solver) proveNodes() int {
	return max(leastNodes, usualNodes*usualSize/max(usualSize, len(s.dogs)*s.p.Weeks))
}

// near is how near to a value that a dog reaches its bound need be, points: no nearer than makes a difference to the gap.
func (s *solver) near() float64 {
	value := math.Max(s.best.value, s.lpValue)
	part := math.Max(proveTol, nearPart*gap(s.bound, value))
	return part * math.Max(1, math.Abs(value)) / float64(len(s.dogs))
}

// sharedOut scales show prices that sum to more than the balance points down to them; what they lack is worth at most
// itself, since no mean readiness is above 1.
func (p *Problem) sharedOut(show []float64) (scaled []float64, left float64) {
	scaled = make([]float64, len(show))
	if !p.balanced() {
		return scaled, 0
	}
	var sum float64
	for d, v := range show {
		if p.Dogs[d].Shows != nil {
			sum += v
		}
	}
	f := 1.0
	if sum > p.Balance {
		f = p.Balance / sum
	}
	for d, v := range show {
		if p.Dogs[d].Shows != nil {
			scaled[d] = f * v
		}
	}
	return scaled, math.Max(0, p.Balance-f*sum)
}
