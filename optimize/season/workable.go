package season

import (
	"cmp"
	"math"
	"slices"
)

// A person can't pull every share that the model can: a touch of an area must be worth making, and so must a session. A plan is made
// workable by giving up the smallest of what is not worth making, sharing the work out again among the touches and sessions that are
// left, and so on; each of these plans is gathered (gather.go), and the best is kept. README.md has what that brings.

// Touch is what a touch of an area must at least have to be worth making.
type Touch struct {
	Share   float64 // of the area, 0..1
	Minutes float64
}

// least is the least share of an area that is worth a touch in week t: the share and the minutes, or what may be
// pulled where a bound (a few hairs near a show) allows less than that.
func (x Touch) least(a *Area, t int) float64 {
	both := math.Max(x.Share, x.Minutes/math.Max(a.Minutes, 1e-9))
	return math.Max(x.Share, math.Min(both, a.Most[t]))
}

// AsWorkable is the result with the workable plan as the plan.
func (r Result) AsWorkable(p *Problem) Result {
	r.Plan, r.Objective = r.Workable, Evaluate(p, r.Workable)
	r.Gap, r.Prices = gap(r.Bound, r.Objective), p.onlyFull(r.Prices, r.Plan)
	r.Dearest, r.Eased = -1, Plan{}
	return r
}

// Followed is the plan that people can work by: the workable one where it was asked for, else the plan.
func (r Result) Followed() Plan {
	if r.Workable.Sessions != nil {
		return r.Workable
	}
	return r.Plan
}

// workable is the plan made workable for p, the problem as it was given, and the number of touches and sessions that were not worth
// making.
func (s *solver) workable(p *Problem, plan Plan) (Plan, int) {
	best, moved := Gather(p, plan, s.opt.Touch)
	value := Evaluate(p, best)
	if start := s.opt.Start; s.opt.Keep && start.fits(p) && Violations(p, *start, startSlip) == nil && p.isWorkable(*start, s.opt.Touch) {
		if v := Evaluate(p, *start); v > value {
			best, value, moved = start.Clone(), v, 0
		}
	}
	offer := func(shared Plan) bool {
		next, _ := Gather(p, shared, s.opt.Touch)
		if v := Evaluate(p, next); v > value+adjustTol {
			best, value = next, v
			return true
		}
		return false
	}
	small, thin := p.smallTouches(plan, s.opt.Touch), p.thinSessions(plan)
	first := len(small) + len(thin)
	if first == 0 {
		return best, moved
	}
	for d, n := range s.dogs {
		s.columns.useful[d] = nil
		if n.shut == nil {
			n.shut = noneShut(len(n.nets), p.Weeks)
		}
	}
	for ok := true; ok && len(small)+len(thin) > 0; {
		plan = plan.Clone()
		for _, x := range thin[:partOf(len(thin), thinPartClosed)] {
			plan.close(x.dog, x.week)
		}
		for _, x := range small[:partOf(len(small), smallPartShut)] {
			s.dogs[x.dog].shut[x.area][x.week] = true
		}
		if plan, ok = s.shareOut(plan); ok {
			small, thin = p.smallTouches(plan, s.opt.Touch), p.thinSessions(plan)
			if len(small)+len(thin) <= int(fewLeft*float64(first)) {
				offer(plan)
			}
		}
	}
	for range settledRounds {
		for d, n := range s.dogs {
			for a := range n.shut {
				for t := range n.shut[a] {
					n.shut[a][t] = best.Shares[d][a][t] == 0
				}
			}
		}
		if plan, ok := s.shareOut(best); !ok || !offer(plan) {
			break
		}
	}
	return best, max(first, moved)
}

// noneShut is every touch open.
func noneShut(areas, weeks int) [][]bool {
	shut := make([][]bool, areas)
	for a := range shut {
		shut[a] = make([]bool, weeks)
	}
	return shut
}

// fits reports whether the plan has sessions and shares for every dog, area and week of the problem.
func (pl *Plan) fits(p *Problem) bool {
	if !pl.covers(p) || len(pl.Shares) != len(p.Dogs) {
		return false
	}
	for d := range pl.Shares {
		if len(pl.Shares[d]) != len(p.Dogs[d].Areas) || slices.ContainsFunc(pl.Shares[d], func(u []float64) bool { return len(u) != p.Weeks }) {
			return false
		}
	}
	return true
}

// shutAsStart keeps to the touches of a workable plan to begin with, but for areas of which it asks more than can be now.
func (s *solver) shutAsStart() {
	start := s.opt.Start
	if !start.fits(s.p) {
		return
	}
	for d, n := range s.dogs {
		n.shut = noneShut(len(n.nets), s.p.Weeks)
		fewer := false
		for t, z := range start.Sessions[d] {
			fewer = fewer || z > n.dog.Most[t]
		}
		for a, shares := range start.Shares[d] {
			if fewer || !n.dog.Areas[a].holds(shares) {
				continue
			}
			for t, share := range shares {
				n.shut[a][t] = share <= noTouch
			}
		}
	}
}

