package main

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// The forms in which results are written.
const (
	formatText = "text"
	formatJSON = "json"
	formatCSV  = "csv"
	formatHTML = "html" // of some commands only
)

var formats = []string{formatText, formatJSON, formatCSV}

// formatFlag lets a command be asked for a format; more are those that it has beside text, JSON and CSV.
func (a *app) formatFlag(c *cobra.Command, more ...string) {
	all := slices.Concat(formats, more)
	c.Flags().StringVar(&a.flags.format, "format", formatText, "how to write it: "+strings.Join(all, ", "))
	fixedValues(c, "format", all)
}

// checkFormat refuses a format that the command does not have, before anything is planned.
func (a *app) checkFormat(more ...string) error {
	if near, ok := oneOf(a.flags.format, slices.Concat(formats, more)); !ok {
		return usage("--format with "+near, "--format %q is not a format", a.flags.format)
	}
	return nil
}

// writers are one report's ways to write itself.
type writers struct{ text, json, csv, html func(io.Writer) error }

// write writes a report to standard output in the format that was asked for.
func (a *app) write(w writers) error {
	switch a.flags.format {
	case formatJSON:
		return w.json(a.out)
	case formatCSV:
		return w.csv(a.out)
	case formatHTML:
		return w.html(a.out)
	}
	return w.text(a.out)
}
