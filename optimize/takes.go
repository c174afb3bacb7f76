package optimize

import "tuckup/optimize/season"

// takes are the minutes that the share of week t takes, after those of the weeks before.
func takes(area *season.Area, shares []float64, t int) float64 {
	return shares[t] * area.Minutes
}

// mostOf is the largest share of an area that may be pulled in week t, after those of the weeks before.
func mostOf(area *season.Area, _ []float64, t int) float64 {
	return area.Most[t]
}
