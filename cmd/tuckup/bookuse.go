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
	c.Flags().Var((*pathValue)(&a.flags.book), "book", "book to use (default: book.db in the folder tuckup of your data folder)")
}

// pathValue is a flag that names a file. An empty one is refused: it mostly is a script's variable that was never set,
// and what is used where the flag is not given would be used in silence.
type pathValue string

// Set takes the path.
func (p *pathValue) Set(path string) error {
	if path == "" {
		return &kennel.InputError{What: "names no file", Try: "the path of a file; without the flag, your own book is used"}
	}
	*p = pathValue(path)
	return nil
}

// String is the path.
func (p *pathValue) String() string { return string(*p) }

// Type is what help calls the value.
func (p *pathValue) Type() string { return "path" }

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

// openBook opens the book that there is to change it, or with --dry-run to try a change on it.
func (a *app) openBook(ctx context.Context, ps kennel.Patterns) (*book.Book, error) {
	path, err := a.bookPath()
	if err != nil {
		return nil, err
	}
	opt := a.bookOptions(ps)
	opt.Read = a.flags.dryRun
	return book.Open(ctx, path, opt)
}

// readBook opens the book that there is, to read it: nothing of it is written.
func (a *app) readBook(ctx context.Context) (*book.Book, error) {
	path, err := a.bookPath()
	if err != nil {
		return nil, err
	}
	opt := a.bookOptions(nil)
	opt.Read = true
	return book.Open(ctx, path, opt)
}

func (a *app) bookOptions(ps kennel.Patterns) book.Options {
	return book.Options{Now: a.now, Who: who(), Patterns: ps}
}

// uncopied says why a change could be made but the book before it could not be copied.
func (a *app) uncopied(done book.Done) {
	stayToTell()
	if done.Uncopied == nil {
		return
	}
	a.say("the change is made, but the book before it could not be copied: "+done.Uncopied.Error(), "tuckup book backup with a path on another disk")
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

// changeBook carries an edit out on the book and says what changed. create lets it begin a book where there is none: the
// file is there when the edit is carried out, or not at all.
func (a *app) changeBook(c *cobra.Command, create bool, e edit) error {
	ctx := c.Context()
	ps, err := a.readPatterns()
	if err != nil {
		return err
	}
	path, err := a.bookPath()
	if err != nil {
		return err
	}
	opt := a.bookOptions(ps)
	var (
		done   book.Done
		doubts []error // of the book before the change
		damage []error
	)
	carry := func(b *book.Book) error {
		edit := func(s *book.State) (string, error) {
			s.Begin()
			doubts, damage = doubtsOf(s.Kennel), damageOf(*s, ps)
			today, err := a.todayBy(c, "today", a.flags.today, source{state: *s, book: path})
			if err != nil {
				return "", err
			}
			return e(s, today)
		}
		if a.flags.dryRun {
			done, err = b.Try(ctx, func(s *book.State) error { _, err := edit(s); return err })
		} else {
			done, err = b.Carry(ctx, book.AnyVersion, edit)
		}
		return err
	}
	opt.Read = a.flags.dryRun
	b, err := book.Open(ctx, path, opt)
	switch {
	case errors.Is(err, &book.Error{Trouble: book.TroubleNone}) && create:
		opt.Read = false
		err = a.beginBook(ctx, path, opt, carry)
	case err == nil:
		err = carry(b)
		b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	}
	if err != nil {
		return err
	}
	a.uncopied(done)
	a.tellDoubts(newDoubts(doubts, doubtsOf(done.State.Kennel)))
	a.tellDoubts(newDoubts(damage, damageOf(done.State, ps)))
	if a.flags.dryRun {
		return a.tellChanges("this would change", done)
	}
	return a.tellSaved(fmt.Sprintf("change %d", done.Version), done)
}

// beginBook begins a book with its first change; where that is only tried, in a folder that is thrown away.
func (a *app) beginBook(ctx context.Context, path string, opt book.Options, first func(*book.Book) error) error {
	if a.flags.dryRun {
		dir, err := os.MkdirTemp("", "tuckup-*")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir) //nolint:errcheck // an empty book stays at worst
		path = filepath.Join(dir, "book.db")
	}
	return book.Begin(ctx, path, opt, first)
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
