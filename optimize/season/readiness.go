package season

import "math"

// readyWeeks gathers by week what a dog's areas make of its readiness, area after area.
type readyWeeks struct {
	mean   []float64 // weighted mean of the areas, 0..1, unclipped
	worst  []float64 // the worst area; without end where there is none
	uneven float64   // points
}

func newReadyWeeks(weeks int) *readyWeeks {
	r := &readyWeeks{mean: make([]float64, weeks), worst: make([]float64, weeks)}
	for t := range r.worst {
		r.worst[t] = math.Inf(1)
	}
	return r
}

// set makes it what the other is.
func (r *readyWeeks) set(o *readyWeeks) {
	copy(r.mean, o.mean)
	copy(r.worst, o.worst)
	r.uneven = o.uneven
}

// add takes in an area with its shares.
func (r *readyWeeks) add(a *Area, shares []float64) {
	for t, loss := range a.losses(shares) {
		r.mean[t] += a.Weight * (1 - loss)
		r.worst[t] = math.Min(r.worst[t], 1-loss)
	}
	r.uneven += a.uneven(shares)
}

// atShow is the readiness for a show in week t.
func (r *readyWeeks) atShow(p *Problem, t int) float64 {
	if p.Hole > 0 {
		return math.Min(r.mean[t], r.worst[t]+p.Hole)
	}
	return r.mean[t]
}

// points are the dog's points for readiness and even work, and its mean show readiness.
func (r *readyWeeks) points(p *Problem, g *Dog) (ready, mean float64) {
	ready = -r.uneven
	for t, m := range r.mean {
		ready += g.Value[t] * m
		if g.ShowValue == nil && g.Shows == nil {
			continue
		}
		show := r.atShow(p, t)
		if g.ShowValue != nil {
			ready += g.ShowValue[t] * show
		}
		if g.Shows != nil && g.Shows[t] != 0 {
			mean += g.Shows[t] * show
		}
	}
	return ready, mean
}

// losses are by week what an area lacks of full readiness, unclipped.
func (a *Area) losses(shares []float64) []float64 {
	curve, loss := make([]float64, len(shares)), make([]float64, len(shares))
	var sum float64
	for t, s := range shares {
		sum += s
		curve[t] = a.PastAt(t) + sum
	}
	for t := range shares {
		for _, k := range a.Young {
			if over := a.younger(curve, t, k.Weeks) - k.Allow; over > 0 {
				loss[t] += k.Slope * over
			}
		}
		for _, k := range a.Old {
			if over := 1 - k.Allow - a.younger(curve, t, k.Weeks); over > 0 {
				loss[t] += k.Slope * over
			}
		}
	}
	return loss
}

// uneven is what the area's weeks are charged for uneven work, for dead hair that is left and for what is moved, points.
func (a *Area) uneven(shares []float64) float64 {
	var points, pulled float64
	for t, s := range shares {
		if pulled += s; a.Left != nil {
			points += a.Left[t] * math.Max(0, a.Dead-pulled)
		}
		if t < len(a.Agreed) {
			points += a.Moved * math.Abs(pulled-a.Agreed[t])
		}
		if a.Over != nil {
			points += a.Over[t] * math.Max(0, s-a.Even)
		}
		if a.Under != nil {
			two := s + a.PastAt(t) - a.PastAt(t-2)
			if t > 0 {
				two += shares[t-1]
			}
			points += a.Under[t] * math.Max(0, a.Even-two)
		}
	}
	return points
}

// younger is the share younger than so many weeks at the end of week t with the curve of weeks 0 and on.
func (a *Area) younger(curve []float64, t, weeks int) float64 {
	if t >= weeks {
		return curve[t] - curve[t-weeks]
	}
	return curve[t] - a.PastAt(t-weeks)
}

// showPoints are the dog's points of full readiness for shows in week t at a price of its mean show readiness.
func (g *Dog) showPoints(t int, show float64) (v float64) {
	if g.ShowValue != nil {
		v = g.ShowValue[t]
	}
	if show != 0 && g.Shows != nil {
		v += show * g.Shows[t]
	}
	return v
}

// weight is the dog's points of full readiness in week t at a show price.
func (g *Dog) weight(t int, show float64) float64 { return g.Value[t] + g.showPoints(t, show) }
