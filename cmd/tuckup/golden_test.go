package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"tuckup/reports/calendar"
	"tuckup/reports/html"
	"tuckup/reports/layout"
	"tuckup/reports/tally"
)

const goldenDir = "../../testdata/golden/"

// The demo's reports, byte for byte. Seconds are the one thing that may differ between two runs.
func TestTheDemosReportsAreAsTheyWere(t *testing.T) {
	long(t, "plans the demo")
	r := planOf(t, "--demo")
	for file, write := range map[string]func(io.Writer) error{
		"plan.txt":      planWriters(r, layout.Look{}).text,
		"plan.json":     planWriters(r, layout.Look{}).json,
		"readiness.txt": readinessWriters(r, layout.Look{}).text,
		"workload.csv":  workloadWriters(r, layout.Look{}, "").csv,
		"balance.csv":   workloadWriters(r, layout.Look{}, tally.PartBalance).csv,
		"workload.txt":  workloadWriters(r, layout.Look{}, "").text,
		"dog-moss.html": func(w io.Writer) error { return html.Dog(w, r, "Moss", html.Records{Private: true}) },
		"sheet.txt":     sheetWriters(r, layout.Look{}).text,
		"week.ics": func(w io.Writer) error {
			return calendar.Write(w, r, calendar.Published{}, time.Date(2027, 1, 4, 7, 0, 0, 0, time.UTC))
		},
	} {
		got := regexp.MustCompile(`"seconds": [0-9.]+`).ReplaceAll([]byte(written(t, write)), []byte(`"seconds": 0`))
		if *update {
			if err := os.WriteFile(goldenDir+file, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(goldenDir + file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs from line %d on; go test ./cmd/tuckup -update writes it anew", file, firstDifference(got, want))
		}
	}
}

// A second run of the README's command prints the same bytes and ends with the documented status.
func TestPlanningTheDemoAgainPrintsTheSame(t *testing.T) {
	long(t, "plans the demo")
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("COLUMNS", "")
	code, out, said := program(context.Background(), "plan", "--demo")
	if code != codeDone {
		t.Errorf("exit code %d, want %d: %s", code, codeDone, said)
	}
	if !strings.Contains(said, "cannot be met") {
		t.Errorf("standard error does not say what cannot be met: %q", said)
	}
	want, err := os.ReadFile(goldenDir + "plan.txt")
	if err != nil {
		t.Fatal(err)
	}
	if out != string(want) {
		t.Errorf("plan --demo differs from line %d on", firstDifference([]byte(out), want))
	}
}

func firstDifference(a, b []byte) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return 1 + bytes.Count(a[:n], []byte("\n"))
}
