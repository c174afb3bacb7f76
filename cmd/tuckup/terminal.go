package main

import (
	"io"
	"os"
	"strconv"

	"github.com/mattn/go-isatty"

	"tuckup/reports/layout"
)

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && (isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd()))
}

// colourful reports whether w may be written to in colour: a terminal that can, and no NO_COLOR (no-color.org).
func colourful(w io.Writer) bool {
	return isTerminal(w) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// look is how text is laid out: as wide as COLUMNS asks for (POSIX, environment variables), where it is set.
func (a *app) look() layout.Look {
	l := layout.Look{Colour: colourful(a.out)}
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		l.Columns = n
	}
	return l
}
