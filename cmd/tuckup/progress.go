package main

import (
	"fmt"
	"io"
)

// progressAfter is how many seconds a plan may take before its progress is shown.
const progressAfter = 1.0

// progress is one line on a terminal that says how good the plan is so far.
type progress struct {
	w     io.Writer // nil = no terminal
	shown bool
}

func newProgress(w io.Writer) *progress {
	if !isTerminal(w) {
		w = nil
	}
	return &progress{w: w}
}

// eraseLine moves to the line's start and clears it (ECMA-48).
const eraseLine = "\r\x1b[K"

func (p *progress) show(objective, bound, seconds float64) {
	if p.w == nil || seconds < progressAfter {
		return
	}
	gap := 100 * (bound - objective) / max(1, bound, -bound)
	fmt.Fprintf(p.w, "%splanning: %.2f points, none can pass %.2f (%.1f %%), %.0f s", eraseLine, objective, bound, gap, seconds)
	p.shown = true
}

func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, eraseLine)
	}
}
