package season

import "math"

// prove bounds every plan's objective from above. It generates columns with all sessions open once more, the plan's
// own among them. Each round's Lagrangian value is a bound: what the rows are worth at the round's prices, plus for each
// dog a bound on its best season there (branch.go). The more nodes a dog's branch and bound has, the better are bound
// and columns: it has more from stage to stage, as long as a time limit leaves time, without one for a few stages. At
// the best prices the dogs are bounded once more, with more nodes still.
func (s *solver) prove() {
	if s.proven() {
		return
	}
	for d := range s.fixed {
		s.fixed[d] = nil
	}
	if !s.timed() {
		return
	}
	if s.over() { // no time left for more than one look
		s.bound = math.Min(s.bound, s.lagrangian(s.centre, 1))
		return
	}
	m, err := s.master()
	if err != nil {
		return
	}
	for s.nodes = proveNodes; ; s.nodes *= nodesGrow {
		if s.generate(m, proveRounds, smoothing) != nil || s.over() || s.proven() {
			break
		}
		if !s.timed() || s.nodes >= nodesMost {
			break
		}
	}
	s.report()
}

const (
	proveRounds = 3
	proveNodes  = 1500  // most nodes of a dog without a time limit
	nodesGrow   = 3     // times as many nodes in the next stage
	nodesMost   = 20000 // nodes beyond which more would only cost memory
	proveTol    = 1e-4  // of the objective, shared by the dogs: how near a dog's bound need be to a value that it reaches
	nearPart    = 0.05  // .. or so much of the gap
)

// near is how near to a value that a dog reaches its bound need be, points: no nearer than makes a difference to the gap.
func (s *solver) near() float64 {
	value := math.Max(s.value, s.hope)
	part := math.Max(proveTol, nearPart*gap(s.bound, value))
	return part * math.Max(1, math.Abs(value)) / float64(len(s.dogs))
}

// lagrangian is an upper bound on every plan's objective from prices >= 0, with so many nodes a dog at the most.
func (s *solver) lagrangian(q prices, most int) float64 {
	show, v := s.p.sharedOut(q.show)
	q.show = show
	highest := make([]float64, len(s.dogs))
	s.each(q, func(n *dogNets) { highest[n.d] = n.highest(s.near(), most) })
	for _, h := range highest {
		v += h
	}
	return v + s.p.worth(q.row)
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
