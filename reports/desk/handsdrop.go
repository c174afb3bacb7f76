package desk

import (
	"slices"

	"tuckup/kennel/book"
)

// handsDropVerb takes out a pair of hands.
func handsDropVerb(_ *form, was string) func(*book.State) (string, error) {
	return func(s *book.State) (string, error) {
		if !slices.Contains(s.Kennel.HandsNames(), was) {
			return "", notFound("pair of hands")
		}
		return s.DropHands(was)
	}
}
