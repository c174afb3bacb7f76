package season

import (
	"math"
	"slices"
)

// Gather makes a plan workable for a person: a touch of an area that is smaller than the share or shorter than the
// minutes (unless a bound near a show allows no more) is merged into another session of the dog, raised to a touch worth making, or left out, whichever keeps most of
// the objective; so is a session with less pulling than half of what its set-up takes. It returns the new plan, which keeps every
// limit of the problem that the old one kept, and the number of touches and sessions changed.
func Gather(p *Problem, plan Plan, touch Touch) (Plan, int) {
	g := newGatherer(p, plan, touch)
	for d := range p.Dogs {
		g.dog(d)
	}
	for range adjustPasses {
		gained := false
		for d := range p.Dogs {
			if g.adjust(d) {
				gained = true
			}
			if g.settle(d) {
				gained = true
			}
		}
		if !gained {
			break
		}
	}
	return g.plan, g.moved
}

type gatherer struct {
	p           *Problem
	plan        Plan
	touch       Touch
	load        []float64 // by row, minutes
	rows        [][]int   // by week: rows of that week
	value, mean []float64 // by dog
	moved       int
	ready       *readyWeeks // scratch
}

func newGatherer(p *Problem, plan Plan, touch Touch) *gatherer {
	g := &gatherer{p: p, plan: plan.Clone(), touch: touch, load: make([]float64, len(p.Rows)), ready: newReadyWeeks(p.Weeks)}
	g.rows = make([][]int, p.Weeks)
	for i, r := range p.Rows {
		g.rows[r.Week] = append(g.rows[r.Week], i)
	}
	g.value, g.mean = make([]float64, len(p.Dogs)), make([]float64, len(p.Dogs))
	for d := range p.Dogs {
		for a := range plan.Shares[d] {
			for t, s := range g.plan.Shares[d][a] {
				if s < noTouch {
					g.plan.Shares[d][a][t] = 0
				}
			}
		}
		c := g.season(d)
		g.value[d], g.mean[d] = c.value, c.mean
		for i := range p.Rows {
			g.load[i] += c.load(p, &p.Rows[i])
		}
	}
	return g
}

const (
	noTouch   = 1e-9 // shares below are rounding
	limitSlip = 1e-7 // shares or minutes by which a limit may be passed through rounding
)

// season is the dog's part of the plan with its value.
func (g *gatherer) season(d int) *column {
	return newColumn(g.p, d, g.plan.Sessions[d], g.plan.Shares[d])
}

// dog gathers one dog's crumbs, then its thin sessions, until none is left.
func (g *gatherer) dog(d int) {
	for {
		if a, t, ok := g.crumb(d); ok {
			g.place(d, a, t, -1)
			continue
		}
		t, ok := g.thin(d)
		if !ok {
			break
		}
		for a := range g.p.Dogs[d].Areas {
			if g.plan.Shares[d][a][t] > 0 {
				g.place(d, a, t, t)
			}
		}
		g.setSessions(d, t, 0)
		g.moved++
	}
	for t, z := range g.plan.Sessions[d] {
		dog := &g.p.Dogs[d]
		need := int(math.Ceil(g.work(d, t)/math.Max(dog.clear(t), 1) - limitSlip))
		if need < z && (need == 0 || float64(need-z)*dog.SessionCost+dog.stay(t, need)-dog.stay(t, z) <= 0) { // what was agreed is worth keeping
			g.setSessions(d, t, need)
			g.moved++
		}
	}
	c := g.season(d)
	g.value[d], g.mean[d] = c.value, c.mean
}

