package main

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tuckup/optimize/mps"
)

// Installed general solvers prove the same optimum of a tiny season, no plan of ours passes it, and none passes our bound.
func TestGeneralSolversAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	f := flags{highs: os.Getenv("HIGHS")} // the folder of the npm package, where there is one
	dir, o := aPlan(t)
	a := &app{now: time.Now}
	seen, optimum := 0, 0.0
	for _, g := range generals {
		if why := g.missing(f); why != "" {
			t.Log(why)
			continue
		}
		x, err := a.solve(context.Background(), g, f, dir, 60)
		if err != nil || x.Status != proved || !x.Holds || x.Bound == nil {
			t.Fatalf("%s: %+v, %v", g.name, x, err)
		}
		if seen > 0 && math.Abs(x.Points-optimum) > 1e-4 {
			t.Errorf("%s finds %.9g, the one before it %.9g", g.name, x.Points, optimum)
		}
		seen, optimum = seen+1, x.Points
		if o.Points > x.Points+1e-4 || x.Points > o.Bound+1e-4 {
			t.Errorf("%s: optimum %.9g, ours %.9g to %.9g", g.name, x.Points, o.Points, o.Bound)
		}
	}
	if seen == 0 {
		t.Skip("no general solver is installed")
	}
}

// What the solvers write when they stop early, or find nothing.
func TestReadersOfAnswers(t *testing.T) {
	m := mps.Model{Columns: []mps.Column{{Name: "a"}, {Name: "b"}}}
	read := func(f func(runOf, mps.Model) (answer, error), text, said string) (answer, error) {
		file := filepath.Join(t.TempDir(), "answer")
		if err := os.WriteFile(file, []byte(text), fileMode); err != nil {
			t.Fatal(err)
		}
		return f(runOf{answer: file, said: []byte(said)}, m)
	}
	inf := math.Inf(-1)
	for name, c := range map[string]struct {
		read         func(runOf, mps.Model) (answer, error)
		text, said   string
		proved, none bool
		bound, b     float64
	}{
		"cbc proved":    {readCBC, "Optimal - objective value -3.5\n  1 b 2 0\n", "", true, false, -3.5, 2},
		"cbc stopped":   {readCBC, "Stopped on time - objective value -3\n** 1 b 1.5 0\n", "Lower bound:   -4.25\n", false, false, -4.25, 1.5},
		"cbc nothing":   {readCBC, "Stopped on time (no integer solution - continuous used) - objective value -9\n 1 b 1 0\n", "", false, true, inf, 0},
		"glpk proved":   {readGLPK, "c x\ns mip 1 2 o -3.5\ni 1 0\nj 1 0\nj 2 2\ne o f\n", "", true, false, -3.5, 2},
		"glpk stopped":  {readGLPK, "s mip 1 2 f -3\nj 1 0\nj 2 1.5\n", "", false, false, inf, 1.5},
		"glpk nothing":  {readGLPK, "s mip 1 2 u 0\nj 1 0\nj 2 0\n", "", false, true, inf, 0},
		"highs proved":  {readHiGHS, "# status optimal\n# bound -3.5\na 0\nb 2\n", "", true, false, -3.5, 2},
		"highs stopped": {readHiGHS, "# status timeLimit\n# bound -4\na 0\nb 1.5\n", "", false, false, -4, 1.5},
		"highs nothing": {readHiGHS, "# status timeLimit\n# bound -Infinity\n", "", false, true, inf, 0},
	} {
		a, err := read(c.read, c.text, c.said)
		if err != nil || a.proved != c.proved || (a.values == nil) != c.none || a.bound != c.bound || a.values["b"] != c.b {
			t.Errorf("%s: %+v, %v", name, a, err)
		}
	}
	for name, c := range map[string]struct {
		read func(runOf, mps.Model) (answer, error)
		text string
	}{
		"cbc infeasible":   {readCBC, "Infeasible - objective value 0\n"},
		"cbc empty":        {readCBC, ""},
		"cbc unknown":      {readCBC, "Optimal - objective value 1\n 1 c 2 0\n"},
		"glpk infeasible":  {readGLPK, "s mip 1 2 n 0\n"},
		"glpk far column":  {readGLPK, "s mip 1 2 o 0\nj 3 1\n"},
		"highs infeasible": {readHiGHS, "# status infeasible\n"},
		"highs short":      {readHiGHS, "# status optimal\na 0\n"},
	} {
		if a, err := read(c.read, c.text, ""); err == nil {
			t.Errorf("%s: %+v", name, a)
		}
	}
}
