// Package book keeps a kennel and the records of the table in one SQLite file. A change is one transaction and one line
// of history, and the last change can be taken back. The file is small, so that a change reads all of it, is made on
// the State in memory, is checked whole, and only the rows that differ are written.
package book

import (
	"database/sql"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"
	"time"

	_ "modernc.org/sqlite" // the driver

	"tuckup/kennel"
)

// Options are how a book is opened.
type Options struct {
	Now      func() time.Time // clock for the history and the names of copies; must be given
	Who      string           // who makes the changes; "" = somebody
	Patterns kennel.Patterns  // what dogs that are added or changed are checked against; nil = not checked
	Create   bool             // begin an empty book where there is none
	Read     bool             // it is only read: nothing of the file is written, not even its form brought up
	Wait     time.Duration    // how long to wait for another writer; 0 = 5 seconds
	stage    func(string)     // called in the midst of a change, for tests that stop there; nil = not
}

// Book is an open book. It may be used by several goroutines at once.
type Book struct {
	db   *sql.DB
	path string // as people know it
	file string // where it lies: the path, but for a book that is just being begun
	opt  Options
	only *Error // why it can only be read; nil = it can be changed
}

// usualWait is how long a change waits for another one to end.
const usualWait = 5 * time.Second

// connections is how many may read at once; one of them may write.
const connections = 4

// Close ends the use of the book. What was changed stands in its one file then, unless somebody else still uses it.
func (b *Book) Close() error { return b.db.Close() }

// Path is the book's file.
func (b *Book) Path() string { return b.path }

// ReadOnly is why the book can be read but not changed, as an *Error: its disk is full or can't be written. nil is a
// book that can be changed.
func (b *Book) ReadOnly() error {
	if b.only == nil {
		return nil
	}
	return b.only
}

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
