package season

import "math"

// bounder works out numbers that no plan can beat. At given prices the Lagrangian value is the worth of the rows plus
// each dog's best value there; a dog's best value is bounded from above with the cost of opening a week spread over
// the minutes that the week can hold.
type bounder struct {
	p    *Problem
	dogs []*dogNets
}

func newBounder(p *Problem) *bounder {
	b := &bounder{p: p, dogs: make([]*dogNets, len(p.Dogs))}
	inParallel(len(p.Dogs), func(d int) {
		b.dogs[d] = newDogNets(p, d)
		for t := range p.Weeks {
			if p.Dogs[d].canOpen(t) {
				b.dogs[d].setSessions(t, 1)
			}
		}
	})
	return b
}

// value is an upper bound on every plan's objective from prices >= 0.
func (b *bounder) value(q prices) float64 {
	show, left := b.p.sharedOut(q.show)
	q.show = show
	w := b.p.weekly(q.row)
	parts := make([]float64, len(b.dogs))
	inParallel(len(b.dogs), func(d int) { parts[d] = b.dogs[d].relaxed(w, q) })
	s := b.p.worth(q.row) + left
	for _, v := range parts {
		s += v
	}
	return s
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

// relaxed bounds the dog's value at the prices: z sessions in a week cost at least base + slope·work when the week
// holds work minutes of pulling.
func (n *dogNets) relaxed(w weekly, q prices) float64 {
	n.setPrices(w, q)
	var base float64
	for t := range n.p.Weeks {
		b, slope := n.spread(t)
		base += b
		n.setFill(t, slope)
	}
	v := n.worth - base - n.areasCost()
	for _, net := range n.nets {
		v += net.doubt()
	}
	return v
}

// spread is a line below the cost of week t as a function of its minutes of pulling. The cost of z sessions is convex
// in z, and so is at least that of none plus z times its first step, or its least value where the first step falls.
func (n *dogNets) spread(t int) (base, slope float64) {
	g := n.dog
	cost := func(z int) float64 { return n.linear[t]*float64(z) + g.stay(t, z) }
	base = cost(0)
	if !g.canOpen(t) {
		return base, 0
	}
	step := cost(1) - base
	if step <= 0 {
		for z := 1; z <= g.Most[t]; z++ {
			base = math.Min(base, cost(z))
		}
		return base, 0
	}
	var most float64 // minutes that can be pulled at all
	for a := range g.Areas {
		most += g.Areas[a].Minutes * g.Areas[a].Most[t]
	}
	if most = math.Min(most, g.clear(t)); most <= 0 {
		return base, 0
	}
	return base, step / most
}
