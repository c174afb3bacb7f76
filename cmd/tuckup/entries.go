package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
	"tuckup/reports"
)

func (a *app) tryEntriesCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "entries",
		Short: "Advise before entries close: which dog to enter, to wait with, to leave out, and why",
		Long: "entries looks at every show that is only hoped for: for each dog that it names, or each dog in hand where it names none, how " +
			"ready it would be, the chance of being in coat, and what entering costs the others. It plans each with the entry and " +
			"without it, which takes a while; --time-limit is for each of these plans.",
		Example: "  tuckup try entries --kennel thornfield.yaml",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			src, opt, err := a.stopwatched(c)
			if err != nil {
				return err
			}
			all, err := optimize.Entries(c.Context(), src.kennel, src.patterns, opt)
			if err != nil {
				return src.locate(err)
			}
			name := src.kennel.Name
			return a.write(writers{
				text: func(w io.Writer) error { return reports.Entries(w, name, all, opt.On, a.look()) },
				json: func(w io.Writer) error { return reports.EntriesJSON(w, name, all, opt.On) },
				csv:  func(w io.Writer) error { return reports.EntriesCSV(w, all) },
			})
		},
	}
	a.planFlags(c)
	a.formatFlag(c)
	return c
}

// stopwatched is what is planned, with a stopwatch for a time limit.
func (a *app) stopwatched(c *cobra.Command) (source, optimize.Options, error) {
	src, opt, err := a.prepare(c)
	start := a.now()
	opt.Seconds = func() float64 { return a.now().Sub(start).Seconds() }
	return src, opt, err
}

// lookAhead writes when each dog could be in coat.
func (a *app) lookAhead(c *cobra.Command) error {
	if err := a.checkFormat(); err != nil {
		return err
	}
	src, opt, err := a.stopwatched(c)
	if err != nil {
		return err
	}
	all, err := optimize.LookAhead(c.Context(), src.kennel, src.patterns, opt)
	if err != nil {
		return src.locate(err)
	}
	name := src.kennel.Name
	return a.write(writers{
		text: func(w io.Writer) error { return reports.Ahead(w, name, all, opt.On, a.look()) },
		json: func(w io.Writer) error { return reports.AheadJSON(w, name, all, opt.On) },
		csv:  func(w io.Writer) error { return reports.AheadCSV(w, all) },
	})
}
