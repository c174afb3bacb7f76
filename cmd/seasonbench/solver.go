package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"tuckup/optimize/mps"
)

// limits say how many seconds a general solver gets.
type limits struct{ factor, floor, cap float64 }

func (l limits) seconds(ours float64) float64 {
	return min(l.cap, max(l.floor, l.factor*ours))
}

// general is a solver for any mixed-integer program, a program of its own.
type general struct {
	name    string
	program string // looked for in the path
	install string
	command func(r runOf) (args []string, err error)
	read    func(r runOf, m mps.Model) (answer, error)
}

// runOf is one run of a general solver.
type runOf struct {
	dir     string // for what it writes
	model   string
	answer  string  // file that it writes
	seconds float64 // that it gets
	highs   string  // folder of the npm package
	said    []byte  // what it printed, afterwards
}

// answer is what a general solver found. Values are of all columns; nil where it found no solution.
type answer struct {
	values map[string]float64
	proved bool
	bound  float64 // on the cost, from below; -Inf = it tells none
}

// found is a general solver's result, checked.
type found struct {
	Solver  string   `json:"solver"`
	Limit   float64  `json:"limit_seconds"`
	Seconds float64  `json:"seconds"`
	Status  string   `json:"status"`          // proved, stopped, nothing or failed
	Bound   *float64 `json:"bound,omitempty"` // points that no plan can pass, as it says
	Why     string   `json:"why,omitempty"`   // of a failure
	checked
}

// What became of a general solver's run.
const (
	proved  = "proved"
	stopped = "stopped"
	nothing = "nothing"
	failed  = "failed"
)

var generals = []general{
	{name: "cbc", program: "cbc", install: "Debian: apt-get install coinor-cbc", command: cbcCommand, read: readCBC},
	{name: "glpk", program: "glpsol", install: "Debian: apt-get install glpk-utils", command: glpkCommand, read: readGLPK},
	{name: "highs", program: "node", install: "node, npm install highs, and its folder as --highs", command: highsCommand, read: readHiGHS},
}

func solverNames() (names []string) {
	for _, g := range generals {
		names = append(names, g.name)
	}
	return names
}

// missing says why a general solver can't be run; empty if it can.
func (g general) missing(f flags) string {
	if _, err := exec.LookPath(g.program); err != nil {
		return g.name + " is not installed (" + g.install + ")"
	}
	if g.name == "highs" {
		return highsMissing(f.highs)
	}
	return ""
}

// relativeGap is the gap at which general solvers call a solution proved.
const relativeGap = 1e-6

// grace is how long a solver may take beyond its limit, to write its answer, before it is ended.
const grace = 30.0

// solve gives the model file in dir to the solver and checks its answer from the text of both files.
func (a *app) solve(ctx context.Context, g general, f flags, dir string, seconds float64) (found, error) {
	r := runOf{dir: dir, model: modelIn(dir), answer: filepath.Join(dir, g.name+".answer"), seconds: seconds, highs: f.highs}
	out := found{Solver: g.name, Limit: seconds}
	m, err := readModel(r.model)
	if err != nil {
		return out, err
	}
	args, err := g.command(r)
	if err != nil {
		return out, err
	}
	start := a.now()
	r.said, err = runFor(ctx, g.program, args, seconds+grace)
	out.Seconds = a.now().Sub(start).Seconds()
	if ctx.Err() != nil {
		return out, ctx.Err()
	}
	if err != nil {
		return failure(out, err), nil
	}
	ans, err := g.read(r, m)
	if err != nil {
		return failure(out, err), nil
	}
	if !math.IsInf(ans.bound, -1) {
		b := -ans.bound
		out.Bound = &b
	}
	if ans.values == nil {
		out.Status = nothing
		return out, nil
	}
	out.Status = stopped
	if ans.proved {
		out.Status = proved
	}
	solution := filepath.Join(dir, g.name+".sol")
	if err := writeFile(solution, func(w io.Writer) error { return writeValues(w, m, ans.values) }); err != nil {
		return out, err
	}
	if out.checked, err = verifyFiles(r.model, solution, theirTolerance); err != nil {
		return failure(out, err), nil
	}
	return out, nil
}

func failure(out found, err error) found {
	out.Status, out.Why = failed, err.Error()
	return out
}

// runFor runs a program, and ends it when it has had its time.
func runFor(ctx context.Context, program string, args []string, seconds float64) ([]byte, error) {
	ctx, stop := context.WithTimeout(ctx, time.Duration(seconds*float64(time.Second)))
	defer stop()
	said, err := exec.CommandContext(ctx, program, args...).CombinedOutput()
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return said, fmt.Errorf("it did not stop at its limit")
	}
	if err != nil {
		lines := bytes.Split(bytes.TrimSpace(said), []byte("\n"))
		return said, fmt.Errorf("%w: %s", err, lines[len(lines)-1])
	}
	return said, nil
}

func writeValues(w io.Writer, m mps.Model, values map[string]float64) error {
	b := bufio.NewWriter(w)
	for _, c := range m.Columns {
		fmt.Fprintf(b, "%s %s\n", c.Name, strconv.FormatFloat(values[c.Name], 'g', -1, 64))
	}
	return b.Flush()
}

// fieldsOf are the words of each line of a file that has any.
func fieldsOf(name string) ([][]string, error) {
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var all [][]string
	for line := range strings.Lines(string(text)) {
		if f := strings.Fields(line); len(f) > 0 {
			all = append(all, f)
		}
	}
	return all, nil
}

func zeros(m mps.Model) map[string]float64 {
	v := make(map[string]float64, len(m.Columns))
	for _, c := range m.Columns {
		v[c.Name] = 0
	}
	return v
}
