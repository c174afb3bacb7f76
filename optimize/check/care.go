package check

import (
	"math"
	"slices"

	"tuckup/kennel"
)

// careOfKept is the duty that a pattern brings for its kept hair.
const careOfKept = "legs and beard"

// withCare are a dog's duties with the care of its kept hair, which is its pattern's where it has none of its own.
func withCare(own []kennel.Duty, p kennel.Pattern) []kennel.Duty {
	care := p.Care
	if care.Minutes.Value <= 0 || care.Every.Value <= 0 || slices.ContainsFunc(own, kennel.Duty.Care) {
		return own
	}
	every := kennel.Weeks(math.Max(1, math.Round(care.Every.Value)))
	return append(slices.Clone(own), kennel.Duty{Name: careOfKept, Minutes: kennel.Minutes(care.Minutes.Value), Every: every})
}
