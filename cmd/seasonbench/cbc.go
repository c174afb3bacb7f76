package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/mps"
)

// cbcCommand gives CBC both cores of a small machine, and time by the clock on the wall.
func cbcCommand(r runOf) ([]string, error) {
	return []string{
		r.model, "-threads", "2", "-timeMode", "elapsed", "-sec", kennel.Number(r.seconds), "-ratio", kennel.Number(relativeGap), "-allow", "1e-9",
		"-primalT", "1e-9", "-integerT", "1e-9", "-solve", "-solu", r.answer,
	}, nil
}

// readCBC reads the answer file, `STATUS - objective value X`, then index, name, value and reduced cost of the columns
// that aren't 0, with ** before those that are off; and the last `Lower bound:` of what it printed.
func readCBC(r runOf, m mps.Model) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	lines, err := fieldsOf(r.answer)
	if err != nil {
		return a, err
	}
	if len(lines) == 0 {
		return a, fmt.Errorf("an empty answer")
	}
	head := strings.Join(lines[0], " ")
	a.proved = strings.HasPrefix(head, "Optimal")
	for line := range strings.Lines(string(r.said)) {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(line), "Lower bound:"); ok {
			if x, err := strconv.ParseFloat(strings.TrimSpace(rest), 64); err == nil {
				a.bound = x
			}
		}
	}
	switch {
	case strings.Contains(head, "Infeasible") || strings.Contains(head, "infeasible"):
		return a, fmt.Errorf("it says %q of a season that has a plan", head)
	case strings.Contains(head, "no integer solution"), !a.proved && !strings.HasPrefix(head, "Stopped"):
		return a, nil
	}
	if a.proved {
		if x, err := strconv.ParseFloat(lines[0][len(lines[0])-1], 64); err == nil {
			a.bound = x
		}
	}
	a.values = zeros(m)
	for _, l := range lines[1:] {
		if l[0] == "**" {
			l = l[1:]
		}
		if len(l) != 4 {
			return a, fmt.Errorf("a line %q", l)
		}
		if _, known := a.values[l[1]]; !known {
			return a, fmt.Errorf("a value of %s", l[1])
		}
		if a.values[l[1]], err = strconv.ParseFloat(l[2], 64); err != nil {
			return a, err
		}
	}
	return a, nil
}
