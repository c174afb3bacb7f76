package season

import "math"

// Reachable bounds how ready a dog can still be for a show at the end of each of the weeks: each area for itself, without limits
// of time, and no area below nothing.
func Reachable(p *Problem, dog *Dog, weeks []int) []float64 {
	mean, worst := make([]float64, len(weeks)), make([]float64, len(weeks))
	for i := range worst {
		worst[i] = math.Inf(1)
	}
	if len(weeks) == 0 {
		return mean
	}
	for a := range dog.Areas {
		area := dog.Areas[a]
		area.Over, area.Under, area.Left, area.Agreed, area.cleared = nil, nil, nil, nil, 0
		net := newAreaNet(&area, p.Weeks)
		for t := range p.Weeks {
			net.SetOpen(t, dog.canOpen(t))
		}
		for i, week := range weeks {
			value := make([]float64, p.Weeks)
			value[week] = 1
			net.SetValue(value)
			net.Solve()
			ready := math.Max(0, 1-net.Minimum())
			mean[i] += area.Weight * ready
			worst[i] = math.Min(worst[i], ready)
		}
	}
	if p.Hole > 0 {
		for i := range mean {
			mean[i] = math.Min(mean[i], worst[i]+p.Hole)
		}
	}
	return mean
}
