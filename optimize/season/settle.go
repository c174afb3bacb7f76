package season

import "math"

// A search that begins with a plan that people go by leaves shares a little off it where that is worth nothing to speak of. Settling
// puts them back where the objective, in which leaving them costs, is better for it.

// settle puts work of dog d back to where it was agreed: first all of the dog's first weeks with their sessions, then area by area, up to
// each of these weeks. It returns whether anything gained.
func (g *gatherer) settle(d int) (gained bool) {
	dog := &g.p.Dogs[d]
	weeks := len(dog.Kept)
	var areas []int
	for a := range dog.Areas {
		if n := len(dog.Areas[a].Agreed); n > 0 {
			areas, weeks = append(areas, a), min(weeks, n)
		}
	}
	if len(areas) == 0 {
		return false
	}
	if weeks > 0 && g.back(d, areas, weeks, true) {
		gained = true
	}
	for _, a := range areas {
		for n := 1; n <= len(dog.Areas[a].Agreed); n++ {
			if g.back(d, []int{a}, n, false) {
				gained = true
			}
		}
	}
	if gained {
		c := g.season(d)
		g.value[d], g.mean[d] = c.value, c.mean
	}
	return gained
}

// back puts the areas' first weeks back to what was agreed, with the dog's sessions or in those at hand, and takes that back again
// where it is not allowed or does not gain.
func (g *gatherer) back(d int, areas []int, weeks int, sessions bool) bool {
	dog := &g.p.Dogs[d]
	was, before := make([][]float64, len(areas)), append([]int(nil), g.plan.Sessions[d]...)
	same := true
	for i, a := range areas {
		was[i] = append([]float64(nil), g.plan.Shares[d][a]...)
		for t := range weeks {
			same = same && math.Abs(was[i][t]-dog.Areas[a].agreedIn(t)) < noTouch
		}
	}
	if same {
		return false
	}
	now := g.whole(d)
	ok := true
	if sessions {
		for t := range weeks {
			z := min(dog.Kept[t], dog.Most[t])
			ok = ok && z == dog.Kept[t]
			g.setSessions(d, t, z)
		}
	}
	for _, more := range []bool{false, true} { // what gets less makes room
		for i, a := range areas {
			for t := range weeks {
				share := dog.Areas[a].agreedIn(t)
				if ok && share > was[i][t] == more && share != was[i][t] {
					ok = !more || g.can(d, a, t, share)
					g.set(d, a, t, share)
				}
			}
		}
	}
	for _, a := range areas {
		ok = ok && g.gripped(d, a)
	}
	for t := range weeks {
		z, work := g.plan.Sessions[d][t], g.work(d, t)
		ok = ok && work <= dog.clear(t)*float64(z)+limitSlip && (z == 0 || work >= dog.leastWork()-limitSlip)
		for _, i := range g.rows[t] {
			ok = ok && g.load[i] <= g.p.Rows[i].Capacity+limitSlip
		}
	}
	if ok && g.whole(d) > now+adjustTol {
		return true
	}
	for i, a := range areas {
		for t := range weeks {
			if g.plan.Shares[d][a][t] != was[i][t] {
				g.set(d, a, t, was[i][t])
			}
		}
	}
	for t, z := range before {
		if g.plan.Sessions[d][t] != z {
			g.setSessions(d, t, z)
		}
	}
	return false
}

// whole is the plan's value with the dog as it now is.
func (g *gatherer) whole(d int) float64 {
	c := g.season(d)
	if !g.p.balanced() {
		return c.value
	}
	least := math.Inf(1)
	for o := range g.p.Dogs {
		switch {
		case g.p.Dogs[o].Shows == nil:
		case o == d:
			least = math.Min(least, c.mean)
		default:
			least = math.Min(least, g.mean[o])
		}
	}
	return c.value + g.p.Balance*least
}

// agreedIn is the share agreed for one of the first weeks.
func (a *Area) agreedIn(t int) float64 {
	if t == 0 {
		return a.Agreed[0]
	}
	return math.Max(0, a.Agreed[t]-a.Agreed[t-1])
}
