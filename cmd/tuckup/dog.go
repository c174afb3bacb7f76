package main

import (
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
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

// dogFlags are what the flags say of a dog.
type dogFlags struct {
	name, pattern, born, owner, texture, from, to, coat, pulled string
	growth, pace, priority                                      float64
	setUp, minutes                                              kennel.Minutes
	aWeek                                                       int
	rollOnly                                                    bool
	duties, drop                                                []string
}

func (d *dogFlags) add(c *cobra.Command) {
	f, usual := c.Flags(), kennel.UsualDog()
	f.StringVar(&d.pattern, "pattern", "", "coat pattern; tuckup pattern list names them")
	f.StringVar(&d.born, "born", "", "date of birth, like 2024-05-02")
	f.StringVar(&d.owner, "owner", "", "who gets the account of its hours")
	f.StringVar(&d.texture, "texture", "", "hard, fine or soft (default: the pattern's)")
	numberVar(f, &d.growth, kennel.ParseNumber, "growth", usual.Coat.Growth, "growth factor, 0.5 to 2")
	numberVar(f, &d.pace, kennel.ParseNumber, "pace", usual.Coat.Pace, "work factor, 0.25 to 4")
	f.BoolVar(&d.rollOnly, "roll-only", false, "never more than a rolling share of an area in a week")
	numberVar(f, &d.setUp, kennel.ParseMinutes, "set-up", usual.Table.SetUp, "minutes of set-up for each session")
	numberVar(f, &d.minutes, kennel.ParseMinutes, "minutes", usual.Table.Minutes, "longest session in minutes")
	f.IntVar(&d.aWeek, "a-week", usual.Table.AWeek, "most sessions a week")
	numberVar(f, &d.priority, kennel.ParseNumber, "priority", usual.Priority, "weight of this dog against the others")
	f.StringVar(&d.from, "from", "", "first day in hand, like 2027-02-15")
	f.StringVar(&d.to, "to", "", "last day in hand")
	f.StringVar(&d.coat, "coat", "", "what is on every area: shares with the days of their last pull, like \"0.6 2026-09-20 0.4 2026-12-01\"")
	f.StringVar(&d.pulled, "pulled", "", "day when all of the coat was last pulled")
	f.StringArrayVar(&d.duties, "duty", nil, "a duty, like \"nails 10 every 2w\" or \"close trim 30 before 10d 7d\"; may be given more than once")
}

// set writes what the flags say into the dog, and leaves alone what they don't; it reports whether the coat was told.
func (d *dogFlags) set(c *cobra.Command, dog *kennel.Dog) (coat bool, err error) {
	given := c.Flags().Changed
	put(given("pattern"), &dog.Pattern, d.pattern)
	put(given("owner"), &dog.Owner, d.owner)
	put(given("texture"), &dog.Coat.Texture, kennel.Texture(d.texture))
	put(given("growth"), &dog.Coat.Growth, d.growth)
	put(given("pace"), &dog.Coat.Pace, d.pace)
	put(given("roll-only"), &dog.Coat.RollOnly, d.rollOnly)
	put(given("set-up"), &dog.Table.SetUp, d.setUp)
	put(given("minutes"), &dog.Table.Minutes, d.minutes)
	put(given("a-week"), &dog.Table.AWeek, d.aWeek)
	put(given("priority"), &dog.Priority, d.priority)
	if given("born") {
		if dog.Born, err = dateFlag("born", d.born); err != nil {
			return false, err
		}
	}
	if err := d.setHere(given, dog); err != nil {
		return false, err
	}
	if err := d.setDuties(dog); err != nil {
		return false, err
	}
	return d.setCoat(given, dog)
}

// put writes a value where it was given.
func put[T any](given bool, to *T, v T) {
	if given {
		*to = v
	}
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
			if _, err := d.set(c, &dog); err != nil {
				return "", err
			}
			if dog.Pattern == "" {
				return "", usage("--pattern with one that tuckup pattern list names", "--pattern is missing: nothing says how the coat of %s behaves", dog.Name)
			}
			s.Kennel.Dogs = append(s.Kennel.Dogs, dog)
			s.Looked(dog.Name, book.AllAreas, today)
			return "added the dog " + dog.Name, nil
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
		Short:   "Change what is told of a dog",
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
			coat, err := d.set(c, dog)
			if err != nil {
				return "", err
			}
			if coat {
				s.Looked(dog.Name, book.AllAreas, today)
			}
			was := dog.Name
			if c.Flags().Changed("name") {
				s.RenameDog(was, d.name)
			}
			return "changed the dog " + was, nil
		})
	}
	d.add(c)
	c.Flags().StringVar(&d.name, "name", "", "another name for it")
	c.Flags().StringArrayVar(&d.drop, "no-duty", nil, "a duty that it has no more, by its name; may be given more than once")
	e.flags(c)
	return c
}

func dogRetireCommand(e editor) *cobra.Command {
	var on string
	c := &cobra.Command{
		Use:   "retire NAME",
		Short: "Let a dog leave the string; its records stay",
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
			name := s.Kennel.Dogs[i].Name
			if _, err := s.Kennel.Retire(name, last); err != nil {
				return "", err
			}
			s.DropSessions(name, last.AddDays(1))
			return "retired the dog " + name, nil
		})
	}
	c.Flags().StringVar(&on, "on", "", "its last day in hand (default: today)")
	e.flags(c)
	return c
}
