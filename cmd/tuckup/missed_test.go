package main

import (
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
)

// Only sessions of days gone by are done or missed; those of today and later may still come, and a plan counts on what is learned.
func TestMissedIsLearnedFromSessionsGoneBy(t *testing.T) {
	on := kennel.NewDate(2027, 1, 18)
	s := source{book: "book", state: book.State{}}
	add := func(days int, work int64) {
		s.state.Sessions = append(s.state.Sessions, book.Session{Session: kennel.Session{Dog: "Sorrel", On: on.AddDays(days)}, Work: work})
	}
	for n := range 20 {
		add(-1-n, int64(n)) // the first is not done
		add(n, 0)
	}
	opt := optimize.DefaultOptions()
	got := s.missed(on, opt)
	if got.Records != 20 || got.Told != opt.Missed || got.Value != (20*opt.Missed+1)/40 {
		t.Errorf("%+v", got)
	}
	s.asOf(on, &opt)
	if opt.Missed != got.Value {
		t.Errorf("the plan counts on %v, learned was %v", opt.Missed, got.Value)
	}
}
