package main

import (
	"errors"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"tuckup/reports/calendar"
)

func (a *app) calendarCommand() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "calendar",
		Short: "Write the planned days as a calendar for your phone",
		Long: "calendar writes the sessions, baths and duties of the days planned as a calendar file (iCalendar, " +
			"RFC 5545), with the shows as whole days and an alarm two days before entries close. Times are those of the kennel's " +
			"time zone.\n\nWritten again to the same --out, it keeps what is as it was, moves what has moved, and cancels what is " +
			"not planned any more, so that your calendar follows.",
		Example: "  tuckup calendar --demo\n  tuckup calendar --kennel thornfield.yaml --out week.ics",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if out == "" {
				return usage("--out FILE.ics, or - for standard output", "--out names no file")
			}
			before, err := readIfThere(out)
			if err != nil {
				return err
			}
			r, err := a.shown(c)
			if err != nil {
				return err
			}
			a.tellBeside(r)
			var was calendar.Published
			if before != nil {
				if was, err = calendar.Read(before, r.Kennel.Name); err != nil {
					return usage("another path for --out", "%q %v", out, err)
				}
			}
			return a.writeFiles([]outFile{{out, func(w io.Writer) error { return calendar.Write(w, r, was, a.now()) }}})
		},
	}
	a.planFlags(c)
	c.Flags().StringVar(&out, "out", "-", "file for the calendar; - is standard output")
	return c
}

// readIfThere is what a file to be written over holds; nil where there is none yet, or where the path is no file.
func readIfThere(path string) ([]byte, error) {
	if path == "-" {
		return nil, nil
	}
	if info, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular() {
		return nil, nil
	}
	return readFile(path, "the path of a file, or - for standard output")
}
