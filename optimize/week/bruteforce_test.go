package week

import (
	"math"
	"testing"
)

// bruteForce tries every choice.
func bruteForce(m *menu) float64 {
	best := math.Inf(-1)
	chosen := empty(len(m.items))
	var try func(i int)
	try = func(i int) {
		if i == len(chosen) {
			if v, ok := m.value(chosen); ok {
				best = math.Max(best, v)
			}
			return
		}
		chosen[i] = none
		try(i + 1)
		for _, c := range m.items[i] {
			chosen[i] = c
			try(i + 1)
		}
		chosen[i] = none
	}
	try(0)
	return best
}

const sameWorth = 1e-6

// toTheEnd are the usual options with nothing left open.
func toTheEnd() Options {
	opt := DefaultOptions()
	opt.Within = 0
	return opt
}

func TestSmallWeeksAreAsGoodAsTryingEverything(t *testing.T) {
	sizes := []size{{3, 2, 2, 3, 1}, {4, 1, 2, 3, 2}, {2, 3, 3, 3, 1}, {5, 1, 1, 3, 1}}
	proven := 0
	for seed := range uint64(120) {
		p := randomWeek(seed, sizes[seed%uint64(len(sizes))])
		m := newMenu(p)
		choices := 1
		for _, o := range m.items {
			choices *= 1 + len(o)
		}
		if choices > 60000 {
			continue
		}
		r, err := Solve(p, toTheEnd())
		if err != nil {
			t.Fatal(err)
		}
		want := bruteForce(m)
		if math.Abs(r.Objective-want) > sameWorth || r.Gap > sameWorth {
			t.Errorf("seed %d: %v (bound %v), the best of all choices is %v", seed, r.Objective, r.Bound, want)
		}
		proven++
	}
	if proven < 80 {
		t.Errorf("only %d weeks were small enough", proven)
	}
}
