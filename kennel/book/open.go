package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
)

// Open opens the book at the path, brings it up to this program's form (after a copy into the folder backups beside it)
// and begins a new one where Options say so. Where the disk is full or can't be written, or Options say that it is only
// read, the file stays as it is and the book can be read; ReadOnly says why. The error is an *Error where there is
// something to try; an empty file, and a book that a newer program wrote, are left untouched.
func Open(ctx context.Context, path string, opt Options) (*Book, error) {
	opt = opt.complete()
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if !opt.Create {
			return nil, noBook(path, err)
		}
		err = Begin(ctx, path, opt, func(*Book) error { return nil })
		if err != nil && !errors.Is(err, fs.ErrExist) { // somebody else may have begun it meanwhile
			return nil, err
		}
		info, err = os.Stat(path)
	}
	switch {
	case err != nil:
		return nil, cannotOpen(path, err)
	case !info.Mode().IsRegular():
		return nil, noFile(path, info.Mode())
	case info.Size() == 0:
		return nil, emptyFile(path)
	}
	b := &Book{path: path, file: path, opt: opt}
	h, err := b.look(ctx)
	if err != nil {
		return nil, err
	}
	if err := b.connect(ctx, h.form); err != nil {
		return nil, err
	}
	return b, nil
}

func (opt Options) complete() Options {
	if opt.Wait == 0 {
		opt.Wait = usualWait
	}
	if opt.Who == "" {
		opt.Who = "somebody"
	}
	return opt
}

// connect opens the file of a book of some form; where it may not be written, or there is no room to, it is read into
// memory instead.
func (b *Book) connect(ctx context.Context, form int) error {
	if b.opt.Read && form < len(migrations()) {
		return b.intoMemory(ctx, b.onlyRead())
	}
	err := b.use(ctx)
	var trouble *Error
	if errors.As(err, &trouble) && (trouble.Trouble == TroubleReadOnly || trouble.Trouble == TroubleFull) {
		if b.intoMemory(ctx, trouble) == nil {
			return nil
		}
	}
	return err
}

// use opens the file to be used in its place, in the form of today.
func (b *Book) use(ctx context.Context) (err error) {
	if err := mayWrite(b.file); err != nil {
		return readOnly(b.path, err)
	}
	var pragmas []string
	if !b.opt.Read {
		pragmas = []string{"journal_mode(WAL)"}
	}
	if b.db, err = sql.Open("sqlite", address(b.file, b.opt.Wait, pragmas...)); err != nil {
		return err
	}
	b.db.SetMaxOpenConns(connections)
	if _, err = b.form(ctx); err == nil && !b.opt.Read {
		err = b.migrate(ctx, len(migrations()))
	}
	if err != nil {
		err = b.plain(err)
		b.db.Close() //nolint:errcheck // what went wrong first is returned
		return err
	}
	if b.opt.Read {
		b.only = b.onlyRead()
	}
	return nil
}

// mayWrite asks whether a file may be written, and writes nothing.
func mayWrite(file string) error {
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

func noBook(path string, cause error) *Error {
	try := "tuckup import FILE to begin one, or --book with another path"
	if copies, err := Copies(path); err == nil && len(copies) > 0 {
		try = restoreWords(path) + " for the copies of it that are there, or --book with another path"
	}
	return &Error{Trouble: TroubleNone, What: fmt.Sprintf("there is no book at %q", path), Try: try, cause: cause}
}

func emptyFile(path string) *Error {
	return &Error{
		Trouble: TroubleEmpty, What: fmt.Sprintf("the file %q is empty: no book is in it; nothing was written", path),
		Try: tryCopies(path),
	}
}

// noFile says what is at the path that can't be a book.
func noFile(path string, mode fs.FileMode) *Error {
	what := "a device or a pipe"
	if mode.IsDir() {
		what = "a folder"
	}
	return &Error{
		Trouble: TroubleNotABook, What: fmt.Sprintf("%q is %s, and a book is a file", path, what),
		Try: "--book with the path of a file",
	}
}

func cannotOpen(path string, err error) *Error {
	return &Error{
		Trouble: TroubleReadOnly, What: fmt.Sprintf("the book %q can't be opened: %v", path, err),
		Try: "--book with a path that you may read and write", cause: err,
	}
}

func readOnly(path string, cause error) *Error {
	return &Error{
		Trouble: TroubleReadOnly, What: fmt.Sprintf("the book %q can't be written; nothing was changed", path),
		Try: "--book with a file in a folder that you may write to", cause: cause,
	}
}

func (b *Book) onlyRead() *Error {
	return &Error{
		Trouble: TroubleReadOnly, What: fmt.Sprintf("the book %q was opened to be read; nothing was changed", b.path),
		Try: "the same again",
	}
}

// Unsound is an *Error that says of the book what is wrong, with what to try.
func (b *Book) Unsound(what string) error { return damaged(b.path, what, nil) }

// tryCopies is what to try where a book is lost or damaged: a copy is only named where there is one.
func tryCopies(path string) string {
	if copies, err := Copies(path); err == nil && len(copies) > 0 {
		return restoreWords(path) + " for the copies of it that are there"
	}
	return "--book with a copy that you made; there is none beside it"
}

// restoreWords is the command that lists the copies of a book.
func restoreWords(path string) string { return "tuckup book restore --book " + word(path) }

// word is a path as it is typed.
func word(path string) string {
	if strings.ContainsAny(path, " \t'\"$&;()<>|*?`\\#!~") {
		return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
	}
	return path
}
