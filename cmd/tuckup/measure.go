package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

func (a *app) measureCommand() *cobra.Command {
	c := group("measure", "Write down lengths, and when hair was fit to be shown: growth is learned from them",
		"  tuckup measure add Sorrel back 32\n  tuckup measure ready Sorrel back --pulled 2026-10-12")
	c.AddCommand(a.measureAddCommand(a.inBook(false)), measureReadyCommand(a.inBook(false)), a.measurePhotoCommand(a.inBook(false)))
	return c
}

// onOr is the day that --on gives, else another.
func onOr(c *cobra.Command, given string, otherwise kennel.Date) (kennel.Date, error) {
	if !c.Flags().Changed("on") {
		return otherwise, nil
	}
	return dateFlag("on", given)
}

// dogAndArea takes the dog and the area off the front of the words; last is how many words stand behind them.
func dogAndArea(c *cobra.Command, k kennel.Kennel, args []string, last int) (dog string, area kennel.AreaName, rest []string, err error) {
	if len(args) < 2+last {
		return "", "", nil, usage(c.UseLine(), "%s takes a dog and an area", c.CommandPath())
	}
	i, err := k.FindDog(args[0])
	if err != nil {
		return "", "", nil, err
	}
	cut := len(args) - last
	area, err = kennel.MatchArea(strings.Join(args[1:cut], " "))
	return k.Dogs[i].Name, area, args[cut:], err
}

// withUnit puts a unit that is a word of its own to the number before it.
func withUnit(args []string) []string {
	n := len(args)
	if n < 2 || !slices.Contains([]string{"mm", "cm", "in", "inch", "inches"}, strings.ToLower(args[n-1])) {
		return args
	}
	return append(slices.Clone(args[:n-2]), args[n-2]+" "+args[n-1])
}

func (a *app) measureAddCommand(e editor) *cobra.Command {
	var on, note, photo string
	c := &cobra.Command{
		Use:   "add DOG AREA LENGTH",
		Short: "Write down the length of the longest hair of an area",
		Long: "add writes down a length that was taken with a rule on the longest layer of an area, in the kennel's unit, or with mm " +
			"or in behind it.",
		Example: "  tuckup measure add Sorrel back 32\n  tuckup measure add Sorrel skirt line 1.25in --on 2027-01-05 --note \"after the bath\"",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		taken, err := readPhoto(photo)
		if err != nil {
			return err
		}
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			dog, area, rest, err := dogAndArea(c, s.Kennel, withUnit(args), 1)
			if err != nil {
				return "", err
			}
			length, err := kennel.ParseLength(rest[0], s.Kennel.Units)
			if err != nil {
				return "", err
			}
			day, err := onOr(c, on, today)
			if err != nil {
				return "", err
			}
			s.Measures = append(s.Measures, book.Measure{Measure: kennel.Measure{Dog: dog, On: day, Area: area, Length: length, Note: note}})
			if err := a.keepPhoto(s, taken, kennel.Photo{Dog: dog, On: day, Area: area, Note: note}); err != nil {
				return "", err
			}
			return fmt.Sprintf("measured the %s of %s on %s", area, dog, day), nil
		})
	}
	c.Flags().StringVar(&on, "on", "", "the day (default: today)")
	c.Flags().StringVar(&note, "note", "", "your own note; owners don't see it")
	c.Flags().StringVar(&photo, "photo", "", "a picture of it, JPEG or PNG: kept beside the book, made smaller, without the place it was taken at")
	e.flags(c)
	return c
}

func measureReadyCommand(e editor) *cobra.Command {
	var on, pulled string
	c := &cobra.Command{
		Use:     "ready DOG AREA",
		Short:   "Write down that hair pulled on a day is now long enough to show",
		Long:    "ready writes down that the hair of an area which was pulled on --pulled was first fit to be shown today, or on --on.",
		Example: "  tuckup measure ready Sorrel back --pulled 2026-10-12\n  tuckup measure ready Sorrel skirt line --pulled 2026-10-12 --on 2027-01-05",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		if pulled == "" {
			return usage("--pulled with the day when that hair was pulled", "--pulled is missing")
		}
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			dog, area, _, err := dogAndArea(c, s.Kennel, args, 0)
			if err != nil {
				return "", err
			}
			day, err := onOr(c, on, today)
			if err != nil {
				return "", err
			}
			since, err := dateFlag("pulled", pulled)
			if err != nil {
				return "", err
			}
			s.Showables = append(s.Showables, book.Showable{Showable: kennel.Showable{Dog: dog, On: day, Area: area, Pulled: since}})
			return fmt.Sprintf("the %s of %s was fit to be shown on %s", area, dog, day), nil
		})
	}
	c.Flags().StringVar(&on, "on", "", "the day (default: today)")
	c.Flags().StringVar(&pulled, "pulled", "", "when that hair was pulled, like 2026-10-12")
	e.flags(c)
	return c
}
