package season

import "math"

// stabilisation smooths the prices that a column generation asks at towards the best ones so far.
type stabilisation struct {
	part   float64 // of the best prices in those that are asked
	best   prices  // with the least Lagrangian value so far
	least  float64 // that value, +Inf before the first round
	misses int     // rounds that gained nothing
}

func newStabilisation(part float64) *stabilisation {
	return &stabilisation{part: part, least: math.Inf(1)}
}

// active reports whether there are prices to smooth towards.
func (b *stabilisation) active() bool { return b.part > 0 && !math.IsInf(b.least, 1) }

// note keeps the prices of a round if its Lagrangian value is the least.
func (b *stabilisation) note(q prices, lagrange float64) bool {
	if lagrange < b.least {
		b.least, b.best = lagrange, q
		return true
	}
	return false
}

// missed goes nearer to the master's prices after a round that gained nothing; false where those were asked already.
func (b *stabilisation) missed() bool {
	if b.part == 0 || b.misses > mostMisses {
		return false
	}
	b.misses++
	b.part /= 2
	if b.misses > mostMisses {
		b.part = 0
	}
	return true
}