// holds reports whether the minutes that an area has by week hold the shares.
func (a *Area) holds(shares []float64) bool {
	if a.Room == nil {
		return true
	}
	for t, m := range a.MinutesOf(shares) {
		if m > a.Room[t]+brokenTol {
			return false
		}
	}
	return true
}

// isWorkable reports whether a plan has nothing that is not worth making.
func (p *Problem) isWorkable(plan Plan, touch Touch) bool {
	return len(p.smallTouches(plan, touch)) == 0 && len(p.thinSessions(plan)) == 0
}

// partOf is a part of n, or all where these are few.
func partOf(n int, part float64) int {
	if n <= fewAtOnce {
		return n
	}
	return int(part * float64(n))
}

// close gives up a dog's sessions of a week.
func (pl *Plan) close(d, week int) {
	pl.Sessions[d][week] = 0
	for a := range pl.Shares[d] {
		pl.Shares[d][a][week] = 0
	}
}

// shareOut works a plan's shares out again in its sessions, without the touches that are shut; false when time is over or it can't be
// done.
func (s *solver) shareOut(plan Plan) (Plan, bool) {
	if s.clock.expired() {
		return Plan{}, false
	}
	for d, n := range s.dogs {
		s.fixed[d] = slices.Clone(plan.Sessions[d])
		n.shutAgain(s.fixed[d])
		n.clearAs(plan.Shares[d])
		s.columns.useful[d] = append(slices.DeleteFunc(s.columns.useful[d], n.usesShut), n.withoutShut(plan))
	}
	m, err := s.feasibleMaster(s.fixed)
	if err != nil || s.generate(m, finalRounds, diveSmoothing) != nil || s.clock.expired() || m.overtimeUsed() > overtimeTol {
		return Plan{}, false
	}
	s.keep(m)
	shared := m.plan(s.fixed)
	s.p.trim(shared)
	return shared, true
}

// touches reports whether area a can be worked on in week t as the sessions are.
func (n *dogNets) touches(a, t int) bool {
	return n.sessions[t] > 0 && (n.shut == nil || !n.shut[a][t])
}

// shutAgain brings the nets to the sessions and to the touches that are shut now.
func (n *dogNets) shutAgain(sessions []int) {
	n.take(sessions)
	if len(n.mixes) > 0 { // what was asked with other touches is of use to the next program at most
		n.mixes = n.mixes[:1]
		n.mixes[0].sessions = nil
	}
}

// usesShut reports whether a column has touches that are shut.
func (n *dogNets) usesShut(c *column) bool {
	for a := range n.shut {
		for t, shut := range n.shut[a] {
			if shut && c.shares[a][t] > noTouch {
				return true
			}
		}
	}
	return false
}

// withoutShut is the dog's part of a plan without the touches that are shut, idle where it can't be without them.
func (n *dogNets) withoutShut(plan Plan) *column {
	shares, sessions := table(len(n.nets), n.p.Weeks), slices.Clone(plan.Sessions[n.d])
	for a := range shares {
		for t, share := range plan.Shares[n.d][a] {
			if !n.shut[a][t] {
				shares[a][t] = share
			}
		}
	}
	alone := &Problem{Weeks: n.p.Weeks, Kinds: n.p.Kinds, Dogs: n.p.Dogs[n.d : n.d+1]}
	if Violations(alone, Plan{Sessions: [][]int{sessions}, Shares: [][][]float64{shares}}, startTol) != nil {
		return idleColumn(n.p, n.d, sessions)
	}
	return newColumn(n.p, n.d, sessions, shares)
}

// unworkable is a touch of an area, or a session, that is not worth making.
type unworkable struct {
	dog, area, week int
	part            float64 // of one that would be
}

// smallTouches are the touches that are not worth making, the smallest first.
func (p *Problem) smallTouches(plan Plan, touch Touch) (all []unworkable) {
	for d := range p.Dogs {
		for a := range p.Dogs[d].Areas {
			for t, share := range plan.Shares[d][a] {
				if least := touch.least(&p.Dogs[d].Areas[a], t); share > noTouch && share < least-limitSlip {
					all = append(all, unworkable{d, a, t, share / least})
				}
			}
		}
	}
	return smallestFirst(all)
}

// thinSessions are the sessions with too little pulling for their set-up, the thinnest first.
func (p *Problem) thinSessions(plan Plan) (all []unworkable) {
	for d := range p.Dogs {
		work := newColumn(p, d, plan.Sessions[d], plan.Shares[d]).work
		for t, z := range plan.Sessions[d] {
			if least := p.Dogs[d].leastWork(); z > 0 && work[t] < least {
				all = append(all, unworkable{dog: d, week: t, part: work[t] / least})
			}
		}
	}
	return smallestFirst(all)
}

func smallestFirst(all []unworkable) []unworkable {
	slices.SortStableFunc(all, func(a, b unworkable) int { return cmp.Compare(a.part, b.part) })
	return all
}
