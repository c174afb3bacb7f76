package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/kennel/text"
)

func (a *app) importCommand() *cobra.Command {
	var (
		replace    bool
		dogs       string
		ofNewShows = fields.Show.Only("weight", "chance")
	)
	e := a.inBook(true)
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "Read a kennel file, a table of dogs or shows, or a calendar of shows into the book",
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
		read := reading{name: args[0], data: data, patterns: ps}
		given := c.Flags().Changed
		if replace && !read.isKennel() {
			return usage("a kennel file, or without --replace", "--replace needs a kennel file; %q only tells of some dogs or shows", read.name)
		}
		if err := read.parse(c.Context(), func() (kennel.Date, error) { return a.todayOfBook(c) }); err != nil { // before the book is locked
			return err
		}
		var (
			before []kennel.Show
			after  []kennel.Show
			on     kennel.Date
		)
		err = e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			what := "took in " + filepath.Base(read.name)
			before, on = s.Kennel.Clone().Shows, today
			defer func() { after = s.Kennel.Clone().Shows }()
			if read.isKennel() {
				read.kennelInto(s, replace, today)
				return what, nil
			}
			named, err := s.Kennel.FindDogs(kennel.SplitNames(dogs))
			if err != nil {
				return "", err
			}
			return what, s.Rows(read.rows, read.name, today, func(show *kennel.Show) {
				setFieldFlags(c, show, ofNewShows)
				put(given("dogs"), &show.Dogs, named)
			})
		})
		if err != nil {
			return err
		}
		a.tellOdd(read, before, after, on)
		return nil
	}
	c.Flags().BoolVar(&replace, "replace", false, "replace the dogs, shows and hours in the book with the kennel file")
	addFieldFlags(c, kennel.UsualShow(), ofNewShows)
	c.Flags().StringVar(&dogs, "dogs", "", "dogs that new shows of a table or calendar are for, with commas between")
	e.flags(c)
	return c
}

// reading is a file that is taken in; its name's ending says what it is.
type reading struct {
	name     string
	data     []byte
	patterns kennel.Patterns
	table    text.TableLook

	kennel kennel.Kennel // of a kennel file
	rows   text.Rows     // of a table or a calendar
}

func (r reading) ending() string { return strings.ToLower(filepath.Ext(r.name)) }

func (r reading) isKennel() bool { return r.ending() != ".csv" && r.ending() != ".ics" }

// parse reads what the file says. today is asked of a calendar only.
func (r *reading) parse(ctx context.Context, today func() (kennel.Date, error)) (err error) {
	switch {
	case r.isKennel():
		var at text.Positions
		if r.kennel, at, err = text.Read(r.name, r.data); err != nil {
			return err
		}
		r.kennel.NamePatterns(r.patterns)
		return at.Locate(kennel.Check(r.kennel, r.patterns))
	case r.ending() == ".csv":
		r.rows, err = text.ReadTable(r.name, r.data, r.table)
		return err
	}
	return r.parseCalendar(ctx, today)
}

// yearsAhead is how many days of a calendar are read from today on: two years, the longest season.
const yearsAhead = 2 * 365

func (r *reading) parseCalendar(ctx context.Context, day func() (kennel.Date, error)) error {
	today, err := day()
	if err != nil {
		return err
	}
	r.rows, err = text.ReadICS(ctx, r.name, r.data, today, today.AddDays(yearsAhead))
	switch {
	case ctx.Err() != nil:
		return fmt.Errorf("stopped while %q was read; nothing was changed", r.name)
	case err != nil:
		return err
	case len(r.rows.Shows) == 0:
		return usage("a calendar with shows from "+today.String()+" on, or an earlier --today", "%q holds no show in the next two years", r.name)
	}
	return nil
}

// todayOfBook is today for the book that an import goes into, also where it is yet to be begun.
func (a *app) todayOfBook(c *cobra.Command) (kennel.Date, error) {
	b, err := a.readBook(c.Context())
	if errors.Is(err, &book.Error{Trouble: book.TroubleNone}) {
		return a.todayBy(c, "today", a.flags.today, source{})
	}
	if err != nil {
		return 0, err
	}
	defer b.Close() //nolint:errcheck // only read
	s, _, err := b.Read(c.Context())
	if err != nil {
		return 0, err
	}
	return a.todayBy(c, "today", a.flags.today, source{state: s, book: b.Path()})
}

func (r reading) kennelInto(s *book.State, replace bool, today kennel.Date) {
	seen := today
	if r.kennel.PlanFrom != 0 {
		seen = r.kennel.PlanFrom // the file's layers are those of that day
	}
	if replace {
		s.Replace(r.kennel, seen)
	} else {
		s.Merge(r.kennel, seen)
	}
}

func (a *app) exportCommand() *cobra.Command {
	var photos string
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
			if photos != "" {
				written, missing, err := exportPhotos(src.state, src.book, photos)
				if err != nil {
					return err
				}
				a.say(fmt.Sprintf("%d pictures are written into %s, %d are missing or damaged", written, photos, missing), "")
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
	c.Flags().StringVar(&photos, "photos", "", "folder to write the pictures of the book into as well; it is created if needed")
	return c
}
