package main

import (
	_ "embed"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/mps"
)

// highsRunner loads the npm package, which holds HiGHS compiled to WebAssembly, on one thread, and reads the model file as
// it is.
//
//go:embed highs.cjs
var highsRunner []byte

// highsPackage is where npm puts the package below a folder.
func highsPackage(folder string) string { return filepath.Join(folder, "node_modules", "highs") }

func highsMissing(folder string) string {
	if folder == "" {
		return "highs needs --highs FOLDER, the folder in which `npm install highs` was done"
	}
	if _, err := os.Stat(filepath.Join(highsPackage(folder), "package.json")); err != nil {
		return "highs is not in " + folder + " (npm install highs there)"
	}
	return ""
}

func highsCommand(r runOf) ([]string, error) {
	runner := filepath.Join(r.dir, "highs.cjs")
	if err := os.WriteFile(runner, highsRunner, fileMode); err != nil {
		return nil, err
	}
	folder, err := filepath.Abs(highsPackage(r.highs))
	if err != nil {
		return nil, err
	}
	return []string{runner, folder, r.model, r.answer, kennel.Number(r.seconds), kennel.Number(relativeGap)}, nil
}

// readHiGHS reads the runner's file: `# status S`, `# bound B`, and `name value` lines if it found a solution.
func readHiGHS(r runOf, m mps.Model) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	text, err := os.ReadFile(r.answer)
	if err != nil {
		return a, err
	}
	status := ""
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(line)
		switch {
		case len(f) == 3 && f[0] == "#" && f[1] == "status":
			status = f[2]
		case len(f) == 3 && f[0] == "#" && f[1] == "bound":
			if x, err := strconv.ParseFloat(f[2], 64); err == nil {
				a.bound = x
			}
		}
	}
	switch status {
	case "optimal":
		a.proved = true
	case "timeLimit":
	default:
		return a, fmt.Errorf("it says status %q of a season that has a plan", status)
	}
	values, err := mps.ReadSolution(strings.NewReader(string(text)))
	if err != nil {
		return a, err
	}
	if len(values) == 0 {
		a.proved = false
		return a, nil
	}
	a.values = zeros(m)
	for _, c := range m.Columns {
		x, ok := values[c.Name]
		if !ok {
			return a, fmt.Errorf("no value of %s", c.Name)
		}
		a.values[c.Name] = x
	}
	return a, nil
}
