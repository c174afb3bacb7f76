package book

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Trouble is a way in which a book can't be used.
type Trouble string

// The troubles.
const (
	TroubleNone     Trouble = "none"      // there is no book at the path
	TroubleEmpty    Trouble = "empty"     // the file has nothing in it
	TroubleNotABook Trouble = "not-book"  // the file is something else, or damaged beyond reading
	TroubleNewer    Trouble = "newer"     // written by a newer program
	TroubleBusy     Trouble = "busy"      // somebody else is changing it
	TroubleReadOnly Trouble = "read-only" // the file or its folder may not be written
	TroubleFull     Trouble = "full"      // the disk is full
	TroubleDisk     Trouble = "disk"      // the disk failed
	TroublePlace    Trouble = "place"     // no file can be made at the path that was named
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
	const primary = 0xff                             // the extended codes carry the primary one in their low byte
	if lite.Code() == sqlite3.SQLITE_IOERR_SHMSIZE { // no room for what those who use a book tell each other beside it
		return fullDisk(path, err)
	}
	switch lite.Code() & primary {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return &Error{
			Trouble: TroubleBusy, What: fmt.Sprintf("the book %q is being changed by another tuckup; nothing was changed", path),
			Try: "the same again in a moment", cause: err,
		}
	case sqlite3.SQLITE_FULL:
		return fullDisk(path, err)
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH, sqlite3.SQLITE_CANTOPEN:
		return readOnly(path, err)
	case sqlite3.SQLITE_NOTADB:
		return notABook(path, err)
	case sqlite3.SQLITE_IOERR:
		return &Error{
			Trouble: TroubleDisk, What: fmt.Sprintf("the disk of the book %q failed; nothing was changed: %v", path, err),
			Try: "look after the disk, then the same again", cause: err,
		}
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_ERROR, sqlite3.SQLITE_FORMAT, sqlite3.SQLITE_MISMATCH, sqlite3.SQLITE_TOOBIG:
		// Every sound book has what this program's statements name.
		return damaged(path, fmt.Sprintf("the book %q is damaged: %v", path, err), err)
	}
	return fmt.Errorf("the book %q: %w", path, err)
}

func fullDisk(path string, cause error) *Error {
	return &Error{
		Trouble: TroubleFull, What: fmt.Sprintf("the disk of the book %q is full; nothing was changed", path),
		Try: "make room on the disk, then the same again", cause: cause,
	}
}

func damaged(path, what string, cause error) *Error {
	return &Error{Trouble: TroubleDamaged, What: what, Try: tryCopies(path), cause: cause}
}

func notABook(path string, cause error) *Error {
	try := "--book with the path of a book, or --kennel for a kennel file"
	if copies, err := Copies(path); err == nil && len(copies) > 0 {
		try = restoreWords(path) + " for the copies of the book that are there"
	}
	return &Error{
		Trouble: TroubleNotABook, What: fmt.Sprintf("%q is not a book of tuckup", path), Try: try, cause: cause,
	}
}

// cannotWrite says why a file can't be made: what is wrong with its path, or with the disk.
func cannotWrite(file string, err error) *Error {
	e := &Error{
		Trouble: TroublePlace, What: fmt.Sprintf("%q can't be written: %v", file, why(err)),
		Try: "a path in a folder that is there and that you may write to", cause: err,
	}
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		e.Trouble, e.What = TroubleFull, fmt.Sprintf("%q can't be written: the disk is full", file)
		e.Try = "a path on a disk with room"
	case errors.Is(err, syscall.EROFS):
		e.Trouble = TroubleReadOnly
	case errors.Is(err, syscall.EIO):
		e.Trouble, e.Try = TroubleDisk, "a path on another disk"
	}
	return e
}

// why is the reason alone of an error that names a file as well, which may be one that people never heard of.
func why(err error) error {
	var (
		path *fs.PathError
		link *os.LinkError
	)
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
