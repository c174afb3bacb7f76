package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// report is all that was measured.
type report struct {
	On       string         `json:"on"` // RFC 3339
	Go       string         `json:"go"`
	Cores    int            `json:"cores"`
	Settings map[string]any `json:"settings"`
	Missing  []string       `json:"missing,omitempty"` // general solvers that were asked for and are not there
	Results  []result       `json:"results"`
	Small    *smallSummary  `json:"small,omitempty"`
	Warm     *warmSummary   `json:"warm,omitempty"`
	Scaling  []fit          `json:"scaling,omitempty"`
	Tuned    []tuned        `json:"tuned,omitempty"`
	Summary  []livedSummary `json:"lived_summary,omitempty"`
	Lived    []livedSeason  `json:"lived,omitempty"`
}

// result is one season with what every solver made of it.
type result struct {
	instance
	Ours    ours    `json:"tuckup"`
	Mended  *ours   `json:"mended,omitempty"` // the class warm: begun with the plan of the season before
	General []found `json:"general,omitempty"`
}

// measure does what the flags ask, prints the table, and writes the JSON file. What was measured before a failure or an
// interrupt is printed too.
func (a *app) measure(ctx context.Context, f flags) error {
	if err := f.files(); err != nil {
		return err
	}
	rep := report{
		On: a.now().UTC().Format(time.RFC3339), Go: runtime.Version(), Cores: runtime.GOMAXPROCS(0),
		Settings: map[string]any{
			"classes": f.classes, "seeds": f.seeds, "first": f.first, "small": f.small, "factor": f.limits.factor,
			"floor": f.limits.floor, "cap": f.limits.cap, "limit": f.limit, "effort": f.effort,
		},
	}
	var solvers []general
	for _, g := range generals {
		if !slices.Contains(f.solvers, g.name) {
			continue
		}
		if why := g.missing(f); why != "" {
			rep.Missing = append(rep.Missing, why)
			fmt.Fprintf(a.err, "left out: %s\n", why)
			continue
		}
		solvers = append(solvers, g)
	}
	failure := a.measureAll(ctx, f, solvers, &rep)
	rep.Small = summarise(rep.Results)
	rep.Warm = summariseWarm(rep.Results)
	rep.Scaling = fits(rep.Results)
	rep.Summary = summariseLived(rep.Lived)
	if err := rep.print(a.out); err != nil {
		return err
	}
	if f.json != "" {
		if err := writeFile(f.json, rep.writeJSON); err != nil {
			return err
		}
	}
	if failure != nil {
		return failure
	}
	return rep.wrong()
}

// files refuses places where nothing can be written, before hours are spent.
func (f *flags) files() error {
	if f.json != "" {
		if _, err := os.Stat(filepath.Dir(f.json)); err != nil {
			return usage("a file in a folder that is there", "there is no folder for --json %q", f.json)
		}
	}
	if f.log != "" {
		if _, err := os.Stat(filepath.Dir(f.log)); err != nil {
			return usage("a file in a folder that is there", "there is no folder for --log %q", f.log)
		}
	}
	if f.keep != "" {
		if info, err := os.Stat(f.keep); err != nil || !info.IsDir() {
			return usage("a folder that is there", "--keep %q is not a folder", f.keep)
		}
	}
	if f.highs != "" {
		if _, err := os.Stat(f.highs); errors.Is(err, fs.ErrNotExist) {
			return usage("the folder in which `npm install highs` was done", "there is no folder --highs %q", f.highs)
		}
	}
	return nil
}

func (a *app) measureAll(ctx context.Context, f flags, solvers []general, rep *report) error {
	for _, name := range f.classes {
		if name == livedClass {
			if err := a.live(ctx, f, rep); err != nil {
				return err
			}
		}
		for _, i := range classNamed(name).seasons(f) {
			r, err := a.one(ctx, f, i, solvers)
			if err != nil {
				return fmt.Errorf("%s: %w", i, err)
			}
			rep.Results = append(rep.Results, r)
		}
	}
	return nil
}

