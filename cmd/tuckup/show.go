package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
	"tuckup/reports/list"
)

func (a *app) showCommand() *cobra.Command {
	c := group("show", "Keep the shows: add, list, edit, drop",
		"  tuckup show add \"Brackenmere Terrier Club\" --on 2027-03-20 --weight 3 --chance 1 --dogs Sorrel,Moss\n  tuckup show list")
	c.AddCommand(showAddCommand(a.inBook(true)), a.showListCommand(), showEditCommand(a.inBook(false)), showDropCommand(a.inBook(false)))
	return c
}

// showFlags are what the flags say of a show.
type showFlags struct {
	on, awayFrom, awayTo, dogs, name, move string
	keep                                   bool
}

func (f *showFlags) add(c *cobra.Command) {
	addFieldFlags(c, kennel.UsualShow(), fields.Show.Single("name", "on"))
	c.Flags().StringVar(&f.dogs, "dogs", "", "which dogs are shown, with commas between")
	c.Flags().StringVar(&f.awayFrom, "away-from", "", "first day of travelling (default: the show's first day)")
	c.Flags().StringVar(&f.awayTo, "away-to", "", "last day of travelling (default: the show's last day)")
	c.Flags().BoolVar(&f.keep, "keep", false, "save it although it is over, or names no dog")
}

// meant refuses a show that is odd, unless --keep says that it is meant so. was is what was odd about it before, and
// dayFlag the flag that says its day.
func (f *showFlags) meant(s kennel.Show, was kennel.Odd, today kennel.Date, dayFlag string) error {
	odd := s.Odd(today)
	if f.keep || !odd.Asked() || !odd.AskedAfter(was) {
		return nil
	}
	var try []string
	what := fmt.Sprintf("%s on %s %s", s.Name, s.On, odd.Why())
	if odd.Likely != 0 {
		what += fmt.Sprintf("; %s was meant?", odd.Likely)
		try = append(try, "--"+dayFlag+" "+odd.Likely.String())
	}
	if odd.NoDogs && !odd.Loose {
		try = append(try, "--dogs NAMES")
	}
	instead := "--keep to write it down so"
	if len(try) > 0 {
		instead = strings.Join(try, " ") + ", or " + instead
	}
	return usage(instead, "%s", what)
}

// set writes what the flags say into the show, and leaves alone what they don't.
func (f *showFlags) set(c *cobra.Command, k kennel.Kennel, s *kennel.Show) (err error) {
	setFieldFlags(c, s, fields.Show.Single("name", "on"))
	given := c.Flags().Changed
	if given("dogs") {
		if s.Dogs, err = k.FindDogs(kennel.SplitNames(f.dogs)); err != nil {
			return err
		}
	}
	if !given("away-from") && !given("away-to") {
		return nil
	}
	away := s.AwayDays()
	if s.Away == nil {
		away.Why = ""
	}
	if given("away-from") {
		if away.From, err = dateFlag("away-from", f.awayFrom); err != nil {
			return err
		}
	}
	if given("away-to") {
		if away.To, err = dateFlag("away-to", f.awayTo); err != nil {
			return err
		}
	}
	s.Away = &away
	return nil
}

// whichDay is the first day that --on names of the show that is meant, zero when it names none.
func (f *showFlags) whichDay(c *cobra.Command) (kennel.Date, error) {
	if !c.Flags().Changed("on") {
		return 0, nil
	}
	return dateFlag("on", f.on)
}

func showAddCommand(e editor) *cobra.Command {
	var f showFlags
	c := &cobra.Command{
		Use:     "add NAME",
		Short:   "Add a show, entered or hoped for",
		Example: "  tuckup show add \"Brackenmere Terrier Club\" --on 2027-03-20 --weight 3 --chance 1 --dogs Sorrel,Moss\n  tuckup show add \"Yarrowmead Show\" --on 2027-05-01 --chance 0.4 --entries-close 2027-04-14 --dry-run",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		if f.on == "" {
			return usage("--on with the show's first day, like 2027-03-20", "--on is missing: nothing says when %s is", args[0])
		}
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			on, err := dateFlag("on", f.on)
			if err != nil {
				return "", err
			}
			show := kennel.UsualShow()
			show.Name, show.On = args[0], on
			if err := f.set(c, s.Kennel, &show); err != nil {
				return "", err
			}
			if err := f.meant(show, kennel.Odd{}, today, "on"); err != nil {
				return "", err
			}
			return s.AddShow(show), nil
		})
	}
	c.Flags().StringVar(&f.on, "on", "", "its first day, like 2027-03-20")
	f.add(c)
	e.flags(c)
	return c
}

