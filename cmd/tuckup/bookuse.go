package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

func (a *app) bookFlag(c *cobra.Command) {
	c.Flags().StringVar(&a.flags.book, "book", "", "book to use (default: book.db in the folder tuckup of your data folder)")
}

// bookPath is the book that --book names, else book.db in the folder tuckup of the user's data folder: XDG_DATA_HOME
// where it is set (XDG base directories), else what the system has for it.
func (a *app) bookPath() (string, error) {
	if a.flags.book != "" {
		return a.flags.book, nil
	}
	dir, err := dataFolder()
	if err != nil {
		return "", usage("--book FILE", "no folder is known for the book: %v", err)
	}
	return filepath.Join(dir, "tuckup", "book.db"), nil
}

func dataFolder() (string, error) {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	if dir := os.Getenv("LocalAppData"); runtime.GOOS == "windows" && dir != "" {
		return dir, nil
	}
	home, err := os.UserHomeDir()
	if runtime.GOOS == "darwin" {
		return filepath.Join(home, "Library", "Application Support"), err
	}
	return filepath.Join(home, ".local", "share"), err
}

// openBook opens the book; create makes a new one where there is none.
func (a *app) openBook(ctx context.Context, ps kennel.Patterns, create bool) (*book.Book, error) {
	path, err := a.bookPath()
	if err != nil {
		return nil, err
	}
	return book.Open(ctx, path, book.Options{Now: a.now, Who: who(), Patterns: ps, Create: create})
}

// who is the name of the person at the machine, for the history.
func who() string {
	if u, err := user.Current(); err == nil {
		return cmp.Or(u.Name, u.Username)
	}
	return os.Getenv("USER")
}

// edit is one change to what is written: it changes the state in place and says in words what it did.
type edit func(s *book.State, today kennel.Date) (what string, err error)

// editor is a way to carry an edit out: on the book, or on a copy to see what it would bring.
type editor struct {
	flags func(*cobra.Command)
	carry func(*cobra.Command, edit) error
}

// inBook carries edits out on the book. create lets the first of them begin a book.
func (a *app) inBook(create bool) editor {
	return editor{
		flags: func(c *cobra.Command) {
			a.bookFlag(c)
			a.patternsFlag(c)
			a.todayFlag(c)
			a.dryRunFlag(c)
		},
		carry: func(c *cobra.Command, e edit) error { return a.changeBook(c, create, e) },
	}
}

func (a *app) todayFlag(c *cobra.Command) {
	c.Flags().StringVar(&a.flags.today, "today", "", "take this date as today, like 2027-01-04")
}

func (a *app) dryRunFlag(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.dryRun, "dry-run", false, "say what would change, and write nothing")
}

// changeBook carries an edit out on the book and says what changed.
func (a *app) changeBook(c *cobra.Command, create bool, e edit) error {
	ctx := c.Context()
	ps, err := a.readPatterns()
	if err != nil {
		return err
	}
	b, err := a.openBook(ctx, ps, create && !a.flags.dryRun)
	if a.flags.dryRun && create && errors.Is(err, &book.Error{Trouble: book.TroubleNone}) {
		dir, e := os.MkdirTemp("", "tuckup-*")
		if e != nil {
			return e
		}
		defer os.RemoveAll(dir) //nolint:errcheck // an empty book stays at worst
		b, err = book.Open(ctx, filepath.Join(dir, "book.db"), book.Options{Now: a.now, Who: who(), Patterns: ps, Create: true})
	}
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	carry := func(s *book.State) (string, error) {
		s.Begin()
		today, err := a.todayBy(c, "today", a.flags.today, source{state: *s, book: b.Path()})
		if err != nil {
			return "", err
		}
		return e(s, today)
	}
	if a.flags.dryRun {
		done, err := b.Try(ctx, func(s *book.State) error { _, err := carry(s); return err })
		if err != nil {
			return err
		}
		return a.tellChanges("this would change", done)
	}
	done, err := b.Carry(ctx, book.AnyVersion, carry)
	if err != nil {
		return err
	}
	return a.tellChanges(fmt.Sprintf("change %d", done.Version), done)
}

// tellChanges says what an edit changed, one line a thing.
func (a *app) tellChanges(head string, done book.Done) error {
	if len(done.Changes) == 0 {
		_, err := fmt.Fprintln(a.out, "nothing changes: it is so already")
		return err
	}
	if _, err := fmt.Fprintf(a.out, "%s:\n", head); err != nil {
		return err
	}
	for _, d := range done.Changes {
		if _, err := fmt.Fprintf(a.out, "  %s\n", harmless(d.String())); err != nil {
			return err
		}
	}
	return nil
}
