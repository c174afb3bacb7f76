package season

import (
	"math"
	"slices"
)

// Who pays for a session while it may be broken. A week without a session has no pulling in any area, so an area that
// may give up 6 % and gives up 3 % takes half a session at least, however few minutes that is: u <= most·z (a variable
// upper bound). The multipliers of these bounds are levies on the areas, that of the minutes is the fill price, and what
// all of them would pay for a whole session is its cost: parts that sum to 1, one for each payer (the areas, then the
// minutes). The parts are sought by mirror descent with the entropy as distance (exponentiated gradient; Kivinen and
// Warmuth, Information and Computation 132, 1997): those grow whose payers take most of a session, as a mean
// over the last steps. Any parts give a valid value.

// effort is how much is done for a node's value.
type effort struct {
	steps, skip int // steps of the parts, and how many the first of them counts as
	sweeps      int // sweeps over the fill prices after that, at most
}

// firstParts are those to begin with: those of the last time, or half by the minute and half by the minutes that an area
// may have.
func (n *dogNets) firstParts() [][]float64 {
	if n.parts != nil {
		return cloned(n.parts)
	}
	by := len(n.nets)
	parts := table(by+1, n.p.Weeks)
	for t := range n.p.Weeks {
		hold := n.dog.clear(t)
		if hold <= 0 {
			continue
		}
		parts[by][t] = 1
		sum := 1.0
		for a := range n.nets {
			area := &n.dog.Areas[a]
			parts[a][t] = area.Minutes * area.Most[t] / hold
			if area.Most[t] > 0 {
				parts[a][t] += area.Loose * area.Dead / hold
			}
			sum += parts[a][t]
		}
		for a := range parts {
			parts[a][t] /= sum
		}
	}
	return parts
}

// enter sets the nets to the node: what is open, fill prices and levies.
func (n *dogNets) enter(x *node, lines []line) {
	for t := range lines {
		n.setSessions(t, min(x.high[t], 1))
		n.charge(x, lines, t)
		x.fill[t] = math.Max(x.fill[t], lines[t].least)
		if x.high[t] == 0 {
			x.fill[t] = 0
		}
		n.setFill(t, x.fill[t])
	}
}

// free reports whether week t may have sessions in the node, but need not.
func (n *dogNets) free(x *node, t int) bool {
	return x.low[t] == 0 && x.high[t] > 0 && n.dog.clear(t) > 0
}

// charge sets the levies of week t and its line by the node's parts.
func (n *dogNets) charge(x *node, lines []line, t int) {
	levied := 0.0
	step := n.cost(t, 1) - n.cost(t, 0)
	for a := range n.nets {
		n.levies[a][t] = 0
		if n.free(x, t) && step > 0 && n.dog.Areas[a].living(t) > 0 {
			n.levies[a][t] = x.parts[a][t] * step
			levied += x.parts[a][t]
		}
	}
	lines[t] = n.line(t, x.low[t], x.high[t], math.Min(1, levied))
}

// noLevies takes the levies back.
func (n *dogNets) noLevies() {
	for a := range n.levies {
		clear(n.levies[a])
	}
}

// levy seeks parts with a low value, and returns the lowest; it ends early when that is down to the floor.
func (n *dogNets) levy(x *node, lines []line, e effort, floor float64) float64 {
	by := len(n.nets)
	if n.pulls == nil {
		n.pulls = table(by+1, n.p.Weeks)
	}
	for a := range n.pulls {
		clear(n.pulls[a])
	}
	best := n.relaxedValue(lines)
	for k := 0; k < e.steps && best > floor && !n.stopped(); k++ {
		long := levyStep / math.Sqrt(float64(k+1+e.skip))
		for t := range lines {
			if !n.free(x, t) {
				continue
			}
			sum := 0.0
			for a := range x.parts {
				pull := 0.0
				if a == by {
					pull = n.work(t) / n.dog.clear(t)
				} else if most := n.reach(a, t); most > 0 {
					pull = n.nets[a].Step(t) / most
				} else {
					continue
				}
				n.pulls[a][t] = levyMean*n.pulls[a][t] + (1-levyMean)*math.Min(mostPull, pull)
				x.parts[a][t] = math.Max(lastPart, x.parts[a][t]*math.Exp(long*n.pulls[a][t]))
				sum += x.parts[a][t]
			}
			for a := range x.parts {
				x.parts[a][t] /= sum
			}
			extra := n.fill[t] - lines[t].least
			n.charge(x, lines, t)
			n.setFill(t, lines[t].least+math.Max(0, extra))
		}
		best = math.Min(best, n.relaxedValue(lines))
	}
	return best
}

func cloned(t [][]float64) [][]float64 {
	c := make([][]float64, len(t))
	for i := range t {
		c[i] = slices.Clone(t[i])
	}
	return c
}
