package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// The exit codes.
const (
	codeDone   = 0
	codeFailed = 1 // something could not be measured, or an answer did not pass its check
	codeUsage  = 2 // wrong use; nothing was measured
)

// app is the program with the world that it works in.
type app struct {
	out, err io.Writer
	now      func() time.Time
}

// usageError is wrong use: one sentence and what to try instead.
type usageError struct{ what, try string }

func (e *usageError) Error() string { return e.what }

func usage(try, what string, args ...any) error {
	return &usageError{what: fmt.Sprintf(what, args...), try: try}
}

// run does what the arguments ask and returns the exit code.
func (a *app) run(ctx context.Context, args []string) int {
	c := a.command()
	c.SetArgs(args)
	c.SetOut(a.out)
	c.SetErr(a.err)
	err := c.ExecuteContext(ctx)
	var wrong *usageError
	switch {
	case err == nil:
		return codeDone
	case errors.As(err, &wrong):
		fmt.Fprintf(a.err, "seasonbench: %s\nTry: %s\n", wrong.what, wrong.try)
		return codeUsage
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(a.err, "seasonbench: stopped before all was measured\n")
		return codeFailed
	}
	fmt.Fprintf(a.err, "seasonbench: %v\n", err)
	return codeFailed
}

// flags are what a person may set.
type flags struct {
	classes []string
	solvers []string
	seeds   int
	first   uint64
	heldOut bool
	small   int
	most    int
	limits  limits
	limit   float64
	highs   string
	json    string
	keep    string
	log     string  // file of lived seasons
	effort  float64 // looks at the stopwatch that a lived plan gets; 0 = no limit
}

func (a *app) command() *cobra.Command {
	var f flags
	c := &cobra.Command{
		Use:   "seasonbench",
		Short: "Measure the season solver beside general solvers",
		Long: "seasonbench makes seasons from seeds, plans them, writes them as model files, gives the same files to the general " +
			"solvers that are installed, and checks every answer from the text of the model and the solution, without the " +
			"solver. It prints one table.\n\nClasses of seasons:\n" + classList() +
			"\nA general solver gets --factor times our time, never less than --floor and never more than --cap seconds.\n" +
			"Exit codes: 0 done; 1 failed, or an answer of ours did not pass its check; 2 wrong use.",
		Example: "  go run ./cmd/seasonbench\n" +
			"  go run ./cmd/seasonbench --class tight12 --seeds 3 --solvers cbc,glpk\n" +
			"  go run ./cmd/seasonbench --class small --small 200 --solvers highs --highs ~/solvers --json small.json\n" +
			"  go run ./cmd/seasonbench --class scaling --solvers none",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage("seasonbench --help", "seasonbench takes no word like %q", args[0])
			}
			return nil
		},
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := f.check(); err != nil {
				return err
			}
			return a.measure(c.Context(), f)
		},
	}
	c.CompletionOptions.DisableDefaultCmd = true
	c.SetFlagErrorFunc(func(_ *cobra.Command, err error) error {
		return usage("seasonbench --help", "%s", strings.Join(strings.Fields(err.Error()), " "))
	})
	l := c.Flags()
	l.StringSliceVar(&f.classes, "class", []string{"small", "tight12"}, "classes of seasons, or all")
	l.StringSliceVar(&f.solvers, "solvers", []string{"cbc", "glpk", "highs"}, "general solvers, or none; those not installed are left out")
	l.IntVar(&f.seeds, "seeds", 1, "seasons of each class, 1 and more")
	l.Uint64Var(&f.first, "first", 1, "first seed")
	l.BoolVar(&f.heldOut, "held-out", false, "the seeds from 1001 on, with which no choice in the solver was made; --first counts from there")
	l.IntVar(&f.small, "small", 20, "seasons of the class small")
	l.IntVar(&f.most, "most-dogs", 80, "strings of the class scaling with more dogs are left out")
	l.Float64Var(&f.limits.factor, "factor", 60, "how many times our time a general solver gets")
	l.Float64Var(&f.limits.floor, "floor", 60, "the least seconds that it gets")
	l.Float64Var(&f.limits.cap, "cap", 600, "the most seconds that it gets")
	l.Float64Var(&f.limit, "limit", 0, "seconds that our solver gets; 0 = no limit")
	l.StringVar(&f.highs, "highs", "", "folder in which the npm package highs is installed")
	l.StringVar(&f.json, "json", "", "file for all figures as JSON")
	l.StringVar(&f.log, "log", "", "file to which lived seasons are added; those in it are not lived again")
	l.Float64Var(&f.effort, "effort", 0, "how much each plan of a lived season is sought, in looks at a counted stopwatch; 0 sets no limit")
	l.StringVar(&f.keep, "keep", "", "folder in which model files and solutions are left")
	return c
}

// heldOutFrom is the first of the seeds that no choice is made with.
const heldOutFrom = 1001

// check takes the seeds held out, and refuses what can't be measured.
func (f *flags) check() error {
	if f.heldOut {
		f.first += heldOutFrom - 1
	}
	if slices.Equal(f.classes, []string{"all"}) {
		f.classes = classNames()
	}
	for _, c := range f.classes {
		if !slices.Contains(classNames(), c) {
			return usage("--class "+strings.Join(classNames(), ",")+" or some of them", "--class %q is not a class of seasons", c)
		}
	}
	if len(f.classes) == 0 {
		return usage("--class tight12", "--class names no class")
	}
	if slices.Equal(f.solvers, []string{"none"}) {
		f.solvers = nil
	}
	for _, s := range f.solvers {
		if !slices.Contains(solverNames(), s) {
			return usage("--solvers "+strings.Join(solverNames(), ",")+", some of them, or none", "--solvers %q is not a general solver that is known here", s)
		}
	}
	for _, n := range []struct {
		flag         string
		value, least float64
	}{
		{"seeds", float64(f.seeds), 1},
		{"small", float64(f.small), 1},
		{"most-dogs", float64(f.most), 5},
		{"factor", f.limits.factor, 0},
		{"floor", f.limits.floor, 0},
		{"cap", f.limits.cap, 0},
		{"limit", f.limit, 0},
		{"effort", f.effort, 0},
	} {
		if !(n.value >= n.least) {
			return usage("--"+n.flag+" "+strconv.FormatFloat(n.least, 'g', -1, 64)+" or more", "--%s %v is too little", n.flag, n.value)
		}
	}
	if f.limits.cap < f.limits.floor {
		return usage("a --cap of at least the --floor", "--cap %v is less than --floor %v", f.limits.cap, f.limits.floor)
	}
	return nil
}
