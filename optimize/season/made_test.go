package season

import "math/rand/v2"

// The made-up seasons of these tests come from season/made, which imports this package: usemade_test.go, outside of it,
// sets them here.
var (
	Random       func(seed uint64, dogs, weeks int, tight float64) *Problem
	RandomSized  func(seed uint64, dogs, fewest, areas, weeks int, tight float64) *Problem
	RandomString func(seed uint64, s Shape) *Problem
)

// Shape is made.Shape.
type Shape struct {
	Dogs, Weeks int
	Hours       float64
	Hands       int
	ADog        float64
	Session     float64
	Own         bool
}

// randomiser draws the numbers of tests' own seasons.
type randomiser struct{ *rand.Rand }

func (r *randomiser) chance(p float64) bool { return r.Float64() < p }

func (r *randomiser) between(low, high int) int { return low + r.IntN(high-low+1) }
