package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"tuckup/config"
	"tuckup/kennel"
	"tuckup/kennel/book"
)

// The exit codes. They are part of what the program promises.
const (
	codeDone   = 0
	codeFailed = 1 // something went wrong that the person could not know
	codeUsage  = 2 // wrong use or bad input; nothing was changed
	codeCannot = 3 // with --strict only: a plan was made, but something cannot be met
)

// usageError is wrong use of a command: one sentence and what to try instead.
type usageError struct{ what, try string }

func (e *usageError) Error() string { return e.what }

func usage(try, what string, args ...any) error {
	return &usageError{what: fmt.Sprintf(what, args...), try: try}
}

// cannotError says that the plan was made and printed, but something in it cannot be met. It ends the program only with --strict.
type cannotError struct{ things int }

func (e *cannotError) Error() string {
	if e.things == 1 {
		return "the plan is made, but 1 thing cannot be met: see its list"
	}
	return fmt.Sprintf("the plan is made, but %d things cannot be met: see its list", e.things)
}

// stoppedError says what was not done because the command was interrupted.
type stoppedError struct{ what, try string }

func (e *stoppedError) Error() string { return e.what }

// report prints an error as one sentence with a line that starts "Try:", and returns the exit code.
func (a *app) report(err error) int {
	var (
		wrong   *usageError
		input   *kennel.InputError
		setting *config.Error
		cannot  *cannotError
		saved   *savedError
		stale   *book.StaleError
		trouble *book.Error
		stopped *stoppedError
	)
	switch {
	case err == nil:
		return codeDone
	case errors.As(err, &cannot):
		a.say(cannot.Error(), "")
		return codeCannot
	case errors.As(err, &saved):
		a.say(saved.Error(), "tuckup history to see it; the same command again would do it once more")
		return codeDone
	case errors.As(err, &wrong):
		a.say(wrong.what, wrong.try)
		return codeUsage
	case errors.As(err, &stopped):
		a.say(stopped.what, stopped.try)
		return codeFailed
	case errors.As(err, &setting):
		a.say(setting.Error(), setting.Try)
		return codeUsage
	case errors.As(err, &input):
		a.say(sentence(err))
		return codeUsage
	case errors.As(err, &stale):
		a.say(stale.Error()+"; nothing was changed", "the same again, after a look at tuckup history")
		return codeFailed
	case errors.As(err, &trouble):
		a.say(trouble.What, trouble.Try)
		return troubleCode(trouble.Trouble)
	case errors.Is(err, context.Canceled):
		a.say("stopped before the plan was made; nothing was changed", "")
		return codeFailed
	}
	a.say(err.Error(), "")
	return codeFailed
}

// tryOf is what to try against a book's trouble.
func tryOf(err error) string {
	var trouble *book.Error
	if errors.As(err, &trouble) {
		return trouble.Try
	}
	return ""
}

// sentence parts what an error says from what it says to try.
func sentence(err error) (what, try string) {
	what, try, _ = strings.Cut(err.Error(), "\nTry: ")
	return what, try
}

// troubleCode is the exit code of a book's trouble: wrong use where the person named the wrong thing, failed where the
// machine or somebody else stood in the way.
func troubleCode(t book.Trouble) int {
	switch t {
	case book.TroubleNone, book.TroubleEmpty, book.TroublePlace, book.TroubleNotABook, book.TroubleNewer, book.TroubleNothing:
		return codeUsage
	}
	return codeFailed
}

// say prints one sentence, free of control characters, and a Try line if there is something to try.
func (a *app) say(what, try string) {
	fmt.Fprintf(a.err, "tuckup: %s\n", harmless(what))
	if try != "" {
		fmt.Fprintf(a.err, "Try: %s\n", harmless(try))
	}
}

// harmless replaces what could move the cursor or start a line of its own.
func harmless(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return ' '
		}
		return r
	}, s)
}
