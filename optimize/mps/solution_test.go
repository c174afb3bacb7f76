package mps

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"strings"
	"testing"
)

func TestReadSolution(t *testing.T) {
	s, err := ReadSolution(strings.NewReader("# comment\n\nx 1\n y\t-2.5e-3 \n"))
	if err != nil || len(s) != 2 || s["x"] != 1 || s["y"] != -0.0025 {
		t.Errorf("got %v, %v", s, err)
	}
	for text, want := range map[string]string{
		"x":          `line 1: "x" is not a name and a value`,
		"x 1\nx 2":   "line 2: x has a value already",
		"x NaN":      `line 1: the value "NaN" of x is not a number`,
		"x -inf":     `line 1: the value "-inf" of x is not a number`,
		"x 1e999":    `line 1: the value "1e999" of x is not a number`,
		"x one":      `line 1: the value "one" of x is not a number`,
		"x 1 2":      `line 1: "x 1 2" is not a name and a value`,
		"x 1\n\ny y": `line 3: the value "y" of y is not a number`,
	} {
		if _, err := ReadSolution(strings.NewReader(text)); err == nil || err.Error() != want {
			t.Errorf("%q: got %v, want %s", text, err, want)
		}
	}
}

// Any bytes are read as finite numbers or refused, and what is read reads back the same when it is written.
func FuzzReadSolution(f *testing.F) {
	for _, text := range []string{"# comment\n\nx 1\n y\t-2.5e-3 \n", "x NaN\n", "x 1\nx 2", "x 0x1p-2\n"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ReadSolution(bytes.NewReader(text))
		if err != nil {
			return
		}
		var b bytes.Buffer
		for name, x := range s {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%q is %v", name, x)
			}
			fmt.Fprintf(&b, "%s %v\n", name, x)
		}
		if back, err := ReadSolution(&b); err != nil || !maps.Equal(back, s) {
			t.Errorf("%v, read back %v, %v", s, back, err)
		}
	})
}
