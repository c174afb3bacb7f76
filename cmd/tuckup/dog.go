package main

import (
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/optimize/planned"
)

func (a *app) dogCommand() *cobra.Command {
	c := group("dog", "Keep the dogs of the string: add, show, list, edit, retire",
		"  tuckup dog add Sorrel --pattern wire-fox-terrier --pulled 2026-10-12\n  tuckup dog list")
	c.AddCommand(
		dogAddCommand(a.inBook(true)), a.dogShowCommand(), a.dogListCommand(), dogEditCommand(a.inBook(false)),
		dogRetireCommand(a.inBook(false)),
	)
	return c
}

// group is a command that only holds others.
func group(name, short, example string) *cobra.Command {
	return &cobra.Command{
		Use: name, Short: short, Example: example, Args: noCommand,
		RunE: func(c *cobra.Command, _ []string) error {
			return usage(c.CommandPath()+" --help", "%s needs to know what to do", name)
		},
	}
}

// dogFlags are what the flags say of a dog beside its fields.
type dogFlags struct {
	name, from, to, coat, pulled string
	duties, drop, spells, over   []string
	outlines, plain              []string
}

func (d *dogFlags) add(c *cobra.Command) {
	addFieldFlags(c, kennel.UsualDog(), fields.Dog.Single("name"))
	f := c.Flags()
	f.StringVar(&d.from, "from", "", "first day in hand, like 2027-02-15")
	f.StringVar(&d.to, "to", "", "last day in hand")
	f.StringVar(&d.coat, "coat", "", "what is on every area: shares with the days of their last pull, like \"0.6 2026-09-20 0.4 2026-12-01\"")
	f.StringVar(&d.pulled, "pulled", "", "day when all of the coat was last pulled")
	f.StringArrayVar(&d.outlines, "outline", nil, "what is wanted of an area, like \"neck: leave the base long\" or \"loin 30mm: low in loin\"; may be given more than once")
	f.StringArrayVar(&d.spells, "spell", nil, "days in which it is in season, whelping, ill or hurt, like \"season 2027-03-01 2027-03-21 growth 0.8\" or \"illness 2027-03-01 table no\"; may be given more than once")
	f.StringArrayVar(&d.duties, "duty", nil, "a duty, like \"nails 10 every 2w\" or \"close trim 30 before 10d 7d\"; of what its pattern brings \"feet 15\" or \"feet out\"; may be given more than once")
}

// set writes what the flags say into the dog, and leaves alone what they don't; it reports whether the coat was told.
func (d *dogFlags) set(c *cobra.Command, dog *kennel.Dog, units kennel.Units) (coat bool, err error) {
	setFieldFlags(c, dog, fields.Dog.Single("name"))
	given := c.Flags().Changed
	if err := d.setHere(given, dog); err != nil {
		return false, err
	}
	if err := d.setDuties(dog); err != nil {
		return false, err
	}
	if err := d.setOutlines(dog, units); err != nil {
		return false, err
	}
	if err := d.setSpells(dog); err != nil {
		return false, err
	}
	return d.setCoat(given, dog)
}

func (d *dogFlags) setHere(given func(string) bool, dog *kennel.Dog) (err error) {
	var here kennel.Span
	if n := len(dog.Here); n > 0 {
		here = dog.Here[n-1]
	}
	if given("from") {
		if here.From, err = dateFlag("from", d.from); err != nil {
			return err
		}
	}
	if given("to") {
		if here.To, err = dateFlag("to", d.to); err != nil {
			return err
		}
	}
	if given("from") || given("to") {
		dog.Here = append(dog.Here[:max(0, len(dog.Here)-1):max(0, len(dog.Here)-1)], here)
	}
	return nil
}

func (d *dogFlags) setCoat(given func(string) bool, dog *kennel.Dog) (told bool, err error) {
	var layers []kennel.Layer
	switch {
	case given("coat") && given("pulled"):
		return false, usage("only one of --coat and --pulled", "--coat and --pulled both say what is on the dog")
	case given("pulled"):
		day, err := dateFlag("pulled", d.pulled)
		if err != nil {
			return false, err
		}
		layers = []kennel.Layer{{Share: 1, Pulled: day}}
	case given("coat"):
		if layers, err = kennel.ParseLayers(strings.Fields(d.coat)); err != nil {
			return false, err
		}
	default:
		return false, nil
	}
	dog.SetLayers(book.AllAreas, layers)
	return true, nil
}

func (d *dogFlags) setDuties(dog *kennel.Dog) error {
	for _, name := range d.drop {
		var names []string
		for _, x := range dog.Duties {
			names = append(names, x.Name)
		}
		match, err := kennel.Match("duty", name, names)
		if err != nil {
			return err
		}
		dog.DropDuty(match)
	}
	for _, said := range d.duties {
		duty, err := kennel.ParseDuty(said)
		if err != nil {
			return err
		}
		dog.DropDuty(duty.Name)
		dog.Duties = append(dog.Duties, duty)
	}
	return nil
}

