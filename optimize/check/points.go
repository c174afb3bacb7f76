package check

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// season compares what the plan is worth, before and after crumbs were gathered, and holds the bound against both.
func (c *checker) season() {
	s := c.r.Season
	printed := func(d, a, t int) float64 { return c.dogs[d].areas[a].shares[t] }
	plan := c.points(printed, c.sessions)
	after := plan.sum()
	before := after
	if c.r.Solved != nil && len(c.dogs) > 0 {
		solved := c.r.Solved.Answer.Plan
		before = c.points(func(d, a, t int) float64 { return solved.Shares[d][a][t] }, solved.Sessions).sum()
	}
	c.shared(plan)
	c.same("the plan", "objective", s.Objective, before)
	c.same("the plan", "points that gathering and what is left out cost", c.r.Gathered.Points+c.r.Timetable.Lost, before-after)
	c.atLeast("the plan", "touches gathered", float64(c.r.Gathered.Moved), 0)
	c.ask("the plan", "touches gathered", c.r.Gathered.Moved > 0 || c.r.Gathered.Points < 0 || agree(c.r.Gathered.Points, 0), "some, for gathering cost points")
	c.atLeast("the plan", "bound", s.Bound, math.Max(before, after))
	c.same("the plan", "gap", s.Gap, (s.Bound-s.Objective)/math.Max(1, math.Abs(s.Bound)))
	c.atLeast("the plan", "seconds", s.Seconds, 0)
	c.atLeast("the plan", "rounds", float64(s.Rounds), 0)
}

// shared compares who the plan's points come from.
func (c *checker) shared(plan worth) {
	c.same("the plan", "points for the least ready", c.r.Balance, plan.balance)
	c.equal("the plan", "dogs' points", len(c.r.Points), len(c.dogs))
	for d, says := range c.r.Points {
		if d >= len(c.dogs) {
			return
		}
		c.equal("the plan's points", "dog", says.Dog, c.dogs[d].Name)
		c.equal(c.dogs[d].Name, "weeks of points", len(says.Weeks), c.weeks)
		for t, points := range says.Weeks {
			if t < c.weeks {
				c.same(c.weekWords(t)+", "+c.dogs[d].Name, "points", points, plan.dogs[d][t])
			}
		}
	}
}

// worth is what a plan is worth, points.
type worth struct {
	dogs    [][]float64 // by dog and week
	balance float64     // for the least mean show readiness
}

func (w worth) sum() float64 {
	sum := w.balance
	for _, weeks := range w.dogs {
		for _, points := range weeks {
			sum += points
		}
	}
	return sum
}

// points are the worth of shares and sessions by the definition of the season: readiness is not clipped, shares and
// the past are counted in millionths, and an area's readiness is the mean over the growths that its dog may have.
func (c *checker) points(share func(d, a, t int) float64, sessions [][]int) (w worth) {
	least, shown := math.Inf(1), 0
	for d, dog := range c.dogs {
		value, all := c.atShows(d)
		var shows float64
		weeks := make([]float64, c.weeks)
		for t, ready := range c.unclipped(d, share) {
			atShow := ready.mean
			for _, area := range ready.areas {
				atShow = math.Min(atShow, area+holeAllow)
			}
			shows += value[t] * atShow
			weeks[t] = dog.Priority*(c.r.Options.Standing*ready.mean+value[t]*atShow) - c.sessionPoints(d, t, sessions[d][t]) - c.uneven(d, t, share) - c.moved(d, t, share)
		}
		w.dogs = append(w.dogs, weeks)
		if all > 0 {
			shown++
			least = math.Min(least, shows/all)
		}
	}
	if shown > 0 {
		w.balance = c.r.Options.Balance * float64(shown) * least
	}
	return w
}

// atShows are the points of full readiness at shows by week, for a dog of priority 1, and their sum.
func (c *checker) atShows(d int) (value []float64, all float64) {
	value = make([]float64, c.weeks)
	for _, s := range c.k.Shows {
		if t := c.judgedWeek(s.On); c.goes(d, s) && t >= 0 && t < c.weeks {
			points := s.Weight * s.Chance * math.Max(1, float64(s.Days))
			value[t] += points
			all += points
		}
	}
	return value, all
}

// sessionPoints are what z sessions of dog d in week t cost: each one, and each that departs from what was agreed.
func (c *checker) sessionPoints(d, t, z int) float64 {
	cost := c.r.Options.SessionCost * float64(z)
	if agreed, counts := c.agreed(d, t); counts {
		cost += c.r.Options.Stay * math.Abs(float64(z-agreed))
	}
	return cost
}

// agreed are the sessions of dog d in week t that were agreed on. They count up to the last week in which any dog has one within
// the days that a plan is agreed on for.
func (c *checker) agreed(d, t int) (sessions int, counts bool) {
	for _, s := range c.r.Options.Accepted {
		if s.On < c.r.On {
			continue
		}
		if s.On < c.r.On.AddDays(agreedDays) && c.monday(t) <= s.On {
			counts = true
		}
		if s.Dog == c.dogs[d].Name && c.monday(t) <= s.On && s.On < c.monday(t+1) {
			sessions++
		}
	}
	if counts {
		return sessions, true
	}
	for _, a := range c.r.Agreed {
		if a.Dog == c.dogs[d].Name && a.Week == c.monday(t) {
			return a.Sessions, true
		}
	}
	return 0, false
}

