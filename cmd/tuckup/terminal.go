package main

import (
	"io"
	"os"

	"github.com/mattn/go-isatty"

	"tuckup/reports"
)

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && (isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd()))
}

// colourful reports whether w may be written to in colour: a terminal that can, and no NO_COLOR (no-color.org).
func colourful(w io.Writer) bool {
	return isTerminal(w) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

func (a *app) look() reports.Look { return reports.Look{Colour: colourful(a.out)} }
