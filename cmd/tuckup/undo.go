package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
	"tuckup/reports/list"
)

func (a *app) undoCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "undo",
		Short: "Take back the last change to the book",
		Long: "undo takes back the last change that was not taken back yet; asked again it goes further back. It is a line of history " +
			"of its own.",
		Example: "  tuckup undo --dry-run\n  tuckup undo",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			b, err := a.openBook(c.Context(), nil)
			if err != nil {
				return err
			}
			defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
			if a.flags.dryRun {
				line, done, err := b.TryUndo(c.Context())
				if err != nil {
					return err
				}
				return a.tellChanges(fmt.Sprintf("this would take back change %d, %s", line.ID, harmless(line.What)), done)
			}
			line, done, err := b.Undo(c.Context(), book.AnyVersion)
			if err != nil {
				return err
			}
			a.uncopied(done)
			return a.tellSaved(fmt.Sprintf("took back change %d, %s", line.ID, harmless(line.What)), done)
		},
	}
	a.bookFlag(c)
	a.dryRunFlag(c)
	return c
}

func (a *app) historyCommand() *cobra.Command {
	n := 0
	c := &cobra.Command{
		Use:   "history",
		Short: "List the changes of the book, the newest first",
		Long: "history shows who changed what and when. With --format json each change comes with the rows that went and those that " +
			"came.",
		Example: "  tuckup history\n  tuckup history --last 5 --format json",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			b, err := a.readBook(c.Context())
			if err != nil {
				return err
			}
			defer b.Close() //nolint:errcheck // only read
			lines, err := b.History(c.Context(), n)
			if err != nil {
				return err
			}
			rows := make([]list.HistoryRow, len(lines))
			for i, l := range lines {
				rows[i] = list.HistoryRow{
					Change: l.ID, At: l.At, Who: l.Who, What: l.What, Before: l.Before, After: l.After, Undoes: l.Undoes, Undone: l.Undone,
				}
			}
			return a.write(writers{
				text: func(w io.Writer) error { return list.History(w, rows, a.look()) },
				json: func(w io.Writer) error { return list.HistoryJSON(w, rows) },
				csv:  func(w io.Writer) error { return list.HistoryCSV(w, rows) },
			})
		},
	}
	a.bookFlag(c)
	a.formatFlag(c)
	c.Flags().IntVar(&n, "last", 0, "only this many of the newest; 0 = all")
	return c
}