// one measures one season in a folder of its own.
func (a *app) one(ctx context.Context, f flags, i instance, solvers []general) (r result, err error) {
	dir := filepath.Join(f.keep, strings.ReplaceAll(i.String(), " ", "-"))
	if f.keep == "" {
		if dir, err = os.MkdirTemp("", "seasonbench-"); err != nil {
			return r, err
		}
		defer os.RemoveAll(dir) //nolint:errcheck // a folder of passing files
	} else if err := os.MkdirAll(dir, 0o755); err != nil {
		return r, err
	}
	r.instance = i
	if r.Ours, err = a.solveOurs(ctx, i.problem(), nil, dir, f.limit); err != nil {
		return r, err
	}
	fmt.Fprintf(a.err, "%s: tuckup %.2f points, gap %.2f %%, %.2f s\n", i, r.Ours.Points, 100*r.Ours.Gap, r.Ours.Seconds)
	switch i.Class {
	case scaling:
		return r, nil
	case warm:
		m, err := a.mend(ctx, i, dir, f.limit)
		r.Mended = &m
		return r, err
	}
	for _, g := range solvers {
		seconds := f.limits.seconds(r.Ours.Seconds)
		fmt.Fprintf(a.err, "%s: %s has %.0f s\n", i, g.name, seconds)
		x, err := a.solve(ctx, g, f, dir, seconds)
		if err != nil {
			return r, err
		}
		r.General = append(r.General, x)
		fmt.Fprintf(a.err, "%s: %s %s\n", i, g.name, x.remark())
		if i.Class == "small" && x.Status == proved && x.Holds {
			break // one proof is enough
		}
	}
	return r, nil
}

// boundTolerance is the relative amount by which a solution that misses rows by the tolerance may pass a valid bound.
const boundTolerance = 1e-5

func relative(x, of float64) float64 { return x / math.Max(1, math.Abs(of)) }

// best is the best general solver's solution that holds.
func (r result) best() (best found, ok bool) {
	for _, g := range r.General {
		if g.Holds && (!ok || g.Points > best.Points) {
			best, ok = g, true
		}
	}
	return best, ok
}

// wrongs says what of our answer is not true.
func (r result) wrongs() (all []string) {
	if r.Mended != nil {
		all = r.wrongsOf(*r.Mended)
	}
	return append(all, r.wrongsOf(r.Ours)...)
}

func (r result) wrongsOf(o ours) (all []string) {
	if !o.Holds {
		all = append(all, fmt.Sprintf("the plan misses %s by %.3g, a whole number by %.3g", o.Worst, o.Violation, o.Fraction))
	}
	if math.Abs(relative(o.Said-o.Points, o.Points)) > 1e-6 {
		all = append(all, fmt.Sprintf("the solver says %.9g points, the files %.9g", o.Said, o.Points))
	}
	for _, x := range []*ours{&r.Ours, r.Mended} {
		if x != nil && relative(x.Points-o.Bound, o.Bound) > boundTolerance {
			all = append(all, fmt.Sprintf("we have a plan of %.9g points, past the bound of %.9g", x.Points, o.Bound))
		}
	}
	if b, ok := r.best(); ok && relative(b.Points-o.Bound, o.Bound) > boundTolerance {
		all = append(all, fmt.Sprintf("%s has a plan of %.9g points, past the bound of %.9g", b.Solver, b.Points, o.Bound))
	}
	return all
}

// wrong is an error if any of our answers did not pass its check.
func (rep *report) wrong() error {
	var all []string
	for _, r := range rep.Results {
		for _, w := range r.wrongs() {
			all = append(all, r.String()+": "+w)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return fmt.Errorf("answers that did not pass their check:\n%s", strings.Join(all, "\n"))
}
