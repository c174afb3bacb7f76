package season

import "testing"

// No plan has a dog readier for a show than it can still be made, and not every dog can be made ready.
func TestNoPlanPassesWhatCanBeReached(t *testing.T) {
	shows, hopeless := 0, 0
	for seed := range uint64(12) {
		p := Random(seed, 2, 13, 0.8)
		plan := solved(t, p, Options{Seed: 1, Quick: true}).Plan
		for d := range p.Dogs {
			for w, v := range p.Dogs[d].ShowValue {
				if v == 0 {
					continue
				}
				shows++
				most, got := Reachable(p, &p.Dogs[d], []int{w})[0], ShowReadiness(p, plan, d, w)
				if got > most+1e-6 {
					t.Errorf("seed %d, dog %d, week %d: it is %.6g, but can be %.6g at most", seed, d, w, got, most)
				}
				if most < 0.8 {
					hopeless++
				}
			}
		}
	}
	if shows < 20 || hopeless == 0 || hopeless == shows {
		t.Errorf("%d of %d shows are hopeless", hopeless, shows)
	}
}

// Where the answer is the plan at hand, only rows that it fills have prices.
func TestRowsWithTimeOverHaveNoPrice(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	p := Random(3, 3, 13, 0.4)
	plan := solved(t, p, Options{Seed: 1}).Plan
	all := make([]float64, len(p.Rows))
	for i := range all {
		all[i] = 1
	}
	kept, full := p.onlyFull(all, plan), 0
	for i, r := range p.Rows {
		if over := r.Capacity - rowMinutes(p, plan, &r); (over > 0.01 && kept[i] != 0) || (over < 1e-6 && kept[i] != 1) {
			t.Errorf("limit %d has %.4g minutes over and the price %g", i, over, kept[i])
		}
		full += int(kept[i])
	}
	if full == 0 || full == len(all) {
		t.Errorf("%d of %d limits are full", full, len(all))
	}
}
