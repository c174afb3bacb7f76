package season

import "slices"

// fit is the dog's best column with its sessions at the rows' prices, work kept within the sessions: a small column
// generation of its own, in which the weeks' limits are rows and mixes of answers are answers (the areas' problem is
// convex), to within tol points. It begins with the seeds that the sessions hold and leaves the fill prices at the
// rows' multipliers. The value is the column's Lagrangian value.
func (n *dogNets) fit(seeds []*column, tol float64) (*column, float64) {
	var open []int
	for t, z := range n.sessions {
		if z > 0 {
			open = append(open, t)
		}
	}
	var prog program
	mix := prog.addEquation(1)
	basis := make([]int, 1, 1+len(open))
	for _, t := range open {
		_, slack := prog.addLimit(n.room(t) / minutesUnit)
		basis = append(basis, slack)
	}
	var idle col
	idle.gain = -n.idleCharges()
	idle.add(mix, 1)
	basis[0] = prog.addCol(idle)
	shares := map[int][][]float64{basis[0]: nil}
	take := func() (int, float64) {
		c := col{gain: -n.areasCost()}
		c.add(mix, 1)
		gain := c.gain
		for i, t := range open {
			w := n.work(t)
			c.add(i+1, w/minutesUnit)
			c.gain += n.fill[t] * w
			gain += n.fill[t] * n.room(t)
		}
		return prog.addCol(c), gain
	}
	for _, c := range seeds {
		if !c.fits(n.p, n.sessions) {
			continue
		}
		seed := col{gain: n.pulling(c) - n.worth}
		seed.add(mix, 1)
		for i, t := range open {
			seed.add(i+1, c.work[t]/minutesUnit)
		}
		shares[prog.addCol(seed)] = c.shares
	}
	j, _ := take()
	shares[j] = n.pulled()
	lp := revised{late: n.late}
	var now answer
	for range fitRounds {
		a, err := lp.solve(&prog, basis)
		if err != nil {
			break
		}
		now, basis = a, append(basis[:0], a.basis...)
		for i, t := range open {
			n.setFill(t, max(0, a.y[i+1]/minutesUnit))
		}
		j, ceiling := take()
		if ceiling-a.gain <= tol {
			break
		}
		shares[j] = n.pulled()
	}
	c := &column{dog: n.d, sessions: slices.Clone(n.sessions), shares: make([][]float64, len(n.nets))}
	for a := range c.shares {
		c.shares[a] = make([]float64, n.p.Weeks)
		for j, x := range now.x {
			if x > 0 && shares[j] != nil {
				for t, s := range shares[j][a] {
					c.shares[a][t] += x * s
				}
			}
		}
	}
	c.measure(n.p)
	c.price(n.p)
	return c, n.lagrangian(c)
}

const (
	fitRounds = 12
	fitTol    = 5e-5 // points: how near to the best a fit need be
)

// idleCharges is what short and long hair takes from the dog when nothing is pulled, points at the present values.
func (n *dogNets) idleCharges() float64 {
	ready := make([]float64, n.p.Weeks)
	none := make([]float64, n.p.Weeks)
	for a := range n.dog.Areas {
		addReady(ready, &n.dog.Areas[a], none)
	}
	s := n.worth
	for t, r := range ready {
		s -= n.dog.weight(t, n.show) * r
	}
	return s
}

// lagrangian is a column's value at the present prices of rows and shows.
func (n *dogNets) lagrangian(c *column) float64 {
	v := n.pulling(c)
	for t, z := range c.sessions {
		v -= n.cost(t, z)
	}
	return v
}

// pulling is the part of a column's Lagrangian value that its pulling decides.
func (n *dogNets) pulling(c *column) float64 {
	v := c.ready
	if n.dog.Shows != nil {
		v += n.show * c.mean
	}
	for t := range n.p.Weeks {
		for k := range n.p.Kinds {
			v -= n.minute[t][k] * c.kinds[t*n.p.Kinds+k]
		}
	}
	return v
}
