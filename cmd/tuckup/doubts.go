package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// tellDoubts says on standard error what was taken as it is although it may not have been meant: of each kind the first thing in
// full, the others counted.
func (a *app) tellDoubts(all []error) {
	for len(all) > 0 {
		what, try := sentence(all[0])
		kind := kindOf(all[0])
		more := len(all) - 1
		all = slices.DeleteFunc(slices.Clone(all[1:]), func(d error) bool { return kindOf(d) == kind })
		if more -= len(all); more > 0 {
			what += fmt.Sprintf("; and %d more like it", more)
		}
		a.say("taken as it is: "+what, try)
	}
}

// kindOf is the field that a doubt is about, whoever's it is.
func kindOf(doubt error) string {
	var in *kennel.InputError
	if !errors.As(doubt, &in) {
		return doubt.Error()
	}
	for _, kind := range []string{"areas", "table.minutes", "strip_hours_a_day"} {
		if strings.Contains(in.Field, kind) {
			return kind
		}
	}
	return "shows"
}

// doubtsOf are what is doubtful in a kennel of a book, by names.
func doubtsOf(k kennel.Kennel) (all []error) {
	for _, d := range kennel.Doubts(k) {
		all = append(all, book.Named(d, k))
	}
	return all
}

// damageOf is what kept hair of a book's dogs has lost, by names, with the work in the book.
func damageOf(s book.State, ps kennel.Patterns) (all []error) {
	k := s.Now(ps, 0)
	for _, d := range kennel.Damaged(k, ps) {
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
