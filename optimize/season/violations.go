package season

import (
	"errors"
	"fmt"
	"math"
)

// Violations says in words every constraint that a plan breaks by more than tol, with amounts; nil when the plan
// is allowed. Shares are compared in shares, minutes as a part of the limit (or of one minute, if that is more).
// The problem must pass Validate.
func Violations(p *Problem, plan Plan, tol float64) []string {
	if err := fits(p, plan); err != nil {
		return []string{err.Error()}
	}
	var all []string
	say := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		for t := range p.Weeks {
			if z := plan.Sessions[d][t]; z < 0 || z > dog.Most[t] {
				say("%s, week %d: %d sessions, but 0 to %d are possible", dog.Name, t, z, dog.Most[t])
			}
			pulled, set := pulledMinutes(p, plan, d, t, ^uint32(0)), setUpMinutes(p, plan, d, t)
			if there := dog.Minutes[t] * float64(plan.Sessions[d][t]); over(pulled+set, there, tol) {
				say("%s, week %d: %.6g minutes of pulling and %.6g of set-up, but its sessions have %.6g",
					dog.Name, t, pulled, set, there)
			}
		}
		for a := range dog.Areas {
			area, shares := &dog.Areas[a], plan.Shares[d][a]
			dead := deadPulled(area, shares)
			for t, u := range shares {
				where := fmt.Sprintf("%s, %s, week %d", dog.Name, area.Name, t)
				switch {
				case math.IsNaN(u) || math.IsInf(u, 0):
					say("%s: the share pulled is not a number", where)
				case u < -tol:
					say("%s: a negative share is pulled, %.6g", where, u)
				case u > tol && area.Most[t] == 0:
					say("%s: %.6g is pulled, but nothing may be", where, u)
				case area.Dead == 0 && u > area.Most[t]+tol:
					say("%s: %.6g is pulled, but at most %.6g may be", where, u, area.Most[t])
				case u-dead[t] > area.Most[t]+tol:
					say("%s: %.6g of living hair is pulled, but at most %.6g may be", where, u-dead[t], area.Most[t])
				}
				if area.Room != nil {
					if m := u*area.Minutes - dead[t]*(area.Minutes-area.Loose); over(m, area.Room[t], tol) {
						say("%s: %.6g minutes are pulled, but there are at most %.6g for it", where, m, area.Room[t])
					}
				}
				if area.Grip == 0 {
					continue
				}
				// Where the past alone breaks the rule, nothing may be added to it.
				most := math.Max(1, area.PastAt(t)-area.PastAt(t-area.Grip))
				if y := younger(area, shares, t, area.Grip); y > most+tol {
					say("%s: hair under %d weeks would be pulled: %.6g of the area in that time, but at most %.6g can be",
						where, area.Grip, y, most)
				}
			}
		}
	}
	for _, r := range p.Rows {
		used := rowMinutes(p, plan, &r)
		if over(used, r.Capacity, tol) {
			what := "hours"
			if r.Strip {
				what = "hand load"
			}
			say("%s, week %d, %s: %.6g minutes are planned, but there are %.6g", r.Name, r.Week, what, used, r.Capacity)
		}
	}
	return all
}

func over(used, there, tol float64) bool { return !(used <= there+tol*math.Max(1, math.Abs(there))) }

// rowMinutes are the minutes that the plan puts on a limit.
func rowMinutes(p *Problem, plan Plan, r *Row) (used float64) {
	for d := range p.Dogs {
		used += pulledMinutes(p, plan, d, r.Week, r.Kinds)
		if r.SetUps {
			used += setUpMinutes(p, plan, d, r.Week)
		}
	}
	return used
}

// pulledMinutes are the minutes of pulling on dog d in week t in areas of the kinds.
func pulledMinutes(p *Problem, plan Plan, d, t int, kinds uint32) float64 {
	var sum float64
	for a := range p.Dogs[d].Areas {
		area, shares := &p.Dogs[d].Areas[a], plan.Shares[d][a]
		if kinds&(1<<area.Kind) == 0 {
			continue
		}
		sum += shares[t] * area.Minutes
		if area.Dead > 0 {
			sum -= deadPulled(area, shares)[t] * (area.Minutes - area.Loose)
		}
	}
	return sum
}

