package layout

import (
	"strconv"
	"testing"
)

// What CSV prints reads back as the number that JSON has, also where the last digit is a five that binary numbers miss.
func TestNumbersAreRoundedOneWay(t *testing.T) {
	for _, x := range []float64{3.105, 1.005, 2.675, 0.125, -0.125, 77.5, -0.001} {
		got, err := strconv.ParseFloat(Number(x, 2), 64)
		if err != nil || got != Rounded(x, 2) {
			t.Errorf("%v is printed as %q and rounded to %v (%v)", x, Number(x, 2), Rounded(x, 2), err)
		}
	}
}
