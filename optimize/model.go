package optimize

import (
	"io"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// WriteModel writes the season that Plan would solve as a free-format MPS file, for any general solver.
func WriteModel(w io.Writer, k kennel.Kennel, pats kennel.Patterns, opt Options) error {
	p, err := Problem(k, pats, opt)
	if err != nil {
		return err
	}
	return season.WriteMPS(w, p)
}

// WriteModelOf writes the season that was solved as a free-format MPS file.
func WriteModelOf(w io.Writer, r Result) error { return season.WriteMPS(w, r.Solved.Problem) }

// WriteSolution writes the plan as "name value" lines in the names of the model file, as it was solved and
// before crumbs were gathered.
func WriteSolution(w io.Writer, r Result) error {
	return season.WriteSolution(w, r.Solved.Problem, r.Solved.Answer.Plan)
}
