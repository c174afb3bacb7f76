package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tuckup/optimize/season/made"
)

// runWith runs the program and returns what it printed, what it said, and its exit code.
func runWith(args ...string) (out, said string, code int) {
	var o, e bytes.Buffer
	code = (&app{out: &o, err: &e, now: time.Now}).run(context.Background(), args)
	return o.String(), e.String(), code
}

func TestWrongUse(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--class", "tight13"}, `--class "tight13"`},
		{[]string{"--class", ""}, "--class names no class"},
		{[]string{"--solvers", "abc"}, `--solvers "abc"`},
		{[]string{"--solvers", "none,cbc"}, `--solvers "none"`},
		{[]string{"--seeds", "0"}, "--seeds 0"},
		{[]string{"--seeds", "two"}, "two"},
		{[]string{"--small", "-1"}, "--small -1"},
		{[]string{"--factor", "NaN"}, "--factor NaN"},
		{[]string{"--floor", "100", "--cap", "50"}, "--cap 50 is less than --floor 100"},
		{[]string{"--limit", "-1"}, "--limit -1"},
		{[]string{"--json", "no/such/folder/a.json"}, `--json "no/such/folder/a.json"`},
		{[]string{"--keep", "no/such/folder"}, `--keep "no/such/folder"`},
		{[]string{"--highs", "no/such/folder"}, `--highs "no/such/folder"`},
		{[]string{"--quick"}, "--quick"},
		{[]string{"tight12"}, `"tight12"`},
	} {
		out, said, code := runWith(c.args...)
		if code != codeUsage || out != "" || !strings.Contains(said, c.want) || !strings.Contains(said, "\nTry: ") {
			t.Errorf("%q: code %d, printed %q, said %q", c.args, code, out, said)
		}
	}
}

func TestHelpNamesEveryClassAndFlag(t *testing.T) {
	out, _, code := runWith("--help")
	if code != codeDone {
		t.Fatalf("code %d", code)
	}
	for _, want := range append(classNames(), "--class", "--seeds", "--small", "--factor", "--floor", "--cap", "--solvers", "--highs", "--json", "--keep", "Examples:") {
		if !strings.Contains(out, want) {
			t.Errorf("the help has no %s", want)
		}
	}
}

// Seeds that are held out are others than those that are not.
func TestHeldOutSeeds(t *testing.T) {
	for _, held := range []bool{false, true} {
		f := flags{classes: []string{"scarce"}, seeds: 2, first: 3, heldOut: held, small: 1, most: 80}
		f.limits.factor, f.limits.floor, f.limits.cap = 1, 1, 1
		if err := f.check(); err != nil {
			t.Fatal(err)
		}
		want := uint64(3)
		if held {
			want = 1003
		}
		if all := classNamed("scarce").seasons(f); len(all) != 2 || all[0].Seed != want || all[1].Seed != want+1 {
			t.Errorf("held out %v: %v", held, all)
		}
	}
}

// A class without general solvers: the plan is checked from its files, which are left where they were asked for, and
// the JSON holds what the table does.
func TestSmallAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "all.json")
	out, said, code := runWith("--class", "small", "--small", "2", "--solvers", "none", "--json", file, "--keep", dir)
	if code != codeDone || !strings.Contains(out, "small: 2 seasons") || !strings.Contains(out, "No general solver proved") {
		t.Fatalf("code %d, printed %q, said %q", code, out, said)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var rep report
	if err := json.Unmarshal(text, &rep); err != nil {
		t.Fatal(err)
	}
	if len(rep.Results) != 2 {
		t.Fatalf("%d results", len(rep.Results))
	}
	for _, r := range rep.Results {
		kept := filepath.Join(dir, strings.ReplaceAll(r.String(), " ", "-"))
		v, err := verifyFiles(modelIn(kept), filepath.Join(kept, "tuckup.sol"), ourTolerance)
		if err != nil || v != r.Ours.checked || !v.Holds || r.Ours.Seconds <= 0 || r.Ours.Bound < v.Points {
			t.Errorf("%s: %v, %+v", r, err, r.Ours)
		}
	}
}

// aPlan writes the files of a planned season and returns their folder and the plan's points.
func aPlan(t *testing.T) (dir string, o ours) {
	t.Helper()
	dir = t.TempDir()
	a := &app{now: time.Now}
	o, err := a.solveOurs(context.Background(), made.RandomString(1, shape(2, 6, 1)), nil, dir, 0)
	if err != nil {
		t.Fatal(err)
	}
	if !o.Holds || math.Abs(o.Said-o.Points) > 1e-9 {
		t.Fatalf("%+v", o)
	}
	return dir, o
}