// find is the show of the name, on the day that --on says where several have it.
func (f *showFlags) find(c *cobra.Command, k kennel.Kennel, name string) (int, error) {
	day, err := f.whichDay(c)
	if err != nil {
		return 0, err
	}
	return k.FindShow(name, day)
}

func showEditCommand(e editor) *cobra.Command {
	var f showFlags
	c := &cobra.Command{
		Use:     "edit NAME",
		Short:   "Change a show",
		Example: "  tuckup show edit yarrow --chance 1\n  tuckup show edit brackenmere --on 2027-03-20 --move 2027-03-21 --dogs Sorrel",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			i, err := f.find(c, s.Kennel, args[0])
			if err != nil {
				return "", err
			}
			show := &s.Kennel.Shows[i]
			before := show.Odd(today)
			was := fmt.Sprintf("changed the show %s on %s", show.Name, show.On)
			put(c.Flags().Changed("name"), &show.Name, f.name)
			if c.Flags().Changed("move") {
				to, err := dateFlag("move", f.move)
				if err != nil {
					return "", err
				}
				show.MoveTo(to)
			}
			if err := f.set(c, s.Kennel, show); err != nil {
				return "", err
			}
			return was, f.meant(*show, before, today, "move")
		})
	}
	c.Flags().StringVar(&f.on, "on", "", "its first day, if several shows have this name")
	c.Flags().StringVar(&f.name, "name", "", "new name")
	c.Flags().StringVar(&f.move, "move", "", "new first day; travelling and closing days move with it")
	f.add(c)
	e.flags(c)
	return c
}

func showDropCommand(e editor) *cobra.Command {
	var f showFlags
	c := &cobra.Command{
		Use:     "drop NAME",
		Short:   "Remove a show",
		Example: "  tuckup show drop yarrow\n  tuckup show drop brackenmere --on 2027-03-20",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, _ kennel.Date) (string, error) {
			i, err := f.find(c, s.Kennel, args[0])
			if err != nil {
				return "", err
			}
			return s.DropShow(s.Kennel.Shows[i].Name, s.Kennel.Shows[i].On)
		})
	}
	c.Flags().StringVar(&f.on, "on", "", "its first day, if several shows have this name")
	e.flags(c)
	return c
}

func (a *app) showListCommand() *cobra.Command {
	return a.listing(&cobra.Command{
		Use:     "list",
		Short:   "List the shows by date",
		Example: "  tuckup show list\n  tuckup show list --format json\n  tuckup show list --demo",
	}, func(src source, on kennel.Date, l layout.Look) writers {
		k := src.state.Kennel
		return writers{
			text: func(w io.Writer) error { return list.Shows(w, k, on, l) },
			json: func(w io.Writer) error { return list.ShowsJSON(w, k, on) },
			csv:  func(w io.Writer) error { return list.ShowsCSV(w, k) },
		}
	})
}

// listing completes a command that lists what a kennel file or a book tells.
func (a *app) listing(c *cobra.Command, list func(source, kennel.Date, layout.Look) writers) *cobra.Command {
	c.Args = noWords
	c.RunE = func(c *cobra.Command, _ []string) error {
		src, on, err := a.told(c)
		if err != nil {
			return err
		}
		return a.write(list(src, on, a.look()))
	}
	a.sourceFlags(c)
	a.formatFlag(c)
	return c
}

// told is what a kennel file or a book tells, and today, for a command that lists some of it.
func (a *app) told(c *cobra.Command) (src source, on kennel.Date, err error) {
	if err := a.checkFormat(); err != nil {
		return src, 0, err
	}
	if src, err = a.source(c.Context()); err != nil {
		return src, 0, err
	}
	on, err = a.today(c, src)
	return src, on, err
}
