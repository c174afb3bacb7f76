package optimize

import "tuckup/optimize/season"

// takes are the minutes that the share of week t takes, after those of the weeks before.
func takes(area *season.Area, shares []float64, t int) float64 {
	if area.Dead == 0 {
		return shares[t] * area.Minutes
	}
	return area.MinutesOf(shares)[t]
}

// mostOf is the largest share of an area that may be pulled in week t, after those of the weeks before: dead hair that is
// left, and so much of the living.
func mostOf(area *season.Area, shares []float64, t int) float64 {
	most := area.Most[t]
	if most == 0 || area.Dead == 0 {
		return most
	}
	left := area.Dead
	for _, share := range shares[:t] {
		left -= share
	}
	return most + max(0, left)
}

// shareIn is the largest share of an area that so many minutes of week t hold, after those of the weeks before.
func shareIn(area *season.Area, shares []float64, t int, minutes float64) float64 {
	dead := mostOf(area, shares, t) - area.Most[t]
	if loose := dead * area.Loose; minutes >= loose {
		return dead + (minutes-loose)/area.Minutes
	}
	return minutes / area.Loose
}