// moved is what dog d is charged in week t for shares that are not as they were agreed on: for each area, by how much more or less of it is
// pulled by the end of the week.
func (c *checker) moved(d, t int, share func(d, a, t int) float64) (points float64) {
	counts := false
	agreed := map[kennel.AreaName]float64{}
	for _, a := range c.r.Agreed {
		if a.Dog != c.dogs[d].Name || a.Week > c.monday(t) {
			continue
		}
		counts = counts || a.Week == c.monday(t)
		for _, x := range a.Areas {
			agreed[x.Area] += float64(x.Share)
		}
	}
	if !counts {
		return 0
	}
	for i := range c.dogs[d].areas {
		area := &c.dogs[d].areas[i]
		if area.Kept || c.everShut(area) {
			continue
		}
		off := -agreed[area.Name]
		for u := range t + 1 {
			off += share(d, i, u)
		}
		points += movedWorth * c.r.Options.Stay * area.Weight.Value * math.Abs(off)
	}
	return points
}

// everShut reports whether the area can be worked in no week.
func (c *checker) everShut(area *checkedArea) bool {
	return !slices.ContainsFunc(area.cap, func(most float64) bool { return most > 0 })
}

// movedWorth is what a whole dog moved by a week costs, of what a session more or fewer does.
const movedWorth = 8

// readiness is how ready a dog is, as the season counts it: 1 is fully ready.
type readiness struct {
	mean  float64
	areas []float64
}

// unclipped is the readiness of dog d by week, expected over its growths.
func (c *checker) unclipped(d int, share func(d, a, t int) float64) []readiness {
	ready := make([]readiness, c.weeks)
	growths := c.growths(d)
	for i := range c.dogs[d].areas {
		a := &c.dogs[d].areas[i]
		for t := range ready {
			full := 0.0
			for _, growth := range growths {
				rule := a.RuleFor(growth)
				full++
				for _, k := range rule.Young {
					for _, back := range c.backs(d, int(k.Weeks)) {
						full -= back.part * k.Slope * math.Max(0, c.pulled(d, i, t-back.weeks+1, t, share)-millionths(float64(k.Allow)))
					}
				}
				for _, k := range rule.Old {
					for _, back := range c.backs(d, int(k.Weeks)) {
						full -= back.part * k.Slope * math.Max(0, 1-c.pulled(d, i, t-back.weeks+1, t, share)-millionths(float64(k.Allow)))
					}
				}
			}
			full = full/float64(len(growths)) - c.fresh(d, i, t, share)
			ready[t].mean += a.Weight.Value * full
			ready[t].areas = append(ready[t].areas, full)
		}
	}
	return ready
}

// pulled is the share of an area pulled in the weeks from one to another, both included, before the plan and by it.
func (c *checker) pulled(d, a, from, to int, share func(d, a, t int) float64) (sum float64) {
	for t := max(0, from); t <= to; t++ {
		sum += share(d, a, t)
	}
	area := &c.dogs[d].areas[a]
	return sum + c.pastTo(area, to) - c.pastTo(area, from-1)
}

// growths are three growths that are as likely as each other: the middles of the thirds of what dog d's growth may be.
func (c *checker) growths(d int) (all []float64) {
	for n := range thirds {
		all = append(all, c.growthAt(d, (float64(n)+0.5)/thirds))
	}
	return all
}

const thirds = 3

// growthAt is the growth of dog d below which its own lies with the chance: it is lognormal around its estimate.
func (c *checker) growthAt(d int, chance float64) float64 {
	dog := &c.dogs[d]
	sd, ok := c.r.Options.GrowthSDs[dog.Name]
	if !ok {
		sd = c.r.Options.GrowthSD
	}
	sigma := math.Sqrt(math.Log(1 + sd*sd))
	return dog.growth * math.Exp(-sigma*math.Sqrt2*math.Erfcinv(2*chance))
}

