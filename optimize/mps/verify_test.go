package mps

import (
	"math"
	"strings"
	"testing"
)

func TestVerify(t *testing.T) {
	m, err := Read(strings.NewReader(everyKind))
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
