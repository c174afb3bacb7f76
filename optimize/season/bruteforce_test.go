package season

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// tinySeason is a season of 1 or 2 dogs with 2 areas over 3 or 4 weeks whose every plan on a grid of shares can be
// tried. The shares that may be pulled are 0 .. levels-1 times step.
func tinySeason(seed uint64) (p *Problem, step float64, levels int) {
	r := &randomiser{rand.New(rand.NewPCG(seed, 12))}
	step = float64(r.between(1, 3)) / 12
	levels = 4
	p = &Problem{Weeks: 3, Kinds: 2, Balance: float64(r.IntN(2)) * 0.5}
	dogs := 1 + int(seed%2)
	if dogs == 1 && seed%4 == 0 {
		p.Weeks, levels = 4, 3
	}
	for range dogs {
		dog := Dog{Name: "Dog", SetUp: 10, SessionCost: 0.01}
		var sum float64
		for range p.Weeks {
			dog.Minutes = append(dog.Minutes, float64(10*r.between(2, 4)))
			dog.Most = append(dog.Most, r.between(0, 2))
			dog.Value = append(dog.Value, float64(r.between(0, 4))/4)
			w := float64(r.between(0, 2))
			dog.Shows = append(dog.Shows, w)
			sum += w
		}
		if sum == 0 {
			dog.Shows = nil
		}
		for t := range dog.Shows {
			dog.Shows[t] /= sum
		}
		if dogs == 1 && r.chance(0.5) { // with two dogs, more sessions than the work needs are never better
			dog.Kept, dog.Stay = []int{r.IntN(2), r.IntN(3)}, 0.2
		}
		for i := range 2 {
			a := Area{
				Name: "area", Kind: i, Weight: 0.5, Minutes: float64(20 * r.between(2, 5)), Grip: r.IntN(3),
				Young: []Term{{r.between(1, 3), float64(r.between(0, 6)) / 12, 0.8}},
				Old:   []Term{{r.between(1, 3), float64(r.between(0, 4)) / 12, 1}, {4, 0.5, 0.5}},
			}
			var past float64
			for range 5 {
				past += float64(r.IntN(5)) / 12
				a.Past = append(a.Past, past)
			}
			for range p.Weeks {
				a.Most = append(a.Most, step*float64(r.between(1, levels-1)))
			}
			dog.Areas = append(dog.Areas, a)
		}
		p.Dogs = append(p.Dogs, dog)
	}
	for t := range p.Weeks {
		p.Rows = append(
			p.Rows,
			Row{Name: "hours", Week: t, Capacity: float64(5 * r.between(0, 8*dogs)), Kinds: 0b11, SetUps: true},
			Row{Name: "load", Week: t, Capacity: float64(5 * r.between(1, 6*dogs)), Kinds: 0b01, Strip: true},
		)
	}
	r.enrich(p, step)
	if seed%3 == 1 {
		oneSession(p)
	}
	if seed%4 > 1 {
		agree(p, step)
	}
	return p, step, levels
}

// enrich gives a season what not every season has: holes at shows, dead hair on the grid, charges on uneven work.
func (r *randomiser) enrich(p *Problem, step float64) {
	if r.chance(0.3) {
		return
	}
	p.Hole = float64(r.between(1, 4)) / 12
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		if r.chance(0.7) {
			for range p.Weeks {
				dog.ShowValue = append(dog.ShowValue, float64(r.between(0, 2)))
			}
		}
		for i := range dog.Areas {
			a := &dog.Areas[i]
			if r.chance(0.5) {
				a.Dead, a.Loose = step*float64(r.between(1, 2)), a.Minutes/2
			}
			if r.chance(0.5) {
				a.Even, a.Over, a.Under = step/2, make([]float64, p.Weeks), make([]float64, p.Weeks)
				for t := range p.Weeks {
					a.Over[t], a.Under[t] = 0.1*r.Float64(), 0.1*r.Float64()
				}
			}
		}
	}
}

// oneSession bounds an area's minutes of a week by one session.
func oneSession(p *Problem) {
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		for a := range dog.Areas {
			for t := range p.Weeks {
				m := dog.Areas[a].Minutes
				dog.Areas[a].Room = append(dog.Areas[a].Room, math.Floor(dog.clear(t)/m*shareGrid)/shareGrid*m)
			}
		}
	}
}

// agree has a plan agreed on for the first weeks: a step of each area in the first, and another in the last.
func agree(p *Problem, step float64) {
	for d := range p.Dogs {
		for a := range p.Dogs[d].Areas {
			area := &p.Dogs[d].Areas[a]
			area.Moved = 0.1 * float64(1+a)
			for range p.Weeks - 1 {
				area.Agreed = append(area.Agreed, step)
			}
			area.Agreed = append(area.Agreed, 2*step)
		}
	}
}

