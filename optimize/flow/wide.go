package flow

import "math/bits"

// wide is a whole number of 128 bits: sums of products of whole numbers stay exact in it.
type wide struct {
	high int64
	low  uint64
}

// add adds a·b.
func (w *wide) add(a, b int64) {
	high, low := bits.Mul64(uint64(a), uint64(b))
	h := int64(high)
	if a < 0 { // the unsigned product counts a negative factor as that factor plus 2^64
		h -= b
	}
	if b < 0 {
		h -= a
	}
	var carry uint64
	w.low, carry = bits.Add64(w.low, low, 0)
	w.high += h + int64(carry)
}

// float is the nearest float64, or one beside it.
func (w *wide) float() float64 {
	if w.high < 0 {
		low, borrow := bits.Sub64(0, w.low, 0)
		high, _ := bits.Sub64(0, uint64(w.high), borrow)
		return -(float64(high)*(1<<64) + float64(low))
	}
	return float64(w.high)*(1<<64) + float64(w.low)
}
