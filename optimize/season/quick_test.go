package season

import "testing"

// some is how many cases of a property are tried: all of them, or few in the quick round (go test -short).
func some(all, few uint64) uint64 {
	if testing.Short() {
		return few
	}
	return all
}
