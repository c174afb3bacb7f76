package optimize

import "tuckup/optimize/season"

// mostOf is the largest share of an area that may be pulled in week t, after those of the weeks before: dead hair that is
// left, and so much of the living.
func mostOf(area *season.Area, shares []float64, t int) float64 {
	if area.Most[t] == 0 {
		return 0
	}
	return area.Most[t] + area.DeadLeft(t, shares)
}

// shareIn is the largest share of an area that so many minutes of week t hold, after those of the weeks before.
func shareIn(area *season.Area, shares []float64, t int, minutes float64) float64 {
	dead := mostOf(area, shares, t) - area.Most[t]
	if loose := dead * area.Loose; minutes >= loose {
		return dead + (minutes-loose)/area.Minutes
	}
	return minutes / area.Loose
}
