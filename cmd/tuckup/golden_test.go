package main

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"testing"
)

const goldenDir = "../../testdata/golden/"

// The demo's reports, byte for byte. Seconds are the one thing that may differ between two runs.
func TestTheDemosReportsAreAsTheyWere(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	for _, g := range []struct {
		file string
		args []string
		code int
	}{
		{"plan.txt", []string{"plan"}, codeCannot},
		{"plan.json", []string{"plan", "--format", "json"}, codeCannot},
		{"readiness.txt", []string{"readiness"}, codeDone},
		{"workload.csv", []string{"workload", "--format", "csv"}, codeDone},
		{"sheet.txt", []string{"sheet"}, codeCannot},
	} {
		t.Run(g.file, func(t *testing.T) {
			code, out, said := program(context.Background(), append(g.args, "--demo")...)
			if code != g.code {
				t.Fatalf("exit code %d, want %d: %s", code, g.code, said)
			}
			got := regexp.MustCompile(`"seconds": [0-9.]+`).ReplaceAll([]byte(out), []byte(`"seconds": 0`))
			if *update {
				if err := os.WriteFile(goldenDir+g.file, got, 0o600); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(goldenDir + g.file)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("%s differs from line %d on; go test ./cmd/tuckup -update writes it anew", g.file, firstDifference(got, want))
			}
		})
	}
}

func firstDifference(a, b []byte) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return 1 + bytes.Count(a[:n], []byte("\n"))
}
