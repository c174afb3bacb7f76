// Package book keeps a kennel and the records of the table in one SQLite file. A change is one transaction and one line
// of history, and the last change can be taken back. The file is small, so that a change reads all of it, is made on
// the State in memory, is checked whole, and only the rows that differ are written.
package book

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	_ "modernc.org/sqlite" // the driver

	"tuckup/kennel"
)

// Options are how a book is opened.
type Options struct {
	Now      func() time.Time // clock for the history and the names of backups; must be given
	Who      string           // who makes the changes; "" = somebody
	Patterns kennel.Patterns  // what dogs that are added or changed are checked against; nil = not checked
	Create   bool             // make a new book where there is none
	Wait     time.Duration    // how long to wait for another writer; 0 = 5 seconds
}

// Book is an open book. It may be used by several goroutines at once.
type Book struct {
	db   *sql.DB
	path string
	opt  Options
}

// usualWait is how long a change waits for another one to end.
const usualWait = 5 * time.Second

// connections is how many may read at once; one of them may write.
const connections = 4

// Open opens the book at the path, brings it up to this program's form (after a dated copy into the folder backups
// beside it) and makes a new one where Options say so. The error is an *Error where there is something to try; a book
// that a newer program wrote is left untouched.
func Open(ctx context.Context, path string, opt Options) (*Book, error) {
	if opt.Wait == 0 {
		opt.Wait = usualWait
	}
	if opt.Who == "" {
		opt.Who = "somebody"
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !opt.Create:
		return nil, &Error{
			Trouble: TroubleNone, What: fmt.Sprintf("there is no book at %q", path),
			Try: "tuckup import FILE to begin one, or --book with another path", cause: err,
		}
	case errors.Is(err, fs.ErrNotExist):
		if err := makeFile(path); err != nil {
			return nil, err
		}
	case err != nil:
		return nil, cannotOpen(path, err)
	case info.IsDir():
		return nil, notABook(path, nil)
	}
	b := &Book{path: path, opt: opt}
	if info != nil && info.Size() > 0 {
		if err := b.look(ctx); err != nil {
			return nil, err
		}
	}
	if err := b.connect(ctx); err != nil {
		return nil, err
	}
	if err := b.migrate(ctx, len(migrations())); err != nil {
		return nil, errors.Join(b.plain(err), b.db.Close())
	}
	return b, nil
}

// connect opens the file, to be read only where it may not be written.
func (b *Book) connect(ctx context.Context) (err error) {
	ways := []string{address(b.path, b.opt.Wait, "journal_mode(WAL)")}
	if f, err := os.OpenFile(b.path, os.O_RDWR, 0); err == nil {
		_ = f.Close() // nothing was written
	} else {
		// A book on a disk that can't be written has no place for what readers tell each other beside it; nobody else
		// can write it either.
		read := address(b.path, b.opt.Wait) + "&mode=ro"
		ways = []string{read, read + "&immutable=1"}
	}
	for _, way := range ways {
		if b.db, err = sql.Open("sqlite", way); err != nil {
			return err
		}
		b.db.SetMaxOpenConns(connections)
		if _, err = b.form(ctx); err == nil {
			return nil
		}
		err = errors.Join(b.plain(err), b.db.Close())
	}
	return err
}

// Close ends the use of the book. What was changed stands in its one file then, unless somebody else still uses it.
func (b *Book) Close() error { return b.db.Close() }

// Path is the book's file.
func (b *Book) Path() string { return b.path }

// address is the data source of a book. Changes take the write lock at once, so that two of them never meet half-way,
// and are on the disk when they are acknowledged: a book is changed a few times an hour, and a laptop's battery ends.
func address(path string, wait time.Duration, first ...string) string {
	q := url.Values{"_txlock": {"immediate"}, "_pragma": append([]string{
		fmt.Sprintf("busy_timeout(%d)", wait.Milliseconds()), "foreign_keys(1)", "synchronous(FULL)", "trusted_schema(0)",
	}, first...)}
	return uri(path) + "?" + q.Encode()
}

// uri is the path as SQLite reads it, whatever signs it holds.
func uri(path string) string {
	return "file:" + strings.NewReplacer("%", "%25", "?", "%3f", "#", "%23").Replace(filepath.ToSlash(path))
}

// look reads whose file it is and how new, and changes nothing.
func (b *Book) look(ctx context.Context) error {
	h, err := readHead(b.path)
	if err != nil {
		return err
	}
	if wal, err := os.Stat(b.path + "-wal"); err == nil && wal.Size() > 0 { // changes that are not in the file yet
		if h, err = b.askHead(ctx); err != nil {
			return err
		}
	}
	switch {
	case h.mark != ours && (h.mark != 0 || h.form != 0 || !h.bare):
		return notABook(b.path, nil)
	case h.form > len(migrations()):
		return &Error{
			Trouble: TroubleNewer,
			What:    fmt.Sprintf("the book %q is of form %d, this program knows forms up to %d; nothing was changed", b.path, h.form, len(migrations())),
			Try:     "the newest tuckup",
		}
	}
	return nil
}

// head is what a file says of itself: whose it is, its form, and whether it has no table yet, as a book whose first
// step was cut short.
type head struct {
	mark, form int
	bare       bool
}

// readHead reads the head from the file's first bytes (the database header of the SQLite file format), because opening
// a book leaves traces beside it.
func readHead(path string) (h head, err error) {
	f, err := os.Open(path)
	if err != nil {
		return h, cannotOpen(path, err)
	}
	defer f.Close()
	const formAt, markAt, kindAt, cellsAt, end, leaf = 60, 68, 100, 103, 105, 0x0d
	b := make([]byte, end)
	if _, err := io.ReadFull(f, b); err != nil || !bytes.HasPrefix(b, []byte("SQLite format 3\x00")) {
		return h, notABook(path, err)
	}
	return head{
		mark: int(binary.BigEndian.Uint32(b[markAt:])), form: int(binary.BigEndian.Uint32(b[formAt:])),
		bare: b[kindAt] == leaf && binary.BigEndian.Uint16(b[cellsAt:]) == 0,
	}, nil
}

// askHead has the head read together with the changes that stand beside the file.
func (b *Book) askHead(ctx context.Context) (h head, err error) {
	db, err := sql.Open("sqlite", uri(b.path)+"?mode=ro&_pragma=busy_timeout(1000)")
	if err != nil {
		return h, err
	}
	defer db.Close() //nolint:errcheck // only read
	var tables int
	for _, ask := range []struct {
		query string
		into  *int
	}{{"PRAGMA application_id", &h.mark}, {"PRAGMA user_version", &h.form}, {"SELECT count(*) FROM sqlite_schema", &tables}} {
		if err := db.QueryRowContext(ctx, ask.query).Scan(ask.into); err != nil {
			return h, b.plain(err)
		}
	}
	h.bare = tables == 0
	return h, nil
}

// makeFile makes the empty file of a new book, and its folder.
func makeFile(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), folderMode); err != nil {
		return cannotOpen(path, err)
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, fileMode)
	if err != nil {
		return cannotOpen(path, err)
	}
	return f.Close()
}

// folderMode lets only the owner into the folders of books: notes are private.
const folderMode = 0o700

func cannotOpen(path string, err error) error {
	return &Error{
		Trouble: TroubleReadOnly, What: fmt.Sprintf("the book %q can't be opened: %v", path, err),
		Try: "--book with a path that you may read and write", cause: err,
	}
}
