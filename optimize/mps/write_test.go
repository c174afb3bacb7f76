package mps

import (
	"bytes"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// written is the file of everyWay.
const written = `* one line
* and another
NAME ways
ROWS
 N cost
 L most
 G least
 E equal
 G both
 L most_2
 L cost_2
COLUMNS
 x cost 1.5
 x both 2
 x most 1
 free least -1
 idle cost 0
 fixed equal 1
 low cost 1
 high cost 1
 MARKER 'MARKER' 'INTORG'
 n most 1
 many cost -1
 MARKER 'MARKER' 'INTEND'
RHS
 RHS most 10
 RHS least -2
 RHS equal 2.5
 RHS both -4
 RHS cost_2 7
RANGES
 RANGE both 6
BOUNDS
 UP BOUND x 8
 FR BOUND free
 FX BOUND fixed 2.5
 LO BOUND low -1
 MI BOUND high
 UP BOUND high -3
 UP BOUND n 3
 PL BOUND many
ENDATA
`

// everyWay has every kind of row and of bounds, a whole column before one that isn't, and names that are taken.
func everyWay() *Model {
	inf := math.Inf(1)
	m := &Model{Name: "ways", Objective: "cost", Notes: []string{"one line", "and another"}}
	most, least, equal := m.AddMost("most", 9), m.AddLeast("least", -2), m.AddRow("equal", 2.5, 2.5)
	both := m.AddRow("both", -4, 2)
	m.AddMost("most", 0)
	m.AddMost("cost", 7)
	n := m.AddColumn(Column{Name: "n", High: 3, Whole: true})
	x := m.AddColumn(Column{Name: "x", Cost: 1.5, High: 8})
	free := m.AddColumn(Column{Name: "free", Low: -inf, High: inf})
	m.AddColumn(Column{Name: "idle", High: inf})
	fixed := m.AddColumn(Column{Name: "fixed", Low: 2.5, High: 2.5})
	m.AddColumn(Column{Name: "low", Cost: 1, Low: -1, High: inf})
	m.AddColumn(Column{Name: "high", Cost: 1, Low: -inf, High: -3})
	m.AddColumn(Column{Name: "many", Cost: -1, High: inf, Whole: true})
	m.Put(both, x, 2)
	m.Put(most, x, 1)
	m.Put(least, x, 0)
	m.Put(least, free, -1)
	m.Put(equal, fixed, 1)
	m.Put(most, n, 1)
	m.Shift(most, 1)
	return m
}

func TestWrite(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, everyWay()); err != nil {
		t.Fatal(err)
	}
	if b.String() != written {
		t.Errorf("got\n%s\nwant\n%s", b.String(), written)
	}
}

// A solution is in the order of the file: whole columns last.
func TestWriteSolution(t *testing.T) {
	m := everyWay()
	const want = "x 2\nfree 3\nidle 4\nfixed 5\nlow 6.25\nhigh 7\nn 1\nmany 8\n"
	var b bytes.Buffer
	if err := WriteSolution(&b, m, []float64{1, 2, 3, 4, 5, 6.25, 7, 8}); err != nil || b.String() != want {
		t.Errorf("got %q (%v), want %q", b.String(), err, want)
	}
}

// What is written reads back as it was, but for the notes and whole columns being last.
func TestReadsWhatIsWritten(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	models := []*Model{everyWay()}
	for range 300 {
		models = append(models, randomModel(rng))
	}
	for i, m := range models {
		var b bytes.Buffer
		if err := Write(&b, m); err != nil {
			t.Fatal(err)
		}
		got, err := Read(&b)
		if err != nil {
			t.Fatalf("model %d: %v", i, err)
		}
		want := Model{Name: m.Name, Objective: m.Objective, Rows: m.Rows}
		for _, whole := range []bool{false, true} {
			for _, c := range m.Columns {
				if c.Whole == whole {
					want.Columns = append(want.Columns, c)
				}
			}
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("model %d is\n%+v, was\n%+v", i, got, want)
		}
	}
}

func randomModel(rng *rand.Rand) *Model {
	m := &Model{Name: "random", Objective: "cost"}
	some := func() float64 { return float64(rng.IntN(17)-8) / 4 } // sums of these are exact
	limits := func() (low, high float64) {
		low = some()
		high = low + math.Abs(some())
		switch rng.IntN(4) {
		case 0:
			low = math.Inf(-1)
		case 1:
			high = math.Inf(1)
		}
		return low, high
	}
	for range 1 + rng.IntN(6) {
		low, high := limits()
		m.AddRow("row", low, high)
	}
	for range 1 + rng.IntN(6) {
		low, high := limits()
		if high < 0 && low == 0 {
			high = 1
		}
		j := m.AddColumn(Column{Name: "column", Cost: some(), Low: low, High: high, Whole: rng.IntN(2) == 0})
		for r := range m.Rows {
			if rng.IntN(2) == 0 {
				m.Put(r, j, some())
			}
		}
	}
	return m
}

// Names go on being apart when more is added to a model that was read.
func TestNamesStayApartAfterReading(t *testing.T) {
	m, err := Read(strings.NewReader(written))
	if err != nil {
		t.Fatal(err)
	}
	j, r := m.AddColumn(Column{Name: "x"}), m.AddMost("most", 1)
	if c, row := m.Columns[j].Name, m.Rows[r].Name; c != "x_2" || row != "most_3" {
		t.Errorf("added as %s and %s", c, row)
	}
}

func TestPlain(t *testing.T) {
	for name, want := range map[string]string{
		"Zoë-Å": "zo", "A  b!": "a_b", "": "dog", "?!": "dog", "_x_": "x", "Jo's\nhands": "jo_s_hands",
		strings.Repeat("long ", 40): strings.Repeat("long_", 8)[:39],
	} {
		if got := Plain(name, "dog"); got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
}
