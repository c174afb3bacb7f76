package main

import (
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/reports"
	"tuckup/reports/html"
	"tuckup/reports/say"
)

func (a *app) homeCommand() *cobra.Command {
	var out, from, to, format string
	c := &cobra.Command{
		Use:   "home NAME",
		Short: "Write the card for whoever has a dog at home: what to do, to leave and to look at",
		Long: "report home writes a page for the days on which a dog is not in hand: combing, no bath, nothing pulled, what to look at, and when it " +
			"is back. The days are the next ones out of hand that the kennel has, or those of --from and --to. With --format text it is printed.",
		Example: "  tuckup report home Moss --demo --from 2027-01-11 --to 2027-01-24\n  tuckup report home Moss --demo --from 2027-01-11 --format text",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage(c.CommandPath()+" with the dog's name", "%s takes the dog's name and nothing else", c.CommandPath())
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return a.home(c, args[0], out, from, to, format) },
	}
	a.sourceFlags(c)
	c.Flags().StringVar(&out, "out", ".", "folder to write the page into; it is created if needed")
	c.Flags().StringVar(&from, "from", "", "first day at home, like 2027-03-01 (default: the next days out of hand)")
	c.Flags().StringVar(&to, "to", "", "last day at home")
	c.Flags().StringVar(&format, "format", formatHTML, "how to write it: html into a file, text to the screen")
	fixedValues(c, "format", []string{formatHTML, formatText})
	return c
}

func (a *app) home(c *cobra.Command, name, out, from, to, format string) error {
	if format != formatHTML && format != formatText {
		return usage("--format html or --format text", "--format %q is not a format of this command", format)
	}
	src, err := a.source(c.Context())
	if err != nil {
		return err
	}
	today, err := a.today(c, src)
	if err != nil {
		return err
	}
	k := src.kennel
	i, err := k.FindDog(name)
	if err != nil {
		return err
	}
	dog := k.Dogs[i]
	days, err := homeDays(dog, from, to, today)
	if err != nil {
		return err
	}
	card := say.Home(k, dog, src.patterns[dog.Pattern], days, today)
	if format == formatText {
		return reports.HomeText(a.out, card, today, a.look())
	}
	if err := makeFolder(out); err != nil {
		return err
	}
	return a.writePage(filepath.Join(out, pageName("home", dog.Name)), func(w io.Writer) error { return html.Home(w, k.Name, card, today) })
}

// homeDays are the days at home that the flags say, else the next that the dog is not in hand.
func homeDays(dog kennel.Dog, from, to string, today kennel.Date) (days kennel.Span, err error) {
	if from == "" && to == "" {
		days, at := dog.AtHome(today)
		if !at {
			return days, &kennel.InputError{Field: "dog", Value: dog.Name, What: "is in hand all the time", Try: "--from " + today.String() + " with the first day at home, and --to with the last"}
		}
		return days, nil
	}
	if from != "" {
		if days.From, err = dateFlag("from", from); err != nil {
			return days, err
		}
	}
	if to != "" {
		if days.To, err = dateFlag("to", to); err != nil {
			return days, err
		}
	}
	if days.To != 0 && days.From > days.To {
		return days, usage("--to with "+days.From.String()+" or later", "--to %s is before --from", days.To)
	}
	return days, nil
}
