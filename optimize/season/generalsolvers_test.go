package season

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"tuckup/optimize/mps"
)

// proof is the optimum that a general solver proved.
type proof struct {
	cost   float64            // of the model file
	values map[string]float64 // of every column
}

// generalSolver is an installed program that solves model files to the end.
type generalSolver struct {
	program, install string
	arguments        func(model, answer string) []string
	read             func(answer string, m mps.Model) (proof, bool, error) // false: it stopped before the proof
}

var generalSolvers = []generalSolver{
	{
		program: "cbc", install: "coinor-cbc",
		arguments: func(model, answer string) []string {
			return []string{
				model, "ratio", "0", "allow", "1e-9", "increment", "1e-9", "integerT", "1e-9", "primalT", "1e-9",
				"sec", "60", "solve", "solu", answer,
			}
		},
		read: readCBC,
	},
	{
		program: "glpsol", install: "glpk-utils",
		arguments: func(model, answer string) []string {
			return []string{"--freemps", model, "--cuts", "--tmlim", "60", "-w", answer}
		},
		read: readGLPK,
	},
}

// needSolver skips the test where a general solver isn't installed; where CI=true it fails.
func needSolver(t *testing.T, s generalSolver) {
	t.Helper()
	if _, err := exec.LookPath(s.program); err == nil {
		return
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed (Debian: apt-get install %s)", s.program, s.install)
	}
	t.Skipf("%s is not installed, nothing to compare with (Debian: apt-get install %s)", s.program, s.install)
}