// tried is one dog's plan: its points without balance, its show mean, and what it takes of each limit.
type tried struct {
	points, mean float64
	use          []float64
}

// tryAll is every plan of one dog on the grid that is allowed for the dog alone.
func tryAll(p *Problem, d int, step float64, levels int) []tried {
	alone := *p
	alone.Dogs, alone.Balance = p.Dogs[d:d+1], 0
	dog := &p.Dogs[d]
	plan := NewPlan(&alone)
	var all []tried
	look := func() {
		if Violations(&alone, plan, 1e-9) != nil {
			return
		}
		o := tried{points: Evaluate(&alone, plan), mean: ShowMean(&alone, plan, 0)}
		for _, r := range p.Rows {
			var use float64
			for a, area := range dog.Areas {
				if r.Kinds&(1<<area.Kind) != 0 {
					use += area.Minutes*plan.Shares[0][a][r.Week] -
						(area.Minutes-area.Loose)*deadPulled(&dog.Areas[a], plan.Shares[0][a])[r.Week]
				}
			}
			if r.SetUps {
				use += dog.SetUp * float64(plan.Sessions[0][r.Week])
			}
			o.use = append(o.use, use)
		}
		all = append(all, o)
	}
	var sessions, shares func(t, a int)
	sessions = func(t, _ int) {
		if t == p.Weeks {
			look()
			return
		}
		var work float64
		for a := range dog.Areas {
			area := &dog.Areas[a]
			work += area.Minutes*plan.Shares[0][a][t] - (area.Minutes-area.Loose)*deadPulled(area, plan.Shares[0][a])[t]
		}
		for z := 0; z <= dog.Most[t]; z++ {
			if work+dog.SetUp*float64(z) > dog.Minutes[t]*float64(z)+1e-9 {
				continue
			}
			plan.Sessions[0][t] = z
			sessions(t+1, 0)
			if dog.Kept == nil {
				return // another session would only cost
			}
		}
	}
	shares = func(t, a int) {
		switch {
		case t == p.Weeks:
			sessions(0, 0)
			return
		case a == len(dog.Areas):
			shares(t+1, 0)
			return
		}
		for k := range levels {
			u := step * float64(k)
			if u > dog.Areas[a].Most[t]+dog.Areas[a].Dead+1e-9 || k > 0 && dog.Most[t] == 0 {
				break
			}
			plan.Shares[0][a][t] = u
			shares(t, a+1)
		}
		plan.Shares[0][a][t] = 0
	}
	shares(0, 0)
	return all
}

// bruteForce is the best value of a plan on the grid.
func bruteForce(p *Problem, step float64, levels int) float64 {
	options := make([][]tried, len(p.Dogs))
	for d := range p.Dogs {
		options[d] = tryAll(p, d, step, levels)
	}
	value := func(points float64, o ...tried) float64 {
		least, shown := math.Inf(1), false
		for d := range o {
			if p.Dogs[d].Shows != nil {
				least, shown = min(least, o[d].mean), true
			}
		}
		if shown {
			points += p.Balance * least
		}
		return points
	}
	best := math.Inf(-1)
	if len(p.Dogs) == 1 {
		for _, o := range options[0] {
			best = max(best, value(o.points, o))
		}
		return best
	}
	byPoints := func(a, b tried) int { return cmp.Compare(b.points, a.points) }
	slices.SortFunc(options[0], byPoints)
	slices.SortFunc(options[1], byPoints)
	for _, a := range options[0] {
	second:
		for _, b := range options[1] {
			if a.points+b.points+p.Balance <= best { // a mean is at most 1
				break
			}
			for i, r := range p.Rows {
				if a.use[i]+b.use[i] > r.Capacity+1e-9 {
					continue second
				}
			}
			best = max(best, value(a.points+b.points, a, b))
		}
	}
	return best
}

// No plan on the grid is above the bound, and none is better than the plan by more than 0.5 %.
func TestSolveAgainstBruteForce(t *testing.T) {
	better := 0
	for seed := range uint64(60) {
		p, step, levels := tinySeason(seed)
		if err := Validate(p); err != nil {
			t.Fatal(err)
		}
		r, err := Solve(context.Background(), p, Options{Seed: 1})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		checkResult(t, p, r)
		best := bruteForce(p, step, levels)
		if r.Bound < best-1e-9*scale(best) {
			t.Errorf("seed %d: the bound is %.9g, but a plan is worth %.9g", seed, r.Bound, best)
		}
		if r.Objective < best-0.005*scale(best) {
			t.Errorf("seed %d: the plan is worth %.9g, but one on the grid %.9g", seed, r.Objective, best)
		}
		if best > Evaluate(p, NewPlan(p))+1e-6 {
			better++
		}
	}
	if better < 30 {
		t.Errorf("only in %d of 60 seasons is there anything to do", better)
	}
}
