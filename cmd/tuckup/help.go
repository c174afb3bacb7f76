package main

import (
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/reports/help"
)

// helpColumns is how wide a page of help is where COLUMNS does not say.
const helpColumns = 96

// helpCommand explains commands, and how a plan thinks. A page comes before the command of the same name.
func (a *app) helpCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "help [COMMAND or PAGE]",
		Short: "Explain a command, or how a plan thinks: " + strings.Join(help.Names(), ", "),
		Long: "help explains a command, as COMMAND --help does. The pages " + strings.Join(help.Names(), ", ") + " say how a plan thinks, with dogs of the made-up string and the " +
			"figures of the patterns.",
		Example: "  tuckup help coat\n  tuckup help plan",
		RunE: func(c *cobra.Command, args []string) error {
			root := c.Root()
			if len(args) == 0 {
				return root.Help()
			}
			ps, err := a.readPatterns()
			if err != nil {
				return err
			}
			if p, ok := help.Find(ps, args[0]); ok && len(args) == 1 {
				columns := a.look().Columns
				if columns == 0 {
					columns = helpColumns
				}
				return p.Text(a.out, columns)
			}
			of, rest, err := root.Find(args)
			if err != nil || of == root || len(rest) > 0 {
				names := help.Names()
				for _, s := range root.Commands() {
					if s.IsAvailableCommand() {
						names = append(names, s.Name())
					}
				}
				said := strings.Join(args, " ")
				return usage("tuckup help "+kennel.Nearest(said, names, 1)[0]+", or tuckup help for all", "%q is neither a command nor a page of help", said)
			}
			of.InitDefaultHelpFlag()
			return of.Help()
		},
	}
	return c
}