// adjust tries other shares in the dog's sessions, and keeps what gains: gathering leaves time over in some sessions
// and areas short in others. It returns whether anything gained.
func (g *gatherer) adjust(d int) bool {
	gained := false
	for a := range g.p.Dogs[d].Areas {
		ar, shares, rest := &g.p.Dogs[d].Areas[a], g.plan.Shares[d][a], g.rest(d, a)
		now := g.objective(d, a, rest)
		for t, z := range g.plan.Sessions[d] {
			if z == 0 {
				continue
			}
			old := shares[t]
			best, to := now+adjustTol, old
			for _, f := range adjustTo {
				share := math.Min(f, ar.living(t))
				if share > 0 && share < g.touch.least(ar, t)-limitSlip {
					share = g.touch.least(ar, t)
				}
				if share == old || !g.can(d, a, t, share) {
					continue
				}
				g.set(d, a, t, share)
				if g.gripped(d, a) && g.work(d, t) >= g.p.Dogs[d].leastWork() {
					if v := g.objective(d, a, rest); v > best {
						best, to = v, share
					}
				}
				g.set(d, a, t, old)
			}
			if to != old {
				g.set(d, a, t, to)
				now, gained = best, true
			}
		}
	}
	c := g.season(d)
	g.value[d], g.mean[d] = c.value, c.mean
	return gained
}

// crumb finds the dog's smallest touch that is not worth making.
func (g *gatherer) crumb(d int) (area, week int, ok bool) {
	least := math.Inf(1)
	for a := range g.p.Dogs[d].Areas {
		ar := &g.p.Dogs[d].Areas[a]
		for t, s := range g.plan.Shares[d][a] {
			if s > 0 && s < g.touch.least(ar, t)-limitSlip && s*ar.Minutes < least {
				area, week, least, ok = a, t, s*ar.Minutes, true
			}
		}
	}
	return area, week, ok
}

// thin finds the dog's first session week with less pulling than half the set-up of one session.
func (g *gatherer) thin(d int) (int, bool) {
	for t, z := range g.plan.Sessions[d] {
		if z > 0 && g.work(d, t) < g.p.Dogs[d].leastWork() {
			return t, true
		}
	}
	return 0, false
}

// place does the best that can be done with a touch: merge it, raise it (unless its week is shut) or leave it out.
func (g *gatherer) place(d, a, t, shut int) {
	ar, shares := &g.p.Dogs[d].Areas[a], g.plan.Shares[d][a]
	crumb, rest := shares[t], g.rest(d, a)
	best, at, to := math.Inf(-1), t, 0.0
	try := func(week int, share float64) {
		old := shares[week]
		if !g.can(d, a, week, share) {
			return
		}
		g.set(d, a, week, share)
		if g.gripped(d, a) {
			if v := g.objective(d, a, rest); v > best {
				best, at, to = v, week, share
			}
		}
		g.set(d, a, week, old)
	}
	g.set(d, a, t, 0)
	try(t, 0)
	if t != shut {
		try(t, g.touch.least(ar, t))
	}
	for w := max(0, t-mergeSpan); w <= min(g.p.Weeks-1, t+mergeSpan); w++ {
		if w != t && w != shut && g.plan.Sessions[d][w] > 0 && shares[w]+crumb >= g.touch.least(ar, w) {
			try(w, shares[w]+crumb)
		}
	}
	g.set(d, a, at, to)
	g.moved++
}

// set changes a share and the loads with it.
func (g *gatherer) set(d, a, t int, share float64) {
	ar, shares := &g.p.Dogs[d].Areas[a], g.plan.Shares[d][a]
	charge := func(week int, minutes float64) {
		for _, i := range g.rows[week] {
			if g.p.Rows[i].counts(ar.Kind) {
				g.load[i] += minutes
			}
		}
	}
	if ar.Dead == 0 {
		charge(t, (share-shares[t])*ar.Minutes)
		shares[t] = share
		return
	}
	before := ar.MinutesOf(shares)
	shares[t] = share
	for week, m := range ar.MinutesOf(shares) {
		charge(week, m-before[week])
	}
}

func (g *gatherer) setSessions(d, t, z int) {
	change := float64(z-g.plan.Sessions[d][t]) * g.p.Dogs[d].SetUp
	g.plan.Sessions[d][t] = z
	for _, i := range g.rows[t] {
		if g.p.Rows[i].SetUps {
			g.load[i] += change
		}
	}
}

