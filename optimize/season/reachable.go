package season

import "math"

// Reachable bounds how ready a dog can still be for a show at the end of a week: each area for itself, without limits of
// time, and no area below nothing.
func Reachable(p *Problem, dog *Dog, week int) float64 {
	mean, worst := 0.0, math.Inf(1)
	value := make([]float64, p.Weeks)
	value[week] = 1
	for a := range dog.Areas {
		area := dog.Areas[a]
		area.Over, area.Under, area.Left, area.cleared = nil, nil, nil, 0
		net := newAreaNet(&area, p.Weeks)
		net.SetValue(value)
		for t := range p.Weeks {
			net.SetOpen(t, dog.canOpen(t))
		}
		net.Solve()
		ready := math.Max(0, 1-net.Minimum())
		mean += area.Weight * ready
		worst = math.Min(worst, ready)
	}
	if p.Hole > 0 {
		return math.Min(mean, worst+p.Hole)
	}
	return mean
}