// deadPulled is by week the share pulled that is dead: the first of all, up to Dead.
func deadPulled(area *Area, shares []float64) []float64 {
	dead := make([]float64, len(shares))
	left := area.Dead
	for t, u := range shares {
		dead[t] = math.Max(0, math.Min(left, u))
		left -= dead[t]
	}
	return dead
}

func setUpMinutes(p *Problem, plan Plan, d, t int) float64 {
	return p.Dogs[d].SetUp * float64(plan.Sessions[d][t])
}

// fits says whether a plan has the problem's shape.
func fits(p *Problem, plan Plan) error {
	if len(plan.Sessions) != len(p.Dogs) || len(plan.Shares) != len(p.Dogs) {
		return fmt.Errorf("the plan has sessions of %d and shares of %d dogs, the problem has %d dogs",
			len(plan.Sessions), len(plan.Shares), len(p.Dogs))
	}
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		if n := len(plan.Sessions[d]); n != p.Weeks {
			return fmt.Errorf("%s: the plan has sessions of %d weeks, the problem has %d", dog.Name, n, p.Weeks)
		}
		if n := len(plan.Shares[d]); n != len(dog.Areas) {
			return fmt.Errorf("%s: the plan has %d areas, the problem has %d", dog.Name, n, len(dog.Areas))
		}
		for a := range dog.Areas {
			if n := len(plan.Shares[d][a]); n != p.Weeks {
				return fmt.Errorf("%s, %s: the plan has shares of %d weeks, the problem has %d",
					dog.Name, dog.Areas[a].Name, n, p.Weeks)
			}
		}
	}
	return nil
}

// mostKinds is how many kinds of work a Row can tell apart.
const mostKinds = 32

// Validate says what is wrong with a problem that can't be planned: lists of the wrong length, numbers that are
// not finite or have the wrong sign, kinds and weeks that do not exist. Every fault is named; nil when there is none.
func Validate(p *Problem) error {
	v := &faults{}
	if p.Weeks < 1 {
		v.add("the season", "has %d weeks, needs at least 1", p.Weeks)
	}
	if p.Kinds < 1 || p.Kinds > mostKinds {
		v.add("the season", "has %d kinds of work, needs 1 to %d", p.Kinds, mostKinds)
	}
	v.notNegative("the season", "balance", p.Balance)
	v.notNegative("the season", "hole", p.Hole)
	if len(v.all) > 0 {
		return v.err()
	}
	for d := range p.Dogs {
		validateDog(v, p, &p.Dogs[d], fmt.Sprintf("dog %d (%s)", d, p.Dogs[d].Name))
	}
	for i, r := range p.Rows {
		where := fmt.Sprintf("limit %d (%s)", i, r.Name)
		if r.Week < 0 || r.Week >= p.Weeks {
			v.add(where, "is on week %d of 0 to %d", r.Week, p.Weeks-1)
		}
		v.notNegative(where, "capacity", r.Capacity)
		if r.Kinds>>p.Kinds != 0 {
			v.add(where, "counts kinds %#b, but there are only %d", r.Kinds, p.Kinds)
		}
	}
	return v.err()
}

func validateDog(v *faults, p *Problem, dog *Dog, where string) {
	v.notNegative(where, "set-up", dog.SetUp)
	v.notNegative(where, "session cost", dog.SessionCost)
	v.notNegative(where, "stay", dog.Stay)
	v.byWeek(where, "minutes", dog.Minutes, p.Weeks)
	v.byWeek(where, "value", dog.Value, p.Weeks)
	if dog.ShowValue != nil {
		v.byWeek(where, "show value", dog.ShowValue, p.Weeks)
	}
	v.counts(where, "most sessions", dog.Most)
	v.counts(where, "accepted sessions", dog.Kept)
	if len(dog.Most) != p.Weeks {
		v.add(where, "most sessions: %d weeks, the season has %d", len(dog.Most), p.Weeks)
	}
	if len(dog.Kept) > p.Weeks {
		v.add(where, "accepted sessions: %d weeks, the season has %d", len(dog.Kept), p.Weeks)
	}
	if len(dog.Shows) > 0 {
		v.byWeek(where, "show weights", dog.Shows, p.Weeks)
		var sum float64
		for _, w := range dog.Shows {
			sum += w
		}
		if !(math.Abs(sum-1) <= 1e-6) {
			v.add(where, "show weights sum to %g, not 1", sum)
		}
	}
	var weight float64
	for a := range dog.Areas {
		weight += dog.Areas[a].Weight
	}
	if weight > 1+1e-6 {
		v.add(where, "areas weigh %g together, more than 1", weight)
	}
	for a := range dog.Areas {
		validateArea(v, p, &dog.Areas[a], fmt.Sprintf("%s, area %d (%s)", where, a, dog.Areas[a].Name))
	}
}

