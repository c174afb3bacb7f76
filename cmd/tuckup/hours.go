package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
	"tuckup/reports/list"
)

func (a *app) hoursCommand() *cobra.Command {
	c := group("hours", "Keep everybody's hours: set, away, drop, list",
		"  tuckup hours set mon=5 tue=5 wed=4 thu=5 fri=3\n  tuckup hours away --from 2027-02-11 --to 2027-02-15 --why \"shows abroad\"\n  tuckup hours list")
	c.AddCommand(hoursSetCommand(a.inBook(true)), hoursAwayCommand(a.inBook(false)), hoursDropCommand(a.inBook(false)), a.hoursListCommand())
	return c
}

// firstHands is what the hands are called when hours are told before anybody was named.
const firstHands = "Handler"

func hoursSetCommand(e editor) *cobra.Command {
	var (
		does  string
		fresh bool
	)
	c := &cobra.Command{
		Use:   "set [HANDS] DAY=HOURS ...",
		Short: "Set somebody's grooming hours by weekday",
		Long: "set takes hours by weekday, like mon=5 tue=4, or one number for Monday to Friday; days that are not named have " +
			"none. Without a name they are those of the first hands. --new adds hands.",
		Example: "  tuckup hours set mon=5 tue=5 wed=4 thu=5 fri=3\n  tuckup hours set Assistant tue=2 fri=2 --does furnishings,duties --new",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		name, days := handsAndDays(args)
		given := c.Flags().Changed
		if len(days) == 0 && !given("does") && !given("strip") {
			return usage(strings.Join(strings.Fields(c.CommandPath()+" "+name+" mon=5 tue=4"), " "), "%s names no day", c.CommandPath())
		}
		return e.carry(c, func(s *book.State, _ kennel.Date) (string, error) {
			h, err := handsToSet(s, name, fresh)
			if err != nil {
				return "", err
			}
			if len(days) > 0 {
				if h.Hours, err = kennel.ParseHours(days); err != nil {
					return "", err
				}
			}
			setFieldFlags(c, h, fields.Hands.Single("name"))
			if given("does") {
				h.Does = nil
				for _, d := range kennel.SplitNames(does) {
					h.Does = append(h.Does, kennel.Skill(d))
				}
			}
			return "set the hours of " + h.Name, nil
		})
	}
	c.Flags().StringVar(&does, "does", "", "kinds of work, with commas between: jacket, close, furnishings, duties (default: all)")
	addFieldFlags(c, kennel.Hands{}, fields.Hands.Single("name"))
	c.Flags().BoolVar(&fresh, "new", false, "add somebody new")
	e.flags(c)
	return c
}

// handsAndDays splits words into the name of the hands and the days with their hours.
func handsAndDays(args []string) (name string, days []string) {
	i := 0
	for i < len(args) && !kennel.HoursAhead(args[i:]) {
		i++
	}
	return strings.Join(args[:i], " "), args[i:]
}

func handsToSet(s *book.State, name string, fresh bool) (*kennel.Hands, error) {
	if fresh && name == "" {
		return nil, usage("a name before the days", "--new needs a name")
	}
	if fresh || name == "" && len(s.Kennel.Hands) == 0 {
		if name == "" {
			name = firstHands
		}
		s.Kennel.Hands = append(s.Kennel.Hands, kennel.Hands{Name: name})
		return &s.Kennel.Hands[len(s.Kennel.Hands)-1], nil
	}
	i, err := s.Kennel.FindHands(name)
	if err != nil {
		return nil, err
	}
	return &s.Kennel.Hands[i], nil
}

func hoursAwayCommand(e editor) *cobra.Command {
	var (
		from, to, why string
		drop          bool
	)
	c := &cobra.Command{
		Use:   "away [HANDS]",
		Short: "Note when somebody is away; --drop removes it",
		Long: "away keeps days free of work. Without a name, for the first pair of hands. --drop takes back the days that " +
			"begin on --from.",
		Example: "  tuckup hours away --from 2027-02-11 --to 2027-02-15 --why \"shows abroad\"\n  tuckup hours away Assistant --from 2027-02-11 --drop",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		first, err := dateFlag("from", from)
		if err != nil {
			return err
		}
		last := first
		if c.Flags().Changed("to") {
			if last, err = dateFlag("to", to); err != nil {
				return err
			}
		}
		return e.carry(c, func(s *book.State, _ kennel.Date) (string, error) {
			i, err := s.Kennel.FindHands(strings.Join(args, " "))
			if err != nil {
				return "", err
			}
			name := s.Kennel.Hands[i].Name
			if drop {
				return s.ComeBack(name, first)
			}
			return s.GoAway(name, kennel.Span{From: first, To: last, Why: why})
		})
	}
	c.Flags().StringVar(&from, "from", "", "first day away, like 2027-02-11")
	c.Flags().StringVar(&to, "to", "", "last day away (default: the first)")
	c.Flags().StringVar(&why, "why", "", "why, in a few words")
	c.Flags().BoolVar(&drop, "drop", false, "remove the days away that begin on --from")
	e.flags(c)
	return c
}

func hoursDropCommand(e editor) *cobra.Command {
	c := &cobra.Command{
		Use:     "drop HANDS",
		Short:   "Remove somebody who no longer works",
		Example: "  tuckup hours drop Assistant",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, _ kennel.Date) (string, error) {
			i, err := s.Kennel.FindHands(args[0])
			if err != nil {
				return "", err
			}
			return s.DropHands(s.Kennel.Hands[i].Name)
		})
	}
	e.flags(c)
	return c
}

func (a *app) hoursListCommand() *cobra.Command {
	return a.listing(&cobra.Command{
		Use:     "list",
		Short:   "List who works when, and who is away",
		Example: "  tuckup hours list\n  tuckup hours list --demo --format json",
	}, func(src source, _ kennel.Date, l layout.Look) writers {
		k := src.state.Kennel
		return writers{
			text: func(w io.Writer) error { return list.Hours(w, k, l) },
			json: func(w io.Writer) error { return list.HoursJSON(w, k) },
			csv:  func(w io.Writer) error { return list.HoursCSV(w, k) },
		}
	})
}
