package season

// incumbent is the best plan that was offered so far, with its value in points.
type incumbent struct {
	plan  Plan
	value float64
}

// offer takes a feasible plan if it is better.
func (i *incumbent) offer(pl Plan, value float64) bool {
	if !(value > i.value) {
		return false
	}
	i.plan, i.value = pl, value
	return true
}
