package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/reports"
)

func (a *app) patternCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "pattern",
		Short: "Show the coat patterns",
		Long: "A coat pattern describes the coat of one kind of dog and how it is worked: its areas, how long each takes to come in " +
			"and how long it holds, each number with its source and how well that is attested.",
		Example: "  tuckup pattern list\n  tuckup pattern show wire-fox-terrier",
		Args:    noCommand,
		RunE: func(*cobra.Command, []string) error {
			return usage("tuckup pattern list, or tuckup pattern show NAME", "pattern needs to know what to do")
		},
	}
	c.AddCommand(a.patternListCommand(), a.patternShowCommand())
	return c
}

func (a *app) patternListCommand() *cobra.Command {
	c := &cobra.Command{
		Use:     "list",
		Short:   "List the coat patterns by name",
		Example: "  tuckup pattern list\n  tuckup pattern list --patterns mine.yaml --format json",
		Args:    noWords,
		RunE: func(*cobra.Command, []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			ps, err := a.readPatterns()
			if err != nil {
				return err
			}
			return a.write(writers{
				text: func(w io.Writer) error { return reports.PatternList(w, ps, a.look()) },
				json: func(w io.Writer) error { return reports.PatternListJSON(w, ps) },
				csv:  func(w io.Writer) error { return reports.PatternListCSV(w, ps) },
			})
		},
	}
	a.patternsFlag(c)
	a.formatFlag(c)
	return c
}

func (a *app) patternShowCommand() *cobra.Command {
	yaml := false
	c := &cobra.Command{
		Use:   "show NAME",
		Short: "Show every number of one coat pattern with its source",
		Example: "  tuckup pattern show wire-fox-terrier\n  tuckup pattern show wire-fox-terrier --yaml\n" +
			"  tuckup pattern show mine --patterns mine.yaml",
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			if len(args) != 1 {
				return usage("tuckup pattern show NAME, with a name from tuckup pattern list", "pattern show takes one name")
			}
			ps, err := a.readPatterns()
			if err != nil {
				return err
			}
			name, ok := ps.Named(args[0])
			if !ok {
				return noPattern(args[0], ps)
			}
			p := ps[name]
			if yaml {
				return a.writePattern(p)
			}
			return a.write(writers{
				text: func(w io.Writer) error { return reports.Pattern(w, p, a.look()) },
				json: func(w io.Writer) error { return reports.PatternJSON(w, p) },
				csv:  func(w io.Writer) error { return reports.PatternCSV(w, p) },
			})
		},
	}
	c.Flags().BoolVar(&yaml, "yaml", false, "write it as a pattern file, to be changed and read back with --patterns")
	a.patternsFlag(c)
	a.formatFlag(c)
	return c
}

// writePattern writes a pattern as the file that it can be read from.
func (a *app) writePattern(p kennel.Pattern) error {
	data, err := patterns.Write(p)
	if err != nil {
		return err
	}
	_, err = a.out.Write(data)
	return err
}

func noPattern(name string, ps kennel.Patterns) error {
	near := kennel.Nearest(name, ps.Names(), 1)[0]
	return usage("tuckup pattern show "+near+", or tuckup pattern list", "there is no coat pattern %q", name)
}
