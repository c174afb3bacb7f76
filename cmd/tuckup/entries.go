package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) tryEntriesCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "entries",
		Short: "Advise before entries close: enter, wait or leave out, and why",
		Long: "entries looks at every show that is only hoped for: for each dog that it names, or each dog in hand where it names none, how " +
			"ready it would be, the chance of being in coat, and what entering costs the others. It plans each with the entry and " +
			"without it, which takes a while; --time-limit is for each of these plans.",
		Example: "  tuckup try entries --kennel thornfield.yaml",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			src, opt, err := a.prepare(c)
			if err != nil {
				return err
			}
			if opt.Begin, err = src.inUse(); err != nil {
				return err
			}
			progress := a.watch(&opt)
			all, err := optimize.Entries(c.Context(), src.kennel, src.patterns, opt)
			progress.end()
			if err := a.asFarAs(src, len(all), err); err != nil {
				return err
			}
			name := src.kennel.Name
			return a.write(writers{
				text: func(w io.Writer) error { return reports.Entries(w, name, all, opt.On, a.look()) },
				json: func(w io.Writer) error { return reports.EntriesJSON(w, name, all, opt.On) },
				csv:  func(w io.Writer) error { return reports.EntriesCSV(w, all, opt.On) },
			})
		},
	}
	a.planFlags(c)
	a.formatFlag(c)
	return c
}

// asFarAs lets a list that was interrupted pass as far as it got; standard error says so. Other errors are located.
func (a *app) asFarAs(src source, done int, err error) error {
	if err == nil || !errors.Is(err, context.Canceled) || done == 0 {
		return src.locate(err)
	}
	a.say(fmt.Sprintf("stopped; the list holds the %d that were looked at by then", done), "")
	return nil
}

// lookAhead writes when each dog could be in coat.
func (a *app) lookAhead(c *cobra.Command) error {
	if err := a.checkFormat(); err != nil {
		return err
	}
	src, opt, err := a.prepare(c)
	if err != nil {
		return err
	}
	progress := a.watch(&opt)
	all, err := optimize.LookAhead(c.Context(), src.kennel, src.patterns, opt)
	progress.end()
	if err := a.asFarAs(src, len(all), err); err != nil {
		return err
	}
	name := src.kennel.Name
	return a.write(writers{
		text: func(w io.Writer) error { return reports.Ahead(w, name, all, opt.On, a.look()) },
		json: func(w io.Writer) error { return reports.AheadJSON(w, name, all, opt.On) },
		csv:  func(w io.Writer) error { return reports.AheadCSV(w, all) },
	})
}
