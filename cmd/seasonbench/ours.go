package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"tuckup/optimize/season"
)

// ours is what our solver did with a season.
type ours struct {
	checked
	Said    float64 `json:"said"`  // points that the solver claims
	Bound   float64 `json:"bound"` // points that no plan can pass
	Gap     float64 `json:"gap"`   // (bound - points) / max(1, |bound|)
	Seconds float64 `json:"seconds"`
	First   float64 `json:"first_seconds"` // until a plan within a hundredth of the last was at hand
	Cut     bool    `json:"cut,omitempty"`
	Rounds  int     `json:"rounds"`
	Memory  memory  `json:"memory"`
}

// solveOurs plans a season, writes model and plan into the folder, and checks one by the other. A plan to begin with is
// mended; nil = none.
func (a *app) solveOurs(ctx context.Context, p *season.Problem, start *season.Plan, dir string, limit float64) (ours, error) {
	freshPeak()
	began := a.now()
	var story []season.Progress
	clock := func() float64 { return a.now().Sub(began).Seconds() }
	r, err := season.Solve(ctx, p, season.Options{
		Seconds: clock, Limit: limit, Start: start, Progress: func(g season.Progress) { story = append(story, g) },
	})
	seconds := clock()
	if err != nil {
		return ours{}, err
	}
	if ctx.Err() != nil {
		return ours{}, ctx.Err()
	}
	o := ours{
		Said: r.Objective, Bound: r.Bound, Gap: r.Gap, Seconds: seconds, First: seconds, Cut: r.Cut,
		Rounds: r.Rounds, Memory: memoryNow(),
	}
	for _, g := range story {
		if g.Objective >= r.Objective-0.01*max(1, r.Objective, -r.Objective) {
			o.First = g.Seconds
			break
		}
	}
	if err := writeFile(modelIn(dir), func(w io.Writer) error { return season.WriteMPS(w, p) }); err != nil {
		return o, err
	}
	solution := filepath.Join(dir, "tuckup.sol")
	if start != nil {
		solution = filepath.Join(dir, "again.sol")
	}
	if err := writeFile(solution, func(w io.Writer) error { return season.WriteSolution(w, p, r.Plan) }); err != nil {
		return o, err
	}
	o.checked, err = verifyFiles(modelIn(dir), solution, ourTolerance)
	return o, err
}

func modelIn(dir string) string { return filepath.Join(dir, "season.mps") }

// fileMode is how files are written: the owner may change them, everybody may read them.
const fileMode = 0o644

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.OpenFile(name, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, fileMode)
	if err != nil {
		return err
	}
	err = write(f)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
