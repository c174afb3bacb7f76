package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/list"
)

func (a *app) dogListCommand() *cobra.Command {
	return a.listing(&cobra.Command{
		Use:     "list",
		Short:   "List the dogs of the string",
		Example: "  tuckup dog list\n  tuckup dog list --format json\n  tuckup dog list --demo",
	}, func(src source, _ kennel.Date, l layout.Look) writers {
		k := src.state.Kennel
		return writers{
			text: func(w io.Writer) error { return list.Dogs(w, k, l) },
			json: func(w io.Writer) error { return list.DogsJSON(w, k) },
			csv:  func(w io.Writer) error { return list.DogsCSV(w, k) },
		}
	})
}

func (a *app) dogShowCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "show NAME",
		Short: "Show one dog, with its coat as it is today",
		Long: "show prints what the book or the kennel file says about one dog. Its coat is moved by the work that was written " +
			"down since it was looked at.",
		Example: "  tuckup dog show Sorrel\n  tuckup dog show sor --demo --format json",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		src, on, err := a.told(c)
		if err != nil {
			return err
		}
		k := src.state.Now(src.patterns, on)
		i, err := k.FindDog(args[0])
		if err != nil {
			return err
		}
		d := list.DogRecord{Dog: k.Dogs[i], Units: k.Units}
		for _, s := range k.Shows {
			if s.Has(d.Dog.Name) {
				d.Shows = append(d.Shows, s)
			}
		}
		for _, w := range src.state.Work {
			if w.Dog == d.Dog.Name {
				d.Work = append(d.Work, list.WorkRow{ID: w.ID, Work: w.Work})
			}
		}
		return a.write(dogWriters(d, a.look(), on))
	}
	a.sourceFlags(c)
	a.formatFlag(c)
	return c
}

func dogWriters(d list.DogRecord, l layout.Look, on kennel.Date) writers {
	return writers{
		text: func(w io.Writer) error { return list.Dog(w, d, on, l) },
		json: func(w io.Writer) error { return list.DogJSON(w, d) },
		csv:  func(w io.Writer) error { return list.DogCSV(w, d) },
	}
}
