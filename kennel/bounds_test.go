package kennel

import (
	"math"
	"testing"
)

func TestARangeHasItsEndsAndSaysThem(t *testing.T) {
	for _, c := range []struct {
		b          Bounds
		in, out    []float64
		words, try string
	}{
		{Bounds{Least: 0, Most: 60, Unit: "minutes"}, []float64{0, 12.5, 60}, []float64{-0.1, 60.1, math.NaN(), math.Inf(1)}, "0 to 60 minutes", "a number from 0 to 60 (minutes)"},
		{Bounds{Least: 0.5, Most: 2, Note: "1 is usual"}, []float64{0.5, 2}, []float64{0.49, 2.01}, "0.5 to 2", "a number from 0.5 to 2; 1 is usual"},
		{Bounds{Above: true, Most: 480, Unit: "minutes"}, []float64{0.1, 480}, []float64{0, 480.5}, "above 0, to 480 minutes", "a number above 0, at most 480 (minutes)"},
		{WeightBounds, []float64{1e-9, 1e6}, []float64{0, -1, 1e6 + 1, math.NaN()}, "above 0", "a number above 0; 1 is usual"},
	} {
		for _, v := range c.in {
			if !c.b.Has(v) {
				t.Errorf("%v is not in %s", v, c.words)
			}
		}
		for _, v := range c.out {
			if c.b.Has(v) {
				t.Errorf("%v is in %s", v, c.words)
			}
		}
		if c.b.Words() != c.words || c.b.try() != c.try {
			t.Errorf("says %q and %q, not %q and %q", c.b.Words(), c.b.try(), c.words, c.try)
		}
	}
}
