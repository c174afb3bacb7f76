package season

import (
	"context"
	"testing"
)

// The prices are the plan's own: by complementary slackness a minute is worth nothing where the plan leaves some over.
func TestPricesAreThePlans(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	const (
		worth = 1e-4 / minutesUnit // points a minute: less is arithmetic's
		over  = 1e-2               // minutes left that are not
	)
	elsewhere := []uint64{911, 1086, 1906, 2633, 3865, 5153} // the best plan is not the one that the dive ends with
	priced := 0
	for i := range 200 {
		seed := uint64(i)
		if i < len(elsewhere) {
			seed = elsewhere[i]
		}
		p := RandomSized(seed, 2+int(seed%2), 1, 3, 3+int(seed%4), 0.1+0.2*float64(seed%7))
		if i%3 == 0 { // dogs that may stand twice in any week, a few minutes at a time, at hours that nothing limits
			for d := range p.Dogs {
				for w, most := range p.Dogs[d].Most {
					p.Dogs[d].Most[w] = 2 * min(most, 1)
					p.Dogs[d].Minutes[w] = p.Dogs[d].SetUp + 5 + p.Dogs[d].Minutes[w]/8
				}
			}
			p.Rows = nil
		}
		var opt Options
		for range 2 { // made, and made again with it in hand
			r, err := Solve(context.Background(), p, opt)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if got := Violations(p, r.Plan, 1e-6); got != nil {
				t.Errorf("seed %d, again %v: the plan breaks %q", seed, opt.Start != nil, got)
			}
			load := loadOf(p, r.Plan)
			for i, y := range r.Prices {
				if y < worth {
					continue
				}
				priced++
				if left := p.Rows[i].Capacity - load[i]; left > over {
					t.Errorf("seed %d, again %v: a minute of limit %d has a price of %.3g points, yet %.3g minutes are left", seed, opt.Start != nil, i, y, left)
				}
			}
			opt.Start = &r.Plan
		}
	}
	if priced < 100 {
		t.Errorf("only %d limits had a price", priced)
	}
}

func loadOf(p *Problem, pl Plan) []float64 {
	load := make([]float64, len(p.Rows))
	for d := range p.Dogs {
		c := &column{dog: d, sessions: pl.Sessions[d], shares: pl.Shares[d]}
		c.measure(p)
		for i := range p.Rows {
			load[i] += c.load(p, &p.Rows[i])
		}
	}
	return load
}

// A linear program whose answer can't be trusted must not come into the plan: polishing this season has once ended with
// one that breaks limits.
func TestNoPlanOfAWrongProgram(t *testing.T) {
	p := RandomSized(250, 2, 1, 4, 15, 0.6)
	r, err := Solve(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkResult(t, p, r)
}
