package main

import (
	"testing"

	"tuckup/optimize"
)

func TestEverySettingSetsItsOwnOption(t *testing.T) {
	standard := optimize.DefaultOptions()
	for _, b := range bindings() {
		if x := b.get(standard); x < b.Low || x > b.High {
			t.Errorf("%s: the default %v lies outside %v to %v", b.Key, x, b.Low, b.High)
		}
		for _, x := range []float64{b.Low, b.High} {
			opt := standard
			b.set(&opt, x)
			if got := b.get(opt); got != x {
				t.Errorf("%s: set to %v, reads %v", b.Key, x, got)
			}
			for _, other := range bindings() {
				if other.Key != b.Key && other.get(opt) != other.get(standard) {
					t.Errorf("%s changes %s", b.Key, other.Key)
				}
			}
		}
	}
}
