package main

import (
	"fmt"
	"math"
	"strconv"

	"tuckup/kennel"
	"tuckup/optimize/mps"
)

func glpkCommand(r runOf) ([]string, error) {
	return []string{
		"--freemps", r.model, "--cuts", "--tmlim", strconv.Itoa(int(math.Ceil(r.seconds))),
		"--mipgap", kennel.Number(relativeGap), "-w", r.answer,
	}, nil
}

// readGLPK reads `s mip rows columns status cost` (o = proved, f = stopped with a solution, u = none) and
// `j column value`, columns counted from 1.
func readGLPK(r runOf, m mps.Model) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	lines, err := fieldsOf(r.answer)
	if err != nil {
		return a, err
	}
	status, values := "", zeros(m)
	for _, l := range lines {
		switch {
		case l[0] == "s" && len(l) == 6 && l[1] == "mip":
			status = l[4]
			if status == "o" {
				a.proved = true
				if a.bound, err = strconv.ParseFloat(l[5], 64); err != nil {
					return a, err
				}
			}
		case l[0] == "j" && len(l) == 3:
			j, err := strconv.Atoi(l[1])
			if err != nil || j < 1 || j > len(m.Columns) {
				return a, fmt.Errorf("a line %q", l)
			}
			if values[m.Columns[j-1].Name], err = strconv.ParseFloat(l[2], 64); err != nil {
				return a, err
			}
		}
	}
	switch status {
	case "o", "f":
		a.values = values
	case "u":
	default:
		return a, fmt.Errorf("it says status %q of a season that has a plan", status)
	}
	return a, nil
}