func (d *dogFlags) setSpells(dog *kennel.Dog) error {
	for _, said := range d.over {
		from, err := dateFlag("no-spell", said)
		if err != nil {
			return err
		}
		if !dog.DropSpells(from) {
			return &kennel.InputError{
				Field: "spell", Value: said, What: "is the first day of no spell of " + dog.Name, Try: "tuckup dog show " + dog.Name + " for its spells",
			}
		}
	}
	for _, said := range d.spells {
		spell, err := kennel.ParseSpell(said)
		if err != nil {
			return err
		}
		dog.SetSpell(spell)
	}
	return nil
}

func (d *dogFlags) setOutlines(dog *kennel.Dog, units kennel.Units) error {
	for _, said := range d.plain {
		area, err := kennel.MatchArea(said)
		if err != nil {
			return err
		}
		if !dog.DropOutline(area) {
			return &kennel.InputError{
				Field: "outline", Value: string(area), What: "has no outline on " + dog.Name, Try: "tuckup dog show " + dog.Name + " for what is wanted of its areas",
			}
		}
	}
	for _, said := range d.outlines {
		o, err := kennel.ParseOutline(said, units)
		if err != nil {
			return err
		}
		dog.SetOutline(o)
	}
	return nil
}

// oneName refuses anything but one word: a name.
func oneName(c *cobra.Command, args []string) error {
	if len(args) != 1 {
		return usage(c.UseLine(), "%s takes one name, in quotes if it holds blanks", c.CommandPath())
	}
	return nil
}

func dogAddCommand(e editor) *cobra.Command {
	var d dogFlags
	c := &cobra.Command{
		Use:     "add NAME",
		Short:   "Add a dog",
		Example: "  tuckup dog add Sorrel --pattern wire-fox-terrier --pulled 2026-10-12 --owner \"R. Calloway\"\n  tuckup dog add Moss --pattern border-terrier --coat \"0.6 2026-09-20 0.4 2026-12-01\" --duty \"nails 10 every 2w\" --dry-run",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			dog := kennel.UsualDog()
			dog.Name = args[0]
			if _, err := d.set(c, &dog, s.Kennel.Units); err != nil {
				return "", err
			}
			if dog.Pattern == "" {
				return "", usage("--pattern with one that tuckup pattern list names", "--pattern is missing: nothing says how the coat of %s behaves", dog.Name)
			}
			return s.AddDog(dog, today), nil
		})
	}
	d.add(c)
	e.flags(c)
	return c
}

func dogEditCommand(e editor) *cobra.Command {
	var d dogFlags
	c := &cobra.Command{
		Use:     "edit NAME",
		Short:   "Change a dog",
		Example: "  tuckup dog edit Sorrel --priority 1.5\n  tuckup dog edit sor --name \"Sorrel of the Ferry\" --duty \"nails 10 every 3w\"",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			i, err := s.Kennel.FindDog(args[0])
			if err != nil {
				return "", err
			}
			dog := &s.Kennel.Dogs[i]
			coat, err := d.set(c, dog, s.Kennel.Units)
			if err != nil {
				return "", err
			}
			if coat {
				s.Looked(dog.Name, book.AllAreas, today)
			}
			was := dog.Name
			if c.Flags().Changed("name") {
				s.RenameDog(was, d.name)
				s.Plan.Result = planned.Renamed(s.Plan.Result, was, d.name)
			}
			return "changed the dog " + was, nil
		})
	}
	d.add(c)
	c.Flags().StringVar(&d.name, "name", "", "new name")
	c.Flags().StringArrayVar(&d.plain, "no-outline", nil, "area of which nothing more is wanted; may be given more than once")
	c.Flags().StringArrayVar(&d.over, "no-spell", nil, "first day of a spell to remove; may be given more than once")
	c.Flags().StringArrayVar(&d.drop, "no-duty", nil, "name of a duty to remove; may be given more than once")
	e.flags(c)
	return c
}

func dogRetireCommand(e editor) *cobra.Command {
	var on string
	c := &cobra.Command{
		Use:   "retire NAME",
		Short: "Take a dog out of the string; its records stay",
		Long: "retire ends a dog's time in hand with today, or with the day that --on names, and takes it off the shows after " +
			"that day. What was written down of it stays.",
		Example: "  tuckup dog retire Sorrel\n  tuckup dog retire Sorrel --on 2027-06-30",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			last := today
			if c.Flags().Changed("on") {
				d, err := dateFlag("on", on)
				if err != nil {
					return "", err
				}
				last = d
			}
			i, err := s.Kennel.FindDog(args[0])
			if err != nil {
				return "", err
			}
			return s.RetireDog(s.Kennel.Dogs[i].Name, last)
		})
	}
	c.Flags().StringVar(&on, "on", "", "its last day in hand (default: today)")
	e.flags(c)
	return c
}
