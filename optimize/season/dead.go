package season

import "math"

// Dead hair comes first and takes fewer minutes, so what a week takes depends on what was pulled before, and is not
// convex. Once the week is decided by whose end an area is cleared of it, it is: before that week all pulling is of dead
// hair, after it all counts as living, and in it what is beyond the dead share does. A plan that clears the area later than
// decided is charged too much, never too little.

// clearing is the decided week by whose end the area is cleared, and whether one is.
func (a *Area) clearing() (week int, decided bool) { return a.cleared - 1, a.Dead > 0 && a.cleared > 0 }

// clearedBy is the week by whose end the shares clear the area of dead hair, the first after the season where they don't.
func (a *Area) clearedBy(shares []float64) int {
	sum := 0.0
	for t, s := range shares {
		if sum += s; sum >= a.Dead-clearedTol {
			return t
		}
	}
	return len(shares)
}

// clearedTol is the share by which an area may fall short of being cleared.
const clearedTol = 1e-6

// MinutesOf are the minutes by week that the shares take: by the decided week of clearing, else as they are.
func (a *Area) MinutesOf(shares []float64) []float64 {
	m := make([]float64, len(shares))
	if a.Dead == 0 {
		for t, s := range shares {
			m[t] = a.Minutes * s
		}
		return m
	}
	week, decided := a.clearing()
	sum := 0.0
	for t, s := range shares {
		living := s
		switch {
		case !decided:
			living = math.Max(0, sum+s-math.Max(a.Dead, sum))
		case t < week:
			living = 0
		case t == week:
			living = math.Max(0, sum+s-a.Dead)
		}
		sum += s
		m[t] = a.Loose*(s-living) + a.Minutes*living
	}
	return m
}

// MinutesIn are the minutes that the share of week t takes, after those of the weeks before.
func (a *Area) MinutesIn(t int, shares []float64) float64 {
	if a.Dead == 0 || shares[t] == 0 {
		return a.Minutes * shares[t]
	}
	return a.MinutesOf(shares[:t+1])[t]
}

// DeadLeft is the share of dead hair that the weeks before t leave.
func (a *Area) DeadLeft(t int, shares []float64) float64 {
	left := a.Dead
	for _, s := range shares[:t] {
		left -= s
	}
	return math.Max(0, left)
}

// reach is the largest share that can be pulled in week t, dead and alive.
func (a *Area) reach(t int) float64 {
	most := a.living(t)
	if most == 0 || a.Dead == 0 {
		return most
	}
	if week, decided := a.clearing(); decided {
		switch {
		case t < week:
			return math.Min(a.Dead, a.loosely(t))
		case t > week:
			return most
		default:
			reach, _ := a.inClearing()
			return reach
		}
	}
	return math.Min(a.Most[t]+a.Dead, a.loosely(t))
}

// living is the largest share of living hair that can be pulled in week t.
func (a *Area) living(t int) float64 {
	if a.Room == nil || a.Minutes <= 0 {
		return a.Most[t]
	}
	return math.Min(a.Most[t], a.Room[t]/a.Minutes)
}

// loosely is the largest share that the minutes of week t hold if all of it is dead.
func (a *Area) loosely(t int) float64 {
	if a.Room == nil || a.Loose <= 0 {
		return math.Inf(1)
	}
	return a.Room[t] / a.Loose
}

// inClearing are the largest share that can be pulled in the decided week of clearing, and of that the living: within Room
// however it is mixed, for half of that is kept for the living.
func (a *Area) inClearing() (all, living float64) {
	week := a.cleared - 1
	if a.Room == nil {
		return a.Most[week] + a.Dead, a.Most[week]
	}
	living = math.Min(a.Most[week], a.Room[week]/(2*a.Minutes))
	all = living + a.Dead
	if a.Loose > 0 {
		all = math.Min(all, (a.Room[week]-(a.Minutes-a.Loose)*living)/a.Loose)
	}
	return all, living
}

// MostIn is the largest share of the area that can be pulled in week t, after those of the weeks before: dead hair that is left,
// and so much of the living.
func (a *Area) MostIn(t int, shares []float64) float64 {
	if a.Most[t] == 0 {
		return 0
	}
	most := a.Most[t] + a.DeadLeft(t, shares)
	if a.Room == nil {
		return most
	}
	return math.Min(most, a.ShareIn(t, shares, a.Room[t]))
}

// ShareIn is the largest share of the area that so many minutes of week t hold, after those of the weeks before.
func (a *Area) ShareIn(t int, shares []float64, minutes float64) float64 {
	dead := a.DeadLeft(t, shares)
	if loose := dead * a.Loose; minutes >= loose {
		return dead + (minutes-loose)/a.Minutes
	}
	return minutes / a.Loose
}

// reachBy is no less than that of an area that is cleared by the end of one of the weeks from..to.
func (a *Area) reachBy(t, from, to int) float64 {
	switch living := a.living(t); {
	case living == 0 || t > to:
		return living
	case t < from:
		return math.Min(a.Dead, a.loosely(t))
	default:
		return math.Min(a.Most[t]+a.Dead, a.loosely(t))
	}
}

// clearings are the decided weeks as the areas hold them; nil where the dog has no dead hair.
func (g *Dog) clearings() []int {
	if !g.hasDead() {
		return nil
	}
	w := make([]int, len(g.Areas))
	for a := range w {
		w[a] = g.Areas[a].cleared
	}
	return w
}

// hasDead reports whether any area of the dog has dead hair.
func (g *Dog) hasDead() bool {
	for a := range g.Areas {
		if g.Areas[a].Dead > 0 {
			return true
		}
	}
	return false
}

// withDead are the dogs with dead hair.
func (p *Problem) withDead() (dogs []int) {
	for d := range p.Dogs {
		if p.Dogs[d].hasDead() {
			dogs = append(dogs, d)
		}
	}
	return dogs
}
