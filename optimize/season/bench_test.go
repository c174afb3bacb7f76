package season

import (
	"context"
	"fmt"
	"testing"

	"tuckup/optimize/flow"
)

// Benchmarks of the solver's parts, from the smallest up; compare two commits with benchstat:
//
//	go test ./optimize/season -run '^$' -bench . -count 6

// benchString is a string whose hours are 0.4 of the wish.
func benchString(dogs, weeks int) *Problem {
	return RandomString(1, Shape{Dogs: dogs, Weeks: weeks, Hours: 0.4, Hands: 1})
}

// benchArea is an area at the prices of a season, all weeks open.
func benchArea(p *Problem) *flow.Net {
	dog := &p.Dogs[0]
	n := newAreaNet(&dog.Areas[0], p.Weeks)
	value := make([]float64, p.Weeks)
	for t := range value {
		value[t] = dog.weight(t, 0) * dog.Areas[0].Weight
	}
	n.SetValue(value)
	for t := range p.Weeks {
		n.SetOpen(t, true)
		n.SetPrice(t, benchPrice(t, 0))
	}
	return n
}

// benchPrice is what the whole area costs in week t; another week is the dearest in every other round.
func benchPrice(t, round int) float64 { return 0.01 * float64(1+(t+round%2)%5) }

func BenchmarkAreaCold(b *testing.B) {
	p := benchString(1, 26)
	for b.Loop() {
		n := benchArea(p)
		n.Solve()
	}
}

// One week's price changes, the tree of the last solve is kept.
func BenchmarkAreaOnePrice(b *testing.B) {
	p := benchString(1, 26)
	n := benchArea(p)
	n.Solve()
	for round := 1; b.Loop(); round++ {
		n.SetPrice(13, benchPrice(13, round))
		n.Solve()
	}
}

func BenchmarkAreaAllPrices(b *testing.B) {
	p := benchString(1, 26)
	n := benchArea(p)
	n.Solve()
	for round := 1; b.Loop(); round++ {
		for t := range p.Weeks {
			n.SetPrice(t, benchPrice(t, round))
		}
		n.Solve()
	}
}

// A dog is asked for its best season: session weeks chosen and areas fitted, at prices that go up and down a little.
func BenchmarkDog(b *testing.B) {
	p := benchString(6, 26)
	s := newSolver(context.Background(), p, Options{})
	m := s.root()
	if m == nil {
		b.Fatal("no prices")
	}
	q := m.prices()
	dearer := newPrices(p)
	copy(dearer.show, q.show)
	for i, y := range q.row {
		dearer.row[i] = 1.1 * y
	}
	s.noteBasic(m)
	for round := 0; b.Loop(); round++ {
		now := q
		if round%2 == 1 {
			now = dearer
		}
		n := s.dogs[0]
		n.setPrices(p.weekPrices(now.row), now)
		s.ask(n, mixTol)
	}
}

// The master program is built over the columns of a season and solved.
func BenchmarkMaster(b *testing.B) {
	p := benchString(12, 26)
	s := newSolver(context.Background(), p, Options{})
	if s.root() == nil {
		b.Fatal("no columns")
	}
	for b.Loop() {
		if _, err := s.master(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	for _, size := range [][2]int{{6, 16}, {12, 26}} {
		b.Run(fmt.Sprintf("dogs=%d/weeks=%d", size[0], size[1]), func(b *testing.B) {
			p := benchString(size[0], size[1])
			b.ReportAllocs()
			var r Result
			for b.Loop() {
				var err error
				if r, err = Solve(context.Background(), p, Options{Seed: 1}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(r.Objective, "points")
			b.ReportMetric(100*r.Gap, "gap-%")
		})
	}
}
