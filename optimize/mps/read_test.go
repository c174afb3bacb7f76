package mps

import (
	"bytes"
	"math"
	"reflect"
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

func TestRead(t *testing.T) {
	m, err := Read(strings.NewReader(everyKind))
	if err != nil {
		t.Fatal(err)
	}
	inf := math.Inf(1)
	columns := []Column{
		{Name: "x", Cost: 1, Low: -1, High: 8, In: []Entry{{0, 2}, {1, 3}}},
		{Name: "n", Cost: -1, High: 7, Whole: true, In: []Entry{{2, 1}}},
		{Name: "k", High: 1, Whole: true, In: []Entry{{3, 1}}}, // whole, no upper bound given
		{Name: "y", Low: 2.5, High: 2.5, In: []Entry{{4, 1}, {5, 1}, {6, 1}}},
		{Name: "w", Cost: 4, Low: -inf, High: -3},
		{Name: "v", Low: -inf, High: inf},
	}
	if !reflect.DeepEqual(m.Columns, columns) {
		t.Errorf("columns\n%+v, want\n%+v", m.Columns, columns)
	}
	rows := []Row{
		{Name: "a", Low: -inf, High: 10},
		{Name: "b", Low: -2, High: inf},
		{Name: "c", Low: 3, High: 3},
		{Name: "d", Low: -3, High: 1},
		{Name: "e", Low: 1, High: 6},
		{Name: "f", Low: 0, High: 2},
		{Name: "g", Low: -2, High: 0},
	}
	if !reflect.DeepEqual(m.Rows, rows) {
		t.Errorf("rows\n%+v, want\n%+v", m.Rows, rows)
	}
	if m.Name != "mixed" || m.Objective != "cost" {
		t.Errorf("the model %q minimises %q", m.Name, m.Objective)
	}
}

func TestReadRefuses(t *testing.T) {
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
		if _, err := Read(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), e.want) {
			t.Errorf("%q for %q: got %v, want %q", e.replacement, e.old, err, e.want)
		}
	}
}

// Any bytes are read or refused; what is read can be verified.
func FuzzRead(f *testing.F) {
	f.Add([]byte(everyKind))
	f.Add([]byte(written))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := Read(bytes.NewReader(text))
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
