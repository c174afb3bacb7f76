package main

import (
	"fmt"
	"os"

	"tuckup/optimize/mps"
)

// By how much a solution may miss a row, a bound or a whole number. Ours promises a millionth. Others promise it too, but of
// scaled rows, and print few digits: eight of them, at 120 minutes an area, put a week's hours off by a hundred-thousandth.
const (
	ourTolerance   = 1e-6
	theirTolerance = 1e-4
)

// checked is what the files say of a solution, computed from their text alone.
type checked struct {
	Points    float64 `json:"points"`
	Violation float64 `json:"violation"`
	Worst     string  `json:"worst,omitempty"` // the row or column that is missed by most
	Fraction  float64 `json:"fraction"`        // farthest from a whole number of what must be whole
	Holds     bool    `json:"holds"`
}

// verifyFiles reads a model file and a solution and computes what the solution is worth and what it breaks.
func verifyFiles(model, solution string, tolerance float64) (checked, error) {
	m, err := readModel(model)
	if err != nil {
		return checked{}, err
	}
	f, err := os.Open(solution)
	if err != nil {
		return checked{}, err
	}
	defer f.Close()
	x, err := mps.ReadSolution(f)
	if err != nil {
		return checked{}, fmt.Errorf("%s: %w", solution, err)
	}
	v, err := mps.Verify(m, x)
	if err != nil {
		return checked{}, fmt.Errorf("%s: %w", solution, err)
	}
	return checked{
		Points: -v.Objective, Violation: v.Violation, Worst: v.Worst, Fraction: v.Fraction,
		Holds: v.Violation <= tolerance && v.Fraction <= tolerance,
	}, nil
}

func readModel(name string) (mps.Model, error) {
	f, err := os.Open(name)
	if err != nil {
		return mps.Model{}, err
	}
	defer f.Close()
	m, err := mps.Read(f)
	if err != nil {
		return m, fmt.Errorf("%s: %w", name, err)
	}
	return m, nil
}
