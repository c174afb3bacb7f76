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

func TestOnlyWhatIsCertainIsNothingOrOne(t *testing.T) {
	for _, c := range []struct {
		chance float64
		csv    string
	}{{0, "0.0000"}, {1e-7, "0.0001"}, {0.25, "0.2500"}, {0.99997, "0.9999"}, {1, "1.0000"}} {
		if got := Number(Chance(c.chance), ChanceDecimals); got != c.csv {
			t.Errorf("%v is %s, want %s", c.chance, got, c.csv)
		}
	}
}
