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

// WriteModel writes the season that was solved as a free-format MPS file.
func (r Result) WriteModel(w io.Writer) error { return season.WriteMPS(w, r.problem) }

// WriteSolution writes the plan as "name value" lines in the names of the model file, as it was solved and
// before crumbs were gathered.
func (r Result) WriteSolution(w io.Writer) error { return season.WriteSolution(w, r.problem, r.solved) }