func validateArea(v *faults, p *Problem, area *Area, where string) {
	if area.Kind < 0 || area.Kind >= p.Kinds {
		v.add(where, "is of kind %d of 0 to %d", area.Kind, p.Kinds-1)
	}
	v.notNegative(where, "weight", area.Weight)
	v.notNegative(where, "minutes", area.Minutes)
	if area.Minutes == 0 {
		v.add(where, "minutes are 0, but pulling takes time")
	}
	v.notNegative(where, "minutes of dead hair", area.Loose)
	if area.Loose > area.Minutes {
		v.add(where, "dead hair takes %g minutes and living hair %g, which is less", area.Loose, area.Minutes)
	}
	v.notNegative(where, "dead share", area.Dead)
	if area.Dead > 1 {
		v.add(where, "the dead share is %g, more than 1", area.Dead)
	}
	v.notNegative(where, "even share", area.Even)
	for _, points := range [][]float64{area.Over, area.Under, area.Left} {
		if points != nil {
			v.byWeek(where, "points for uneven work and dead hair", points, p.Weeks)
		}
	}
	if len(area.Agreed) > p.Weeks {
		v.add(where, "agreed shares: %d weeks, the season has %d", len(area.Agreed), p.Weeks)
	}
	for t, x := range area.Agreed {
		v.notNegative(where, fmt.Sprintf("agreed share of week %d", t), x)
	}
	v.notNegative(where, "points for moved shares", area.Moved)
	if area.Grip < 0 {
		v.add(where, "grip is %d weeks", area.Grip)
	}
	v.byWeek(where, "largest share", area.Most, p.Weeks)
	if area.Room != nil {
		v.byWeek(where, "most minutes", area.Room, p.Weeks)
	}
	last := 0.0
	for i, x := range area.Past {
		v.notNegative(where, "past", x)
		if x < last {
			v.add(where, "past falls from %g to %g at %d", last, x, i)
		}
		last = x
	}
	for _, terms := range [][]Term{area.Young, area.Old} {
		for _, k := range terms {
			if k.Weeks < 1 {
				v.add(where, "a term has %d weeks, needs at least 1", k.Weeks)
			}
			v.notNegative(where, "allow", k.Allow)
			v.notNegative(where, "slope", k.Slope)
		}
	}
}

// faults gathers what is wrong.
type faults struct{ all []error }

func (v *faults) add(where, format string, args ...any) {
	v.all = append(v.all, fmt.Errorf("%s: %s", where, fmt.Sprintf(format, args...)))
}

func (v *faults) err() error { return errors.Join(v.all...) }

func (v *faults) notNegative(where, what string, x float64) {
	if !(x >= 0) || math.IsInf(x, 1) {
		v.add(where, "%s is %g, must be a number of at least 0", what, x)
	}
}

func (v *faults) byWeek(where, what string, xs []float64, weeks int) {
	if len(xs) != weeks {
		v.add(where, "%s: %d weeks, the season has %d", what, len(xs), weeks)
	}
	for t, x := range xs {
		v.notNegative(where, fmt.Sprintf("%s of week %d", what, t), x)
	}
}

func (v *faults) counts(where, what string, ns []int) {
	for t, n := range ns {
		if n < 0 {
			v.add(where, "%s of week %d is %d", what, t, n)
		}
	}
}
