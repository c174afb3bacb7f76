package season

import "math"

// diveSessions makes the broken sessions of a node whole: those that are nearly whole or nearly none at once, else those that are
// nearest to it, and the rest with these as they are, again and again. It leaves the sessions, and the weeks of clearing that go
// with them; the value is one that they don't pass, and most often reach.
func (n *dogNets) diveSessions(from *node, lines []line, sessions, clear []int, tol float64) (value float64) {
	x := from.clone()
	care, frozen := n.care, n.frozen
	n.care, n.frozen = math.Max(care, diveCare), true
	defer func() { n.care, n.frozen = care, frozen }()
	for !n.stopped() {
		u := n.relax(x, lines, diveEffort, math.Inf(-1))
		if n.holed() { // broken sessions show only where answers are mixed
			if f, a, ceiling := n.mixLines(lines, tol); a.X != nil {
				u, x.value = f.uses(a), ceiling
				copy(x.fill, n.fill)
			}
		}
		if !n.roundOff(x, lines, u) {
			break
		}
	}
	copy(sessions, x.low)
	n.chosenWeeks(clear)
	return x.value
}

// roundOff settles the weeks whose sessions are nearest to whole in what the nets take, and reports whether any was broken.
func (n *dogNets) roundOff(x *node, lines []line, u uses) bool {
	broken := make([]float64, len(lines)) // sessions, where they are broken
	nearest := math.Inf(1)
	for t, l := range lines {
		if x.low[t] == x.high[t] {
			continue
		}
		z := u.work[t] / n.dog.clear(t)
		if step := n.cost(t, x.low[t]+1) - n.cost(t, x.low[t]); x.low[t] == 0 && step > 0 {
			z = math.Max(z, (l.least*u.work[t]+u.levied[t])/step)
		}
		if z = math.Min(z, float64(x.high[t])); z > float64(x.low[t])+wholeSlip {
			broken[t] = z
			nearest = math.Min(nearest, math.Abs(z-math.Round(z)))
		}
	}
	if math.IsInf(nearest, 1) {
		return false
	}
	near := math.Max(diveNear, nearest+wholeSlip)
	for t, z := range broken {
		if z == 0 || math.Abs(z-math.Round(z)) > near {
			continue
		}
		whole := int(math.Round(z))
		x.low[t] = max(x.low[t], whole)
		if float64(whole) < z {
			x.high[t] = x.low[t]
		}
	}
	return true
}
