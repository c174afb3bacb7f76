package main

import (
	"fmt"

	"tuckup/optimize/check"
)

// tellChecked says on standard error what came of working a plan's figures out anew. The error is for figures that do
// not agree.
func (a *app) tellChecked(c check.Report) error {
	if len(c.Differences) == 0 {
		fmt.Fprintf(a.err, "checked: %d figures, all agree\n", c.Figures)
		return nil
	}
	for _, d := range c.Differences {
		fmt.Fprintln(a.err, harmless(d.String()))
	}
	return fmt.Errorf("checked: %d figures, %d of them do not agree: do not work by this plan", c.Figures, len(c.Differences))
}
