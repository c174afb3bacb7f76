package book

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Trouble is a way in which a book can't be used.
type Trouble string

// The troubles.
const (
	TroubleNone     Trouble = "none"      // there is no book at the path
	TroubleNotABook Trouble = "not-book"  // the file is something else, or damaged beyond reading
	TroubleNewer    Trouble = "newer"     // written by a newer program
	TroubleBusy     Trouble = "busy"      // somebody else is changing it
	TroubleReadOnly Trouble = "read-only" // the file or its folder may not be written
	TroubleFull     Trouble = "full"      // the disk is full
	TroubleStale    Trouble = "stale"     // changed by somebody else since it was looked at
	TroubleNothing  Trouble = "nothing"   // nothing to change, or to take back
	TroubleDamaged  Trouble = "damaged"   // the rows don't make a kennel
)

// Error is why a book can't be used or changed. Nothing was changed.
type Error struct {
	Trouble Trouble
	What    string // one sentence
	Try     string // what to do
	cause   error
}

func (e *Error) Error() string { return e.What }
func (e *Error) Unwrap() error { return e.cause }

// Is makes errors.Is(err, &Error{Trouble: TroubleBusy}) ask for the trouble.
func (e *Error) Is(other error) bool {
	o, ok := other.(*Error)
	return ok && o.Trouble == e.Trouble
}

// StaleError says that the book was changed since it was looked at. Both versions are changes in its history.
type StaleError struct{ Looked, Now int64 }

func (e *StaleError) Error() string {
	return fmt.Sprintf("the book was changed since it was looked at: it was at change %d, it is at change %d", e.Looked, e.Now)
}

// Is makes a stale change an *Error of TroubleStale for errors.Is.
func (e *StaleError) Is(other error) bool {
	o, ok := other.(*Error)
	return ok && o.Trouble == TroubleStale
}

// plain turns what SQLite says into what a person can use.
func (b *Book) plain(err error) error { return plainError(b.path, err) }

func plainError(path string, err error) error {
	var (
		lite *sqlite.Error
		ours *Error
	)
	if err == nil || errors.As(err, &ours) || errors.Is(err, context.Canceled) || !errors.As(err, &lite) {
		return err
	}
	const primary = 0xff // the extended codes carry the primary one in their low byte
	e := &Error{cause: err}
	switch lite.Code() & primary {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		e.Trouble = TroubleBusy
		e.What = fmt.Sprintf("the book %q is being changed by another tuckup; nothing was changed", path)
		e.Try = "the same again in a moment"
	case sqlite3.SQLITE_FULL:
		e.Trouble = TroubleFull
		e.What = fmt.Sprintf("the disk of the book %q is full; nothing was changed", path)
		e.Try = "make room on the disk, then the same again"
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH, sqlite3.SQLITE_CANTOPEN:
		e.Trouble = TroubleReadOnly
		e.What = fmt.Sprintf("the book %q can't be written; nothing was changed", path)
		e.Try = "--book with a file in a folder that you may write to"
	case sqlite3.SQLITE_NOTADB:
		return notABook(path, err)
	case sqlite3.SQLITE_CORRUPT:
		e.Trouble = TroubleDamaged
		e.What = fmt.Sprintf("the book %q is damaged: %v", path, err)
		e.Try = "a copy from the folder backups beside it"
	case sqlite3.SQLITE_IOERR:
		e.Trouble = TroubleFull
		e.What = fmt.Sprintf("the disk of the book %q failed; nothing was changed: %v", path, err)
		e.Try = "look after the disk, then the same again"
	default:
		return fmt.Errorf("the book %q: %w", path, err)
	}
	return e
}

func notABook(path string, cause error) *Error {
	return &Error{
		Trouble: TroubleNotABook, What: fmt.Sprintf("%q is not a book of tuckup", path),
		Try: "--book with the path of a book, or --kennel for a kennel file", cause: cause,
	}
}
