package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"tuckup/optimize/check"
)

func TestFiguresThatDoNotAgreeEndInStatusOne(t *testing.T) {
	var o, e bytes.Buffer
	a := newApp(&o, &e, time.Now)
	wrong := a.tellChecked(check.Report{Figures: 12, Differences: []check.Difference{
		{Where: "week of 2027-01-04, Sorrel\n, ribs", Figure: "minutes", Says: "13", Should: "12"},
	}})
	if code := a.report(wrong); code != codeFailed {
		t.Errorf("status %d", code)
	}
	if got := e.String(); !strings.HasPrefix(got, "week of 2027-01-04, Sorrel , ribs: minutes says 13, should be 12\n") ||
		!strings.Contains(got, "12 figures, 1 of them do not agree") || o.Len() > 0 {
		t.Errorf("said %q, wrote %q", got, o.String())
	}
}
