package main

import (
	"fmt"
	"os/signal"
	"syscall"

	"tuckup/kennel/book"
)

// savedError says that what was asked for is done, though its output could not be written. It is no failure: who is told
// of one asks for it again, and then it is done twice.
type savedError struct {
	what string // what is done, in words
	err  error  // why it could not be shown
}

func (e *savedError) Error() string {
	return fmt.Sprintf("%s, but the output that says so can't be written: %v", e.what, e.err)
}

// stayToTell lets the program live on when nobody reads its output any more. It is called when something was saved, so
// that the program can say so, and is not ended by a signal, which looks like a failure.
func stayToTell() { signal.Ignore(syscall.SIGPIPE) }

// tellSaved says what a change of the book did. The error is a *savedError when that can't be said.
func (a *app) tellSaved(head string, done book.Done) error {
	err := a.tellChanges(head, done)
	if err == nil || len(done.Changes) == 0 {
		return err
	}
	return &savedError{fmt.Sprintf("change %d is saved", done.Version), err}
}
