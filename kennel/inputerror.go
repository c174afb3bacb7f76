package kennel

import (
	"fmt"
	"strings"
)

// InputError is something wrong with what somebody wrote: what, where, the value and what to try instead. A
// place that is not known is left zero.
type InputError struct {
	File         string
	Line, Column int    // from 1; 0 = not known
	Field        string // path of the field, like dogs[2].pattern
	Value        string // as it was written
	What         string // the trouble in words, without the value
	Try          string // what to write instead
}

// Error is `file:line:column: field "value": what`, then a line that starts "Try:".
func (e *InputError) Error() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(e.File)
		b.WriteByte(':')
	}
	if e.Line > 0 {
		fmt.Fprintf(&b, "%d:", e.Line)
		if e.Column > 0 {
			fmt.Fprintf(&b, "%d:", e.Column)
		}
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	if e.Field != "" {
		b.WriteString(e.Field)
		if e.Value != "" {
			fmt.Fprintf(&b, " %q", e.Value)
		}
		b.WriteString(": ")
	}
	b.WriteString(e.What)
	if e.Try != "" {
		b.WriteString("\nTry: ")
		b.WriteString(e.Try)
	}
	return b.String()
}
