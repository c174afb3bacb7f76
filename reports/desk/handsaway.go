package desk

import (
	"tuckup/kennel"
	"tuckup/kennel/book"
)

// handsAwayVerb keeps days of somebody free.
func handsAwayVerb(f *form, was string) func(*book.State) (string, error) {
	days := kennel.Span{From: f.date("from", true), To: f.date("to", false), Why: f.get("why")}
	if days.To == 0 {
		days.To = days.From
	}
	return func(s *book.State) (string, error) { return s.GoAway(was, days) }
}

// handsBackVerb takes days away back.
func handsBackVerb(f *form, was string) func(*book.State) (string, error) {
	from := f.date("from", true)
	return func(s *book.State) (string, error) { return s.ComeBack(was, from) }
}