func millionths(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// pastTo is the share of an area pulled before the plan up to a week, its own included, in millionths.
func (c *checker) pastTo(a *checkedArea, last int) (sum float64) {
	for _, l := range a.layers {
		if a.agedIn(c.pulledIn(l)) <= last {
			sum += float64(l.Share)
		}
	}
	return millionths(sum)
}

// prices asks that an hour is only worth something where hours are short, and that the tight week is the dearest.
func (c *checker) prices() {
	dearest := -1
	for i, p := range c.r.Season.HourPrice {
		where := "week of " + p.Week.String() + ", an hour of " + p.Hands
		t := int(p.Week-c.r.Week0) / kennel.DaysAWeek
		right := p.Week >= c.r.Week0 && t < c.weeks && p.Week == c.monday(t)
		c.ask(where, "week", right, "one of the season")
		c.atLeast(where, "points an hour", p.PointsPerHour, 0)
		c.count(where, "points an hour", !right || p.PointsPerHour < shortFrom || c.short(t, p), number(p.PointsPerHour), "0, for these hands have time over")
		if dearest < 0 || p.PointsPerHour > c.r.Season.HourPrice[dearest].PointsPerHour {
			dearest = i
		}
	}
	tight := c.r.Tight
	if tight == nil {
		return
	}
	c.ask("the tight week", "week", dearest >= 0, "none, for no hour has a price")
	if dearest >= 0 {
		most := c.r.Season.HourPrice[dearest]
		c.same("the tight week", "points an hour", tight.PointsPerHour, most.PointsPerHour)
		c.equal("the tight week", "week", tight.Week, most.Week)
		c.equal("the tight week", "hands", tight.Hands, most.Hands)
	}
	d := c.dogNamed(tight.Dog)
	c.ask("the tight week", "dog", d >= 0 || tight.Dog == "" && tight.Show == "", "one of the kennel")
	for _, s := range c.k.Shows {
		if d >= 0 && s.Name == tight.Show && c.goes(d, s) {
			return
		}
	}
	c.ask("the tight week", "show", tight.Show == "", "one of the dog's")
}

const (
	shortFrom = 1e-4 // points an hour: a price below is arithmetic's
	shortTol  = 1e-2 // minutes by which a limit may be missed and still be full
)

// short reports whether the plan as it was solved leaves no time to some kinds of work that just these hands do: by the
// theorem of complementary slackness an hour is worth nothing otherwise.
func (c *checker) short(t int, p planned.HourPrice) bool {
	if c.r.Solved == nil {
		return false
	}
	kinds := []kennel.Skill{kennel.SkillJacket, kennel.SkillClose, kennel.SkillFurnishings, planned.SetUp}
	need := make([]float64, len(kinds))
	for d, dog := range c.dogs {
		need[len(kinds)-1] += float64(c.r.Solved.Answer.Plan.Sessions[d][t]) * c.setUp(d)
		for i, a := range dog.areas {
			for n, kind := range kinds {
				if a.Work == kind {
					u := c.r.Solved.Answer.Plan.Shares[d][i]
					need[n] += a.work(u[t], c.deadIn(&dog.areas[i], func(t int) float64 { return u[t] })[t])
				}
			}
		}
	}
	besides := c.besides(t)
	for set := 1; set < 1<<len(kinds); set++ {
		var used float64
		var chosen []kennel.Skill
		for n, kind := range kinds {
			if set>>n&1 == 1 {
				used += need[n]
				chosen = append(chosen, kind)
			}
		}
		for _, beside := range besides {
			there, names := c.timeOf(t, slices.Concat(chosen, beside.kinds))
			strip := len(beside.kinds) == 0 && set>>(len(kinds)-1) == 0
			if names == p.Hands && strip == p.Strip && used >= math.Max(0, there-beside.minutes)-shortTol {
				return true
			}
		}
	}
	return false
}

// beside are kinds of work that are given to a week before any pulling, and their minutes.
type beside struct {
	minutes float64
	kinds   []kennel.Skill
}

// besides are all choices of such kinds, none first.
func (c *checker) besides(t int) (all []beside) {
	all = []beside{{}}
	for _, kind := range []kennel.Skill{kennel.SkillDuties, planned.Care, planned.Trim} {
		for _, b := range all {
			all = append(all, beside{b.minutes + c.minutesOf(t, kind), slices.Concat(b.kinds, []kennel.Skill{kind})})
		}
	}
	return all
}

// minutesOf are those of the duties of a kind in week t.
func (c *checker) minutesOf(t int, kind kennel.Skill) (sum float64) {
	for _, y := range c.r.Weeks[t].Duties {
		if c.workOf(y) == kind {
			sum += float64(y.Minutes)
		}
	}
	return sum
}

// onlyDuties reports whether the duties of week t take more than breaks leave to the hands that do them, which then do nothing else
// but duties, trims and care, and need no breaks.
func (c *checker) onlyDuties(t int) bool {
	var beside float64
	for h := range c.k.Hands {
		if c.may(h, kennel.SkillDuties) {
			_, work, _ := c.left(h, t)
			beside += work
		}
	}
	return c.minutesOf(t, kennel.SkillDuties) > beside
}

// timeOf is the most that can be done of the kinds of work in week t, minutes, and who could do it.
func (c *checker) timeOf(t int, kinds []kennel.Skill) (minutes float64, names string) {
	only := c.onlyDuties(t)
	for h, pair := range c.k.Hands {
		all, work, pull := c.left(h, t)
		pull = math.Min(work, pull)
		there, could := 0.0, 0.0
		for _, kind := range kinds {
			has := pull
			if timedOnly(kind) {
				has = work
			}
			if !c.may(h, kind) {
				continue
			}
			could = math.Max(could, has)
			switch taken := only && c.may(h, kennel.SkillDuties); {
			case !taken:
				there = math.Max(there, has)
			case timedOnly(kind) && kind != planned.SetUp:
				there = all
			}
		}
		minutes += there
		if could > 0 {
			if names != "" {
				names += " and "
			}
			names += pair.Name
		}
	}
	return minutes, names
}
