package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
	"tuckup/reports/say"
)

func (a *app) bookCommand() *cobra.Command {
	c := group("book", "Look after the book: check, backup, restore, path", "  tuckup book check\n  tuckup book backup copy.db\n  tuckup book restore")
	c.AddCommand(a.bookCheckCommand(), a.bookBackupCommand(), a.bookRestoreCommand(), a.bookPathCommand())
	return c
}

func (a *app) bookCheckCommand() *cobra.Command {
	c := &cobra.Command{
		Use:     "check",
		Short:   "Check the whole book: the file, and everything in it",
		Long:    "check ends with status 0 if the book is sound. Otherwise it lists what is wrong and ends with 1.",
		Example: "  tuckup book check\n  tuckup book check --book copy.db",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			b, err := a.readBook(c.Context())
			if err != nil {
				return err
			}
			defer b.Close() //nolint:errcheck // only read
			wrong, err := b.Check(c.Context())
			if err != nil {
				return err
			}
			for _, w := range wrong {
				for line := range strings.Lines(w) {
					if _, err := fmt.Fprintln(a.out, harmless(strings.TrimSuffix(line, "\n"))); err != nil {
						return err
					}
				}
			}
			if len(wrong) > 0 {
				return b.Unsound("the book is not sound: see the list")
			}
			s, version, err := b.Read(c.Context())
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(a.out, "the book is sound: %s\n", holds(s, version))
			return err
		},
	}
	a.bookFlag(c)
	return c
}

// holds is how much a book holds, in words.
func holds(s book.State, version int64) string {
	return strings.Join([]string{
		say.Plural(len(s.Kennel.Dogs), "dog"), say.Plural(len(s.Kennel.Shows), "show"), say.Plural(len(s.Work), "line") + " of work",
		say.Plural(int(version), "change"),
	}, ", ")
}

func (a *app) bookBackupCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "backup FILE",
		Short: "Copy the book, even while it is in use",
		Long: "backup writes a copy that is a book of its own. It never writes over a file. To go back to it, end what uses the book " +
			"and put the copy in its place, or name it with --book.",
		Example: "  tuckup book backup book-2027-01-05.db",
		Args:    oneName,
		RunE: func(c *cobra.Command, args []string) error {
			b, err := a.readBook(c.Context())
			if err != nil {
				return err
			}
			defer b.Close() //nolint:errcheck // only read
			if err := b.Backup(c.Context(), filepath.Clean(args[0])); err != nil {
				return err
			}
			s, _, err := b.Read(c.Context())
			if err != nil {
				return err
			}
			missing, err := book.CopyPhotos(s, b.Path(), filepath.Clean(args[0]))
			if err != nil {
				return err
			}
			if missing > 0 {
				a.say(fmt.Sprintf("%d pictures are missing beside the book, or damaged", missing), "")
			}
			stayToTell()
			if _, err := fmt.Fprintf(a.out, "copied to %s\n", harmless(args[0])); err != nil {
				return &savedError{"the copy is written", err}
			}
			return nil
		},
	}
	a.bookFlag(c)
	return c
}

func (a *app) bookPathCommand() *cobra.Command {
	c := &cobra.Command{
		Use:     "path",
		Short:   "Say where your book is",
		Example: "  tuckup book path",
		Args:    noWords,
		RunE: func(*cobra.Command, []string) error {
			path, err := a.bookPath()
			if err != nil {
				return err
			}
			_, err = fmt.Fprintln(a.out, path)
			return err
		},
	}
	a.bookFlag(c)
	return c
}
