package main

import (
	"errors"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/text"
	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) tryCommand() *cobra.Command {
	c := group("try", "See what an edit would bring, and write nothing",
		"  tuckup try show add \"Ferrydown Show\" --on 2027-04-10 --dogs Sorrel --demo\n  tuckup try hours away --from 2027-02-01 --to 2027-02-07 --demo")
	c.Long = "try carries an edit out on a copy, plans both, and shows them side by side: sessions, shares, hours, readiness, and who " +
		"pays. Nothing is written."
	e := a.onCopy()
	dog := group("dog", "Try a dog added, changed or retired", "  tuckup try dog retire Sorrel --demo")
	dog.AddCommand(dogAddCommand(e), dogEditCommand(e), dogRetireCommand(e))
	show := group("show", "Try a show added, changed or dropped", "  tuckup try show drop yarrow --demo")
	show.AddCommand(showAddCommand(e), showEditCommand(e), showDropCommand(e))
	hours := group("hours", "Try other hours, or days away", "  tuckup try hours set mon=3 tue=3 --demo")
	hours.AddCommand(hoursSetCommand(e), hoursAwayCommand(e), hoursDropCommand(e))
	c.AddCommand(dog, show, hours, a.tryEntriesCommand())
	tryExamples(c)
	return c
}

// tryExamples turns the examples of the commands that change the book into those that try.
func tryExamples(c *cobra.Command) {
	for _, s := range c.Commands() {
		s.Example = strings.NewReplacer("tuckup try", "tuckup try", "tuckup", "tuckup try", " --dry-run", "").Replace(s.Example)
		tryExamples(s)
	}
}

// onCopy carries edits out on a copy, plans both and writes what changes.
func (a *app) onCopy() editor {
	return editor{
		flags: func(c *cobra.Command) {
			a.fromFlags(c)
			a.todayFlag(c)
			a.seedFlags(c)
			a.formatFlag(c)
		},
		carry: a.tryEdit,
	}
}

func (a *app) tryEdit(c *cobra.Command, e edit) error {
	if err := a.checkFormat(); err != nil {
		return err
	}
	opt, err := a.options(c)
	if err != nil {
		return err
	}
	src, err := a.source(c.Context())
	if err != nil {
		return err
	}
	on, err := a.todayBy(c, "today", a.flags.today, src)
	if err != nil {
		return err
	}
	edited := src
	edited.state.Kennel = src.state.Kennel.Clone()
	edited.positions = text.Positions{} // what was edited stands in no file
	if _, err := e(&edited.state, on); err != nil {
		return err
	}
	edited.kennel = edited.state.Kennel
	if err := kennel.Check(edited.kennel, edited.patterns); err != nil {
		return whose(err, edited.kennel)
	}
	src.asOf(on, &opt)
	if opt.Begin, err = src.inUse(); err != nil {
		return err
	}
	before, err := a.planned(c.Context(), src, opt)
	if err != nil {
		return err
	}
	edited.asOf(on, &opt)
	opt.Begin = &before // what differs is then owed to the edit, not to the search
	after, err := a.planned(c.Context(), edited, opt)
	if err != nil {
		return err
	}
	return a.writeChanges(before, after)
}

// writeChanges writes what sets two plans apart.
func (a *app) writeChanges(before, after optimize.Result) error {
	changes := optimize.Compare(before, after)
	return a.write(writers{
		text: func(w io.Writer) error { return reports.Changes(w, changes, after.On, a.look()) },
		json: func(w io.Writer) error { return reports.ChangesJSON(w, changes) },
		csv:  func(w io.Writer) error { return reports.ChangesCSV(w, changes) },
	})
}

// whose says by name what of an edited kennel is wrong; it stands in no file.
func whose(err error, k kennel.Kennel) error {
	var in *kennel.InputError
	if errors.As(err, &in) {
		return book.Named(in, k)
	}
	return err
}
