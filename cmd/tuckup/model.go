package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/optimize"
)

func (a *app) modelCommand() *cobra.Command {
	var out, solution string
	c := &cobra.Command{
		Use:   "model",
		Short: "Write the season as a model file that any general solver can read",
		Long: "model writes the season that plan solves as free-format MPS (a minimisation: the value is minus the plan's points), " +
			"and the plan as \"name value\" lines, so that any general solver can solve it and check it. The path - is standard " +
			"output. The solution is the plan as it was solved, before touches too small to be worth making are gathered.",
		Example: "  tuckup model --demo --out season.mps\n  tuckup model --kennel thornfield.yaml --out season.mps --solution season.sol",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			switch {
			case out == "" && solution == "":
				return usage("--out FILE.mps for the model, --solution FILE.sol for the plan", "model has nothing to write")
			case out == solution:
				return usage("another path for one of them", "--out and --solution both name %q", out)
			}
			files, err := a.modelFiles(c, out, solution)
			if err != nil {
				return err
			}
			return a.writeFiles(files)
		},
	}
	a.planFlags(c)
	c.Flags().StringVar(&out, "out", "", "file for the model in free-format MPS; - is standard output")
	c.Flags().StringVar(&solution, "solution", "", "file for the plan as \"name value\" lines; - is standard output")
	return c
}

// modelFiles plans the season only where its solution is asked for.
func (a *app) modelFiles(c *cobra.Command, out, solution string) ([]outFile, error) {
	if solution == "" {
		src, opt, err := a.prepare(c)
		if err != nil {
			return nil, err
		}
		return []outFile{{out, func(w io.Writer) error {
			return src.locate(optimize.WriteModel(w, src.kennel, src.patterns, opt))
		}}}, nil
	}
	r, err := a.solve(c)
	if err != nil {
		return nil, err
	}
	files := []outFile{{solution, func(w io.Writer) error { return optimize.WriteSolution(w, r) }}}
	if out != "" {
		files = append(files, outFile{out, func(w io.Writer) error { return optimize.WriteModelOf(w, r) }})
	}
	return files, nil
}
