package main

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// tellDoubts says on standard error what was taken as it is although it may not have been meant: the first thing in full,
// the others counted.
func (a *app) tellDoubts(all []error) {
	if len(all) == 0 {
		return
	}
	what, try := sentence(all[0])
	if more := len(all) - 1; more > 0 {
		what += fmt.Sprintf("; and %d more like it", more)
	}
	a.say("taken as it is: "+what, try)
}

// doubtsOf are what is doubtful in a kennel of a book, by names.
func doubtsOf(k kennel.Kennel) (all []error) {
	for _, d := range kennel.Doubts(k) {
		all = append(all, book.Named(d, k))
	}
	return all
}

// newDoubts are those that were not there before.
func newDoubts(before, now []error) []error {
	return slices.DeleteFunc(now, func(d error) bool {
		return slices.ContainsFunc(before, func(b error) bool { return b.Error() == d.Error() })
	})
}