// A solution that was falsified does not pass: more pulled than the hours hold, half a session, a better charge than
// the coat earns, a column left out, one too many.
func TestFalsifiedSolutionsAreCaught(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	dir, _ := aPlan(t)
	text, err := os.ReadFile(filepath.Join(dir, "tuckup.sol"))
	if err != nil {
		t.Fatal(err)
	}
	set := func(prefix, value string) func(string) string {
		return func(s string) string {
			lines := strings.Split(s, "\n")
			for i, l := range lines {
				if f := strings.Fields(l); len(f) == 2 && strings.HasPrefix(f[0], prefix) && f[1] != value {
					lines[i] = f[0] + " " + value
					return strings.Join(lines, "\n")
				}
			}
			t.Fatalf("no column %s", prefix)
			return s
		}
	}
	for name, c := range map[string]struct {
		falsify func(string) string
		refused bool // by the reader, not by the check
	}{
		"a coat pulled beyond its week": {falsify: set("P_dog_1_back_03", "9")},
		"half a session":                {falsify: set("z_dog_1_00", "0.5")},
		"a charge that is forgiven":     {falsify: set("short_", "-1")},
		"a better least show":           {falsify: set("least_show", "5")},
		"a column left out":             {falsify: func(s string) string { return s[strings.Index(s, "\n")+1:] }, refused: true},
		"an unknown column":             {falsify: func(s string) string { return s + "extra 1\n" }, refused: true},
		"no number":                     {falsify: set("z_dog_1_00", "many"), refused: true},
	} {
		file := filepath.Join(dir, "false.sol")
		if err := os.WriteFile(file, []byte(c.falsify(string(text))), fileMode); err != nil {
			t.Fatal(err)
		}
		v, err := verifyFiles(modelIn(dir), file, theirTolerance)
		if c.refused != (err != nil) || v.Holds {
			t.Errorf("%s: %+v, %v", name, v, err)
		}
	}
}

// What makes the program end with 1: a plan that misses a row, a claim that the files don't bear out, a bound below
// our plan or below somebody's.
func TestWrongAnswersFail(t *testing.T) {
	good := result{
		Ours:    ours{checked: checked{Points: 10, Holds: true}, Said: 10, Bound: 10.5},
		General: []found{{Solver: "cbc", Status: proved, checked: checked{Points: 10.4, Holds: true}}},
	}
	if err := (&report{Results: []result{good}}).wrong(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*result){
		"a plan that misses a row":     func(r *result) { r.Ours.Holds = false },
		"more claimed than there is":   func(r *result) { r.Ours.Said = 10.1 },
		"a bound below our plan":       func(r *result) { r.Ours.Bound, r.General = 9.9, nil },
		"a bound below another's plan": func(r *result) { r.Ours.Bound = 10.3 },
	} {
		bad := good
		spoil(&bad)
		if (&report{Results: []result{bad}}).wrong() == nil {
			t.Errorf("%s passes", name)
		}
		if !strings.Contains(bad.verdict(), "DID NOT PASS") {
			t.Errorf("%s: the verdict is %q", name, bad.verdict())
		}
	}
	unsound := good
	unsound.Ours.Bound, unsound.General[0].Holds = 10.3, false // nothing follows from a plan that is none
	if err := (&report{Results: []result{unsound}}).wrong(); err != nil {
		t.Error(err)
	}
}

func TestLimits(t *testing.T) {
	l := limits{factor: 60, floor: 60, cap: 600}
	for ours, want := range map[float64]float64{0.1: 60, 2: 120, 1000: 600} {
		if got := l.seconds(ours); got != want {
			t.Errorf("%g s: %g, want %g", ours, got, want)
		}
	}
}

// The slope of an exact power law is its exponent, and the chart holds every size.
func TestFit(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	f := fit{Against: "dogs"}
	for _, n := range []float64{5, 10, 20, 40, 80} {
		f.add(n, 0.01*math.Pow(n, 1.25))
	}
	if !f.compute() || math.Abs(f.Slope-1.25) > 1e-9 || math.Abs(f.Seconds1-0.01) > 1e-9 {
		t.Fatalf("%+v", f)
	}
	var b strings.Builder
	f.draw(&b)
	if got := b.String(); strings.Count(got, "o") < 5 || !strings.Contains(got, "slope 1.25") || !strings.Contains(got, "|") {
		t.Errorf("the chart is\n%s", got)
	}
	if one := (&fit{Sizes: []float64{5, 5}, Seconds: []float64{1, 2}}); one.compute() {
		t.Error("a slope from one size")
	}
}

func TestSummaryOfSmall(t *testing.T) {
	of := func(seed uint64, ours_, best float64, status string, bound float64) result {
		return result{
			instance: instance{Class: "small", Seed: seed},
			Ours:     ours{checked: checked{Points: ours_, Holds: true}, Bound: bound},
			General:  []found{{Status: status, checked: checked{Points: best, Holds: true}}},
		}
	}
	s := summarise([]result{
		of(1, 10, 10, proved, 10.1), of(2, 9.9, 10, proved, 10.1), of(3, 10, 11, stopped, 12), of(4, 10, 10.5, proved, 10.2),
		{instance: instance{Class: "tight12"}},
	})
	if s.Seasons != 4 || s.Proved != 3 || s.Within != 1 || s.WorstSeed != 4 || math.Abs(s.Worst-0.5/10.5) > 1e-12 || s.WrongSide != 1 {
		t.Errorf("%+v", s)
	}
	if summarise(nil) != nil {
		t.Error("a summary of nothing")
	}
}

func TestPeakOf(t *testing.T) {
	if got := peakOf("Name:\tx\nVmPeak:\t 999 kB\nVmHWM:\t    2048 kB\n"); got != 2 {
		t.Errorf("%g MB", got)
	}
	if got := peakOf("VmHWM:\t"); got != 0 {
		t.Errorf("%g MB", got)
	}
}
