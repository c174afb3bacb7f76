package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/text"
)

func (a *app) importCommand() *cobra.Command {
	var (
		replace        bool
		weight, chance float64
		dogs           string
	)
	e := a.inBook(true)
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "Take a kennel file, a table of dogs or shows, or a calendar of shows into the book",
		Long: "import reads a kennel file (YAML), a table (.csv, UTF-8, first line the names of the columns) of dogs or of shows, or a " +
			"calendar (.ics) of shows, and lays it over the book: what the file names takes the place of what has the same name, or " +
			"is added; nothing goes. With --replace a kennel file takes the place of all that the book holds of the kennel; records " +
			"of dogs that it does not name go too. All of it is done, or nothing; --dry-run says what would change.\n\nShows of a " +
			"calendar are taken from today on, for two years. --weight, --chance and --dogs hold for shows that are new.",
		Example: "  tuckup import thornfield.yaml --dry-run\n  tuckup import thornfield.yaml\n  tuckup import shows.ics --chance 0.5 --dogs Sorrel,Moss",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		data, err := readFile(args[0], "the path of a kennel file, a table (.csv) or a calendar (.ics)")
		if err != nil {
			return err
		}
		ps, err := a.readPatterns()
		if err != nil {
			return err
		}
		read := reading{args[0], data, ps}
		given := c.Flags().Changed
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			what := "took in " + filepath.Base(read.name)
			if read.isKennel() {
				return what, read.kennelInto(s, replace, today)
			}
			if replace {
				return "", usage("a kennel file, or without --replace", "--replace needs a kennel file; %q only tells of some dogs or shows", read.name)
			}
			named, err := s.Kennel.FindDogs(kennel.SplitNames(dogs))
			if err != nil {
				return "", err
			}
			return what, read.rowsInto(s, today, func(show *kennel.Show) {
				put(given("weight"), &show.Weight, weight)
				put(given("chance"), &show.Chance, chance)
				put(given("dogs"), &show.Dogs, named)
			})
		})
	}
	c.Flags().BoolVar(&replace, "replace", false, "take the kennel file instead of what the book holds of the kennel")
	c.Flags().Float64Var(&weight, "weight", 1, "how much new shows of a table or calendar matter")
	c.Flags().Float64Var(&chance, "chance", 1, "chance of new shows of a table or calendar; below 1 = hoped for")
	c.Flags().StringVar(&dogs, "dogs", "", "dogs that new shows of a table or calendar are for, with commas between")
	e.flags(c)
	return c
}

// reading is a file that is taken in; its name's ending says what it is.
type reading struct {
	name     string
	data     []byte
	patterns kennel.Patterns
}

func (r reading) ending() string { return strings.ToLower(filepath.Ext(r.name)) }

func (r reading) isKennel() bool { return r.ending() != ".csv" && r.ending() != ".ics" }

func (r reading) kennelInto(s *book.State, replace bool, today kennel.Date) error {
	k, at, err := text.Read(r.name, r.data)
	if err != nil {
		return err
	}
	if err := kennel.Check(k, r.patterns); err != nil {
		return at.Locate(err)
	}
	seen := today
	if k.PlanFrom != 0 {
		seen = k.PlanFrom // the file's layers are those of that day
	}
	if replace {
		s.Replace(k, seen)
	} else {
		s.Merge(k, seen)
	}
	return nil
}

// yearsAhead is how many days of a calendar are read from today on: two years, the longest season.
const yearsAhead = 2 * 365

func (r reading) rowsInto(s *book.State, today kennel.Date, fresh func(*kennel.Show)) error {
	if r.ending() == ".csv" {
		rows, err := text.ReadCSV(r.name, r.data)
		if err != nil {
			return err
		}
		return s.Rows(rows, r.name, today, fresh)
	}
	rows, err := text.ReadICS(r.name, r.data, today, today.AddDays(yearsAhead))
	if err != nil {
		return err
	}
	if len(rows.Shows) == 0 {
		return usage("a calendar with shows from "+today.String()+" on, or an earlier --today", "%q holds no show in the next two years", r.name)
	}
	return s.Rows(rows, r.name, today, fresh)
}

func (a *app) exportCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "export",
		Short: "Write the kennel as a kennel file",
		Long: "export writes what the book holds of the kennel as a kennel file to standard output, coats moved by the work that was " +
			"written down. What it writes is read back to the same kennel.",
		Example: "  tuckup export\n  tuckup export --book spring.db",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			src, err := a.source(c.Context())
			if err != nil {
				return err
			}
			data, err := text.Write(src.state.Export(src.patterns))
			if err != nil {
				return fmt.Errorf("the kennel can't be written: %w", src.locate(err))
			}
			_, err = a.out.Write(data)
			return err
		},
	}
	a.fromFlags(c)
	return c
}
