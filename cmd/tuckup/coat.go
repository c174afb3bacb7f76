package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

func (a *app) coatCommand() *cobra.Command {
	c := group("coat", "Record what is on a dog after looking over its coat",
		"  tuckup coat set Sorrel back 0.6 2026-09-20 0.4 2026-12-01")
	c.AddCommand(coatSetCommand(a.inBook(false)))
	return c
}

func coatSetCommand(e editor) *cobra.Command {
	var on string
	c := &cobra.Command{
		Use:   "set DOG AREA SHARE DAY ...",
		Short: "Record the layers of an area, or of all areas, as you see them",
		Long: "set takes the layers of one area, or of \"all\": each a share with the day when that hair was last pulled; a day alone is " +
			"the whole area. Only work after the day of looking moves them from then on. Of furnishings, which are kept, it takes what " +
			"was lost and on which day, or \"whole\"; after \"all\" they count as whole.",
		Example: "  tuckup coat set Sorrel back 0.6 2026-09-20 0.4 2026-12-01\n  tuckup coat set Moss all 2026-11-30 --on 2027-01-05\n" +
			"  tuckup coat set Sorrel furnishings 0.2 2026-11-30\n  tuckup coat set Sorrel furnishings whole",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			first := slices.IndexFunc(args, func(w string) bool {
				return w != "" && (strings.ContainsAny(w[:1], "0123456789.") || strings.EqualFold(w, "whole"))
			})
			if first < 2 {
				return "", usage(c.UseLine(), "%s takes a dog, an area and its layers", c.CommandPath())
			}
			i, err := s.Kennel.FindDog(args[0])
			if err != nil {
				return "", err
			}
			d := &s.Kennel.Dogs[i]
			area, word := book.AllAreas, strings.Join(args[1:first], " ")
			if word != "all" {
				if area, err = kennel.MatchArea(word); err != nil {
					return "", err
				}
				word = string(area)
			}
			layers, err := kennel.ParseCoat(area, args[first:])
			if err != nil {
				return "", err
			}
			day, err := onOr(c, on, today)
			if err != nil {
				return "", err
			}
			for _, l := range layers {
				if l.Pulled > day {
					return "", usage("a day of pulling that is not after it", "layers pulled on %s can't be seen on %s", l.Pulled, day)
				}
			}
			d.SetLayers(area, layers)
			s.Looked(d.Name, area, day)
			return fmt.Sprintf("looked at the coat of %s on %s: %s", d.Name, day, word), nil
		})
	}
	c.Flags().StringVar(&on, "on", "", "the day you looked (default: today)")
	e.flags(c)
	return c
}
