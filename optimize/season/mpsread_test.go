package season

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"strings"
	"testing"
)

// Every kind of row, range and bound once.
const everyKind = `* a comment
NAME mixed

ROWS
 N cost
 N ignored
 L a
 G b
 E c
 L d
 G e
 E f
 E g
COLUMNS
 x cost 1 a 2
 x b 3
 M1 'MARKER' 'INTORG'
 n cost -1 c 1
 k ignored 5
 k d 1
 M2 'MARKER' 'INTEND'
 y e 1 f 1
 y g 1
 w cost 4
 v cost 0
RHS
 RHS a 10 b -2
 c 3
 RHS d 1
 RHS e 1
RANGES
 RNG d -4 e -5
 RNG f 2
 RNG g -2
BOUNDS
 LO BND x -1
 UP BND x 8
 UP BND n 7
 FX y 2.5
 MI BND w
 UP BND w -3
 FR BND v
ENDATA
anything
`

func TestReadMPS(t *testing.T) {
	m, err := ReadMPS(strings.NewReader(everyKind))
	if err != nil {
		t.Fatal(err)
	}
	inf := math.Inf(1)
	columns := []ModelColumn{
		{"x", 1, -1, 8, false},
		{"n", -1, 0, 7, true},
		{"k", 0, 0, 1, true}, // whole, no upper bound given
		{"y", 0, 2.5, 2.5, false},
		{"w", 4, -inf, -3, false},
		{"v", 0, -inf, inf, false},
	}
	if len(m.Columns) != len(columns) {
		t.Fatalf("%d columns, want %d", len(m.Columns), len(columns))
	}
	for j, want := range columns {
		if m.Columns[j] != want {
			t.Errorf("column %+v, want %+v", m.Columns[j], want)
		}
	}
	rows := []ModelRow{
		{Name: "a", Low: -inf, High: 10},
		{Name: "b", Low: -2, High: inf},
		{Name: "c", Low: 3, High: 3},
		{Name: "d", Low: -3, High: 1},
		{Name: "e", Low: 1, High: 6},
		{Name: "f", Low: 0, High: 2},
		{Name: "g", Low: -2, High: 0},
	}
	if len(m.Rows) != len(rows) {
		t.Fatalf("%d rows, want %d", len(m.Rows), len(rows))
	}
	for i, want := range rows {
		if got := m.Rows[i]; got.Name != want.Name || got.Low != want.Low || got.High != want.High {
			t.Errorf("row %+v, want %+v", got, want)
		}
	}
	if r := m.Rows[1]; len(r.Columns) != 1 || r.Columns[0] != 0 || r.Coef[0] != 3 {
		t.Errorf("row b is %+v, want 3 x", r)
	}
}

func TestVerify(t *testing.T) {
	m, err := ReadMPS(strings.NewReader(everyKind))
	if err != nil {
		t.Fatal(err)
	}
	fine := map[string]float64{"x": 2, "n": 3, "k": 0, "y": 2.5, "w": -3, "v": 100}
	m.Rows[5].High = 2.5 // y = 2.5 would break f and g
	m.Rows[6].High = 2.5
	cases := []struct {
		name      string
		value     float64
		violation float64
		worst     string
		fraction  float64
	}{
		{"x", 2, 0, "", 0},
		{"x", 6, 2, "a", 0},
		{"x", 9, 8, "a", 0}, // and x itself by 1
		{"x", -1, 1, "b", 0},
		{"n", 4, 1, "c", 0},
		{"n", 3.25, 0.25, "c", 0.25},
		{"k", 1.125, 0.125, "k", 0.125},
		{"y", 2, 0.5, "y", 0},
		{"w", -2, 1, "w", 0},
		{"v", -1e9, 0, "", 0},
		{"v", math.NaN(), math.NaN(), "v", 0},
	}
	for _, c := range cases {
		s := map[string]float64{}
		for k, x := range fine {
			s[k] = x
		}
		s[c.name] = c.value
		v, err := Verify(m, s)
		if err != nil {
			t.Fatal(err)
		}
		same := v.Violation == c.violation || math.IsNaN(v.Violation) && math.IsNaN(c.violation)
		if !same || v.Worst != c.worst || v.Fraction != c.fraction {
			t.Errorf("%s = %g: %+v, want %+v", c.name, c.value, v, c)
		}
	}
	v, err := Verify(m, fine)
	if err != nil || v.Objective != 2-3-12 {
		t.Errorf("objective %g (%v), want -13", v.Objective, err)
	}
	delete(fine, "k")
	if _, err := Verify(m, fine); err == nil || !strings.Contains(err.Error(), "no value for column k") {
		t.Errorf("a value is missing, but %v", err)
	}
	fine["k"], fine["other"] = 0, 1
	if _, err := Verify(m, fine); err == nil || !strings.Contains(err.Error(), "values for 7 columns, the model has 6") {
		t.Errorf("a value too many, but %v", err)
	}
}

func TestReadMPSRefuses(t *testing.T) {
	edits := []struct{ old, replacement, want string }{
		{"ENDATA\nanything\n", "", "ends without ENDATA"},
		{"NAME mixed", "OBJSENSE\n MAX", `line 2: unknown section "OBJSENSE"`},
		{" L a\n", " L a\n L a\n", "line 8: row a is there already"},
		{" L a\n", " X a\n", `unknown sense "X"`},
		{" L a\n", " L\n", "a row needs a sense and a name"},
		{" x b 3\n", " x zz 3\n", "the unknown row zz"},
		{" x b 3\n", " x b 3x\n", `"3x" of b is not a number`},
		{" x b 3\n", " x b NaN\n", `"NaN" of b is not a number`},
		{" x b 3\n", " x b\n", "1 fields where names and numbers should be"},
		{" x b 3\n", " x a 3\n", "column x has two entries in row a"},
		{" k d 1\n", " x d 1\n", "the entries of column x are not together"},
		{"'INTORG'", "'INTERN'", "unknown marker 'INTERN'"},
		{" c 3\n", " cost 3\n", "RHS of cost, which is not a row with a limit"},
		{" RNG f 2\n", " RNG ff 2\n", "RANGES of ff, which is not a row with a limit"},
		{" FX y 2.5\n", " FX yy 2.5\n", "a bound on the unknown column yy"},
		{" FX y 2.5\n", " XX y 2.5\n", `unknown bound "XX"`},
		{" FX y 2.5\n", " FX y q\n", `the bound "q" of y is not a number`},
		{" FX y 2.5\n", " FX y NaN\n", `the bound "NaN" of y is not a number`},
		{" FX y 2.5\n", " FX\n", "a bound FX with 1 fields"},
		{" UP BND n 7\n", " UP BND n -7\n", "column n has a negative upper bound"},
		{"NAME mixed", "NAME mixed\n stray", `data in section "NAME"`},
	}
	for _, e := range edits {
		text := strings.Replace(everyKind, e.old, e.replacement, 1)
		if text == everyKind {
			t.Fatalf("%q is not in the file", e.old)
		}
		if _, err := ReadMPS(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), e.want) {
			t.Errorf("%q for %q: got %v, want %q", e.replacement, e.old, err, e.want)
		}
	}
}

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

// Any bytes are read or refused, and what is read can be verified.
func FuzzReadMPS(f *testing.F) {
	f.Add([]byte(everyKind))
	f.Add([]byte(goldenMPS))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := ReadMPS(bytes.NewReader(text))
		if err != nil {
			return
		}
		s := map[string]float64{}
		for _, c := range m.Columns {
			s[c.Name] = 0
		}
		if _, err := Verify(m, s); err != nil {
			t.Error(err)
		}
	})
}
