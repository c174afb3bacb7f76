package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
)

func (a *app) bookRestoreCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "restore [COPY]",
		Short: "List the copies of the book, look into one, or go back to it",
		Long: "Before its first change of a day the book is copied into the folder backups beside it; the copies of the last 14 days on " +
			"which it was changed are kept, and the first of each of the last 12 months. restore alone lists them with what they hold. " +
			"With the name of one and --dry-run it says what going back to it would change; without, it goes back: one change like any " +
			"other, that undo takes back. Where the book is lost, empty or damaged, the copy takes its place, and what was there is kept " +
			"in the folder backups.",
		Example: "  tuckup book restore\n  tuckup book restore 2027-01-05 --dry-run\n  tuckup book restore 2027-01-05",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage(c.CommandPath()+" --help", "%s takes one copy at most", c.CommandPath())
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			path, err := a.bookPath()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				return a.listCopies(c.Context(), path)
			}
			which, err := book.FindCopy(path, args[0])
			if err != nil {
				return err
			}
			return a.goBack(c.Context(), path, which)
		},
	}
	a.bookFlag(c)
	a.dryRunFlag(c)
	return c
}

// listCopies lists the copies of a book with what they hold.
func (a *app) listCopies(ctx context.Context, path string) error {
	all, err := book.Copies(path)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		_, err := fmt.Fprintf(a.out, "there is no copy of %s yet: its first change of a day makes one\n", harmless(path))
		return err
	}
	for _, which := range all {
		what := ""
		in, err := which.Look(ctx, a.bookOptions(nil))
		if err == nil {
			what = holds(in.State, in.Version)
		} else if what = err.Error(); ctx.Err() != nil {
			return err
		}
		if _, err := fmt.Fprintf(a.out, "%s  %s\n", which.Name, harmless(what)); err != nil {
			return err
		}
	}
	return nil
}

// goBack goes back to a copy: by a change of the book, or by putting the copy in its place where it can't be changed.
func (a *app) goBack(ctx context.Context, path string, which book.Copy) error {
	lost, err := a.lost(ctx, path)
	switch {
	case err != nil:
		return err
	case lost != nil:
		return a.putBack(ctx, path, which, lost)
	}
	b, err := a.openBook(ctx, nil)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	if a.flags.dryRun {
		done, err := b.TryRestore(ctx, which)
		if err != nil {
			return err
		}
		return a.tellChanges("going back to the copy of "+which.Name+" would change", done)
	}
	done, err := b.Restore(ctx, book.AnyVersion, which)
	if err != nil {
		return err
	}
	a.uncopied(done)
	return a.tellSaved(fmt.Sprintf("change %d, back to the copy of %s", done.Version, which.Name), done)
}

// lost is why a book can't be changed back: it is not there, or it is damaged. A book that is sound is not lost.
func (a *app) lost(ctx context.Context, path string) (why, err error) {
	opt := a.bookOptions(nil)
	opt.Read = true
	b, err := book.Open(ctx, path, opt)
	if err == nil {
		defer b.Close() //nolint:errcheck // only read
		wrong, e := b.Check(ctx)
		if err = e; err == nil && len(wrong) > 0 {
			return errors.New(wrong[0]), nil
		}
	}
	for _, t := range []book.Trouble{book.TroubleNone, book.TroubleEmpty, book.TroubleNotABook, book.TroubleDamaged} {
		if errors.Is(err, &book.Error{Trouble: t}) {
			return err, nil
		}
	}
	return nil, err
}

// putBack puts a copy in the place of a book that is lost.
func (a *app) putBack(ctx context.Context, path string, which book.Copy, lost error) error {
	if a.flags.dryRun {
		in, err := which.Look(ctx, a.bookOptions(nil))
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(a.out, "%s\nthe copy of %s would take its place: %s\n", harmless(lost.Error()), which.Name, harmless(holds(in.State, in.Version)))
		return err
	}
	in, aside, err := book.PutBack(ctx, path, a.bookOptions(nil), which)
	if err != nil {
		return err
	}
	stayToTell()
	what := fmt.Sprintf("the copy of %s is the book now: %s", which.Name, holds(in.State, in.Version))
	told := what + "\n"
	if aside != "" {
		told += fmt.Sprintf("what was there is kept as %s\n", harmless(aside))
	}
	if _, err := fmt.Fprint(a.out, told); err != nil {
		return &savedError{what, err}
	}
	return nil
}
