package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tuckup/optimize/season"
	"tuckup/optimize/season/made"
)

// The class warm plans one season twice, and both plans are checked from the same model file.
func TestWarmIsMendedFromTheSeasonBefore(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	i := instance{Class: warm, Seed: 3, Shape: shape(3, 8, 1)}
	dir := t.TempDir()
	a := &app{err: &strings.Builder{}, now: time.Now}
	r, err := a.one(t.Context(), flags{keep: dir}, i, nil)
	if err != nil {
		t.Fatal(err)
	}
	kept := filepath.Join(dir, strings.ReplaceAll(i.String(), " ", "-"))
	v, err := verifyFiles(modelIn(kept), filepath.Join(kept, "again.sol"), ourTolerance)
	if err != nil || r.Mended == nil || v != r.Mended.checked || !v.Holds || len(r.wrongs()) > 0 {
		t.Fatalf("%v, %+v, %q", err, r.Mended, r.wrongs())
	}
	model, err := os.ReadFile(modelIn(kept))
	if err != nil {
		t.Fatal(err)
	}
	var before strings.Builder
	if err := season.WriteMPS(&before, made.RandomString(i.Seed, i.Shape)); err != nil {
		t.Fatal(err)
	}
	if before.String() == string(model) {
		t.Error("the season is the one before")
	}
	wrong := r
	m := *r.Mended
	m.Points *= 2
	wrong.Mended = &m
	if len(wrong.wrongs()) == 0 {
		t.Error("a mended plan past its bound passes")
	}
}

func TestSummaryOfWarm(t *testing.T) {
	of := func(cold, mended, seconds float64) result {
		return result{
			instance: instance{Class: warm}, Ours: ours{checked: checked{Points: cold}, Seconds: 2},
			Mended: &ours{checked: checked{Points: mended}, Seconds: seconds},
		}
	}
	s := summariseWarm([]result{of(10, 10.1, 0.2), of(10, 9.985, 0.4), of(10, 9.9, 0.3), {instance: instance{Class: "tight12"}}})
	if s.Seasons != 3 || s.Near != 2 || s.Quick != 2 || math.Abs(s.Least+0.01) > 1e-12 || math.Abs(s.More+0.0005) > 1e-12 || math.Abs(s.Seconds-0.3) > 1e-12 || s.Cold != 2 {
		t.Errorf("%+v", s)
	}
	if summariseWarm(nil) != nil {
		t.Error("a summary of nothing")
	}
}