// prove solves a problem's model file with a general solver; false when it didn't finish in time.
func (s generalSolver) prove(t *testing.T, p *Problem) (proof, bool) {
	t.Helper()
	text, m := mpsOf(t, p)
	dir := t.TempDir()
	model, answer := filepath.Join(dir, "season.mps"), filepath.Join(dir, "answer")
	if err := os.WriteFile(model, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(context.Background(), 90*time.Second)
	defer stop()
	out, err := exec.CommandContext(ctx, s.program, s.arguments(model, answer)...).CombinedOutput()
	var exit *exec.ExitError
	if ctx.Err() != nil || errors.As(err, &exit) && exit.ExitCode() < 0 { // out of time, or it broke down by itself
		t.Logf("%s did not finish: %v", s.program, err)
		return proof{}, false
	}
	if err != nil {
		t.Fatalf("%s: %v\n%s", s.program, err, out)
	}
	found, finished, err := s.read(answer, m)
	if err != nil {
		t.Fatalf("%s: %v\n%s", s.program, err, out)
	}
	return found, finished
}

// readCBC reads `Optimal - objective value X`, then index, name, value and reduced cost of the columns that aren't 0,
// with ** before those that are off.
func readCBC(answer string, m mps.Model) (proof, bool, error) {
	lines, err := fileLines(answer)
	if err != nil {
		return proof{}, false, err
	}
	if len(lines) == 0 || len(lines[0]) == 0 {
		return proof{}, false, fmt.Errorf("an empty answer")
	}
	if lines[0][0] == "Stopped" {
		return proof{}, false, nil
	}
	if lines[0][0] != "Optimal" {
		return proof{}, false, fmt.Errorf("the answer is %q", lines[0])
	}
	f := proof{values: map[string]float64{}}
	if f.cost, err = strconv.ParseFloat(lines[0][len(lines[0])-1], 64); err != nil {
		return proof{}, false, err
	}
	for _, c := range m.Columns {
		f.values[c.Name] = 0
	}
	for _, l := range lines[1:] {
		if l[0] == "**" {
			l = l[1:]
		}
		if len(l) != 4 {
			return proof{}, false, fmt.Errorf("a line %q", l)
		}
		if _, known := f.values[l[1]]; !known {
			return proof{}, false, fmt.Errorf("a value of %s", l[1])
		}
		if f.values[l[1]], err = strconv.ParseFloat(l[2], 64); err != nil {
			return proof{}, false, err
		}
	}
	return f, true, nil
}

// readGLPK reads `s mip rows columns status cost` (o = optimal) and `j column value`, columns counted from 1.
func readGLPK(answer string, m mps.Model) (proof, bool, error) {
	lines, err := fileLines(answer)
	if err != nil {
		return proof{}, false, err
	}
	f := proof{values: map[string]float64{}}
	status := ""
	for _, l := range lines {
		switch {
		case l[0] == "s" && len(l) == 6 && l[1] == "mip":
			status = l[4]
			if f.cost, err = strconv.ParseFloat(l[5], 64); err != nil {
				return proof{}, false, err
			}
		case l[0] == "j" && len(l) == 3:
			j, err := strconv.Atoi(l[1])
			if err != nil || j < 1 || j > len(m.Columns) {
				return proof{}, false, fmt.Errorf("a line %q", l)
			}
			if f.values[m.Columns[j-1].Name], err = strconv.ParseFloat(l[2], 64); err != nil {
				return proof{}, false, err
			}
		}
	}
	switch {
	case status == "f" || status == "u":
		return proof{}, false, nil
	case status != "o":
		return proof{}, false, fmt.Errorf("the status is %q", status)
	case len(f.values) != len(m.Columns):
		return proof{}, false, fmt.Errorf("%d values of %d columns", len(f.values), len(m.Columns))
	}
	return f, true, nil
}

func fileLines(name string) ([][]string, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var all [][]string
	s := bufio.NewScanner(f)
	for s.Scan() {
		if l := strings.Fields(s.Text()); len(l) > 0 {
			all = append(all, l)
		}
	}
	return all, s.Err()
}

// planOf is the plan in a general solver's answer, its sessions rounded.
func planOf(p *Problem, values map[string]float64) Plan {
	plan := NewPlan(p)
	for d, dog := range p.Dogs {
		for t := range p.Weeks {
			plan.Sessions[d][t] = int(math.Round(values[fmt.Sprintf("z_dog_%d_%02d", d+1, t)]))
		}
		for a := range dog.Areas {
			before := dog.Areas[a].PastAt(0)
			for t := range p.Weeks {
				name := strings.ReplaceAll(dog.Areas[a].Name, " ", "_")
				now := values[fmt.Sprintf("P_dog_%d_%s_%02d", d+1, name, t)]
				plan.Shares[d][a][t] = now - before
				before = now
			}
		}
	}
	return plan
}

// smallSeason is a random season that general solvers finish: 2 or 3 dogs of 3 areas over 6 to 8 weeks, each area in one session a week
// in every fifth, and work agreed on in every fourth.
func smallSeason(seed uint64) *Problem {
	p := RandomSized(seed, 2+int(seed%2), 3, 3, 6+int(seed%3), []float64{0.3, 0.5, 0.8}[seed%3])
	if seed%5 == 1 {
		oneSession(p)
	}
	if seed%4 == 2 {
		agree(p, 0.06)
	}
	return p
}

// scale is what a difference of points is measured by.
func scale(points float64) float64 { return math.Max(1, math.Abs(points)) }

// minuteSlack is by how much of a unit of its row (a minute, in those of hours and sessions) an answer may pass it: general
// solvers hold rows to 1e-7 of their own scaling, and rows of a hundred minutes come out at a few thousandths of a second.
const minuteSlack = 1e-4

// Both solvers find the same optimum of the exported model, and it is the value that the definition gives their plans,
// which are allowed.
func TestExportedModelHasOneOptimum(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	for _, s := range generalSolvers {
		needSolver(t, s)
	}
	compared := 0
	for seed := range uint64(16) {
		p := smallSeason(seed)
		_, m := mpsOf(t, p)
		var costs []float64
		for _, s := range generalSolvers {
			found, finished := s.prove(t, p)
			if !finished {
				continue
			}
			costs = append(costs, found.cost)
			v, err := mps.Verify(m, found.values)
			if err != nil {
				t.Fatal(err)
			}
			if v.Violation > minuteSlack || v.Fraction > 1e-5 || math.Abs(v.Objective-found.cost) > 1e-6*scale(found.cost) {
				t.Errorf("seed %d, %s: it says %.9g, but its answer gives %+v", seed, s.program, found.cost, v)
			}
			plan := planOf(p, found.values)
			if got := Violations(p, plan, 1e-5); got != nil {
				t.Errorf("seed %d, %s: its plan breaks %q", seed, s.program, got)
			}
			if got := Evaluate(p, plan); math.Abs(got+found.cost) > 1e-5*scale(got) {
				t.Errorf("seed %d, %s: it says %.9g, but its plan is worth %.9g", seed, s.program, -found.cost, got)
			}
		}
		if len(costs) == 2 {
			compared++
			if math.Abs(costs[0]-costs[1]) > 1e-6*scale(costs[0]) {
				t.Errorf("seed %d: the optimum is %.9g by one and %.9g by the other", seed, costs[0], costs[1])
			}
		}
	}
	if compared < 12 {
		t.Errorf("only %d of 16 seasons were finished by both", compared)
	}
}
