package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// The forms in which results are written.
const (
	formatText = "text"
	formatJSON = "json"
	formatCSV  = "csv"
)

var formats = []string{formatText, formatJSON, formatCSV}

func (a *app) formatFlag(c *cobra.Command) {
	c.Flags().StringVar(&a.flags.format, "format", formatText, "how to write it: "+strings.Join(formats, ", "))
	fixedValues(c, "format", formats)
}

// checkFormat refuses a format that does not exist, before anything is planned.
func (a *app) checkFormat() error {
	if near, ok := oneOf(a.flags.format, formats); !ok {
		return usage("--format with "+near, "--format %q is not a format", a.flags.format)
	}
	return nil
}

// writers are one report's ways to write itself.
type writers struct{ text, json, csv func(io.Writer) error }

// write writes a report to standard output in the format that was asked for.
func (a *app) write(w writers) error {
	switch a.flags.format {
	case formatJSON:
		return w.json(a.out)
	case formatCSV:
		return w.csv(a.out)
	}
	return w.text(a.out)
}