// work is the minutes of pulling in the dog's week.
func (g *gatherer) work(d, t int) float64 {
	var s float64
	for a := range g.p.Dogs[d].Areas {
		s += g.p.Dogs[d].Areas[a].MinutesIn(t, g.plan.Shares[d][a])
	}
	return s
}

// can reports whether the share fits its bound, the dog's sessions and the week's rows.
func (g *gatherer) can(d, a, t int, share float64) bool {
	ar, shares := &g.p.Dogs[d].Areas[a], g.plan.Shares[d][a]
	if ar.Dead == 0 {
		return share <= shares[t] || share <= ar.living(t)+limitSlip && g.holds(d, ar.Kind, t, (share-shares[t])*ar.Minutes)
	}
	before, old := ar.MinutesOf(shares), shares[t]
	shares[t] = share
	after, dead := ar.MinutesOf(shares), deadPulled(ar, shares)
	shares[t] = old
	for week, m := range after {
		now := shares[week]
		if week == t {
			now = share
		}
		if now > 0 && (ar.Most[week] == 0 || now-dead[week] > ar.Most[week]+limitSlip) {
			return false
		}
		if m > before[week] && (ar.Room != nil && m > ar.Room[week]+limitSlip || !g.holds(d, ar.Kind, week, m-before[week])) {
			return false
		}
	}
	return true
}

// holds reports whether the dog's sessions and the limits of week t hold so many minutes of a kind more.
func (g *gatherer) holds(d, kind, t int, more float64) bool {
	if g.work(d, t)+more > g.p.Dogs[d].clear(t)*float64(g.plan.Sessions[d][t])+limitSlip {
		return false
	}
	return !slices.ContainsFunc(g.rows[t], func(i int) bool {
		return g.p.Rows[i].counts(kind) && g.load[i]+more > g.p.Rows[i].Capacity+limitSlip
	})
}

// gripped reports whether the area's grip rule holds.
func (g *gatherer) gripped(d, a int) bool {
	ar := &g.p.Dogs[d].Areas[a]
	if ar.Grip <= 0 {
		return true
	}
	var window float64
	for t, s := range g.plan.Shares[d][a] {
		window += s
		if t >= ar.Grip {
			window -= g.plan.Shares[d][a][t-ar.Grip]
		}
		past := ar.PastAt(t) - ar.PastAt(t-ar.Grip)
		if window > limitSlip && window+past > 1+limitSlip {
			return false
		}
	}
	return true
}

// rest is the dog's readiness by week without one area.
func (g *gatherer) rest(d, without int) *readyWeeks {
	ready := newReadyWeeks(g.p.Weeks)
	for a := range g.p.Dogs[d].Areas {
		if a != without {
			ready.add(&g.p.Dogs[d].Areas[a], g.plan.Shares[d][a])
		}
	}
	return ready
}

// objective is the plan's value with the dog as it now is; rest is the dog's readiness without area a.
func (g *gatherer) objective(d, a int, rest *readyWeeks) float64 {
	dog := &g.p.Dogs[d]
	g.ready.set(rest)
	g.ready.add(&dog.Areas[a], g.plan.Shares[d][a])
	v, mean := g.ready.points(g.p, dog)
	v -= dog.sessionsCost(g.plan.Sessions[d])
	if !g.p.balanced() {
		return v
	}
	least := math.Inf(1)
	for o := range g.p.Dogs {
		switch {
		case g.p.Dogs[o].Shows == nil:
		case o == d:
			least = math.Min(least, mean)
		default:
			least = math.Min(least, g.mean[o])
		}
	}
	return v + g.p.Balance*least
}

// thinPart is the part of its set-up, the look over the dog counted in, that a session must at least have of pulling. Common practice.
const thinPart = 0.5

// leastWork is the minutes of pulling that make a session worth its set-up.
func (g *Dog) leastWork() float64 { return thinPart * g.SetUp }
