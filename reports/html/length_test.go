package html

import (
	"io"
	"runtime"
	"strings"
	"testing"

	"tuckup/optimize"
	"tuckup/reports/sample"
)

// Pages with names of any length, as old books may hold them, take memory that grows as the names do.
func TestPagesGrowAsTheNamesInThemDo(t *testing.T) {
	const length, most = 4000, 2.6 // twice the length, and a little for what is rounded up
	all := map[string]func(optimize.Result) error{
		"sheet":     func(r optimize.Result) error { return Sheet(io.Discard, r) },
		"season":    func(r optimize.Result) error { return Season(io.Discard, r, Records{}) },
		"readiness": func(r optimize.Result) error { return Readiness(io.Discard, r) },
		"workload":  func(r optimize.Result) error { return Workload(io.Discard, r) },
	}
	for name, f := range all {
		for _, letter := range []string{"a", "ab ", "\u0301"} {
			takes := func(n int) float64 {
				r := sample.Hostile(strings.Repeat(letter, n/len(letter)))
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				if err := f(r); err != nil {
					t.Fatal(err)
				}
				runtime.ReadMemStats(&after)
				return float64(after.TotalAlloc - before.TotalAlloc)
			}
			takes(length) // what is made once
			if once, twice := takes(length), takes(2*length); twice > most*once {
				t.Errorf("%s with %q: %.0f bytes for names of %d, %.0f for twice as long ones", name, letter, once, length, twice)
			}
		}
	}
}
