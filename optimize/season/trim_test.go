package season

import (
	"math"
	"testing"
)

// What rounding has put past a limit is taken back in that week alone; what keeps its limits stays to the bit.
func TestTrimTakesBackWhatIsPastALimit(t *testing.T) {
	for seed := range uint64(20) {
		p := Random(seed, 3, 6, 0.5)
		r := solved(t, p, Options{Seed: 1})
		over := NewPlan(p)
		row := -1
		for i, load := range loadOf(p, r.Plan) {
			if load > 1 && math.Abs(load-p.Rows[i].Capacity) < 1e-7 {
				row = i
			}
		}
		if row < 0 {
			continue
		}
		for d := range p.Dogs {
			copy(over.Sessions[d], r.Plan.Sessions[d])
			for a := range p.Dogs[d].Areas {
				for w, share := range r.Plan.Shares[d][a] {
					if w == p.Rows[row].Week {
						share *= 1 + 1e-6
					}
					over.Shares[d][a][w] = share
				}
			}
		}
		if loadOf(p, over)[row] <= p.Rows[row].Capacity {
			t.Fatalf("seed %d: nothing is past the limit", seed)
		}
		p.trim(over)
		for i, load := range loadOf(p, over) {
			if past := load - p.Rows[i].Capacity; past > 1e-9 {
				t.Errorf("seed %d: limit %d is passed by %g minutes", seed, i, past)
			}
		}
		for d := range p.Dogs {
			for a := range p.Dogs[d].Areas {
				for w, share := range over.Shares[d][a] {
					was := r.Plan.Shares[d][a][w]
					if math.Abs(share-was) > 2e-6 || (w != p.Rows[row].Week && share != was) {
						t.Errorf("seed %d: %g of an area became %g", seed, was, share)
					}
				}
			}
		}
		return
	}
	t.Fatal("no plan fills a limit")
}
