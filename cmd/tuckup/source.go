package main

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/patterns"
	"tuckup/kennel/text"
	"tuckup/optimize"
	"tuckup/optimize/learn"
	"tuckup/testdata/demo"
)

// demoName stands for the file's name in what is said about the demo string.
const demoName = "demo"

// largestFile is the most bytes that a kennel or pattern file may have: hundreds of times the demo.
const largestFile = 16 << 20

// source is what a plan is made from.
type source struct {
	kennel    kennel.Kennel // as it is today
	patterns  kennel.Patterns
	positions text.Positions
	state     book.State // all that the book holds; of a kennel file the kennel only
	version   int64      // of the book
	book      string     // its path; "" = a kennel file
}

func (a *app) sourceFlags(c *cobra.Command) {
	a.fromFlags(c)
	c.Flags().StringVar(&a.flags.on, "on", "", "take this date as today, like 2027-01-04 (default: the file's plan_from, else today)")
}

// fromFlags are the flags that say what is read.
func (a *app) fromFlags(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.demo, "demo", false, "the invented string that comes with the program")
	c.Flags().Var((*pathValue)(&a.flags.kennel), "kennel", "kennel file to read")
	a.bookFlag(c)
	a.patternsFlag(c)
}

func (a *app) patternsFlag(c *cobra.Command) {
	c.Flags().StringArrayVar(&a.flags.patterns, "patterns", nil, "file of your own coat patterns; may be given more than once")
}

// source reads the kennel and the patterns that the flags name; where they name none, the book that is used by itself.
func (a *app) source(ctx context.Context) (source, error) {
	ps, err := a.readPatterns()
	if err != nil {
		return source{}, err
	}
	if err := a.onlyOne(); err != nil {
		return source{}, err
	}
	if !a.flags.demo && a.flags.kennel == "" {
		return a.bookSource(ctx, ps)
	}
	name, data, err := a.kennelFile()
	if err != nil {
		return source{}, err
	}
	k, pos, err := text.Read(name, data)
	if err != nil {
		return source{}, err
	}
	k.NamePatterns(ps)
	var doubts []error
	for _, d := range kennel.Doubts(k) {
		doubts = append(doubts, pos.Locate(d))
	}
	a.tellDoubts(doubts)
	var damage []error
	for _, d := range kennel.Damaged(k, ps) {
		damage = append(damage, pos.Locate(d))
	}
	a.tellDoubts(damage)
	return source{kennel: k, patterns: ps, positions: pos, state: book.State{Kennel: k}}, nil
}

// onlyOne refuses two things to be read at once.
func (a *app) onlyOne() error {
	var named []string
	for _, f := range []struct {
		flag  string
		given bool
	}{{"--demo", a.flags.demo}, {"--kennel", a.flags.kennel != ""}, {"--book", a.flags.book != ""}} {
		if f.given {
			named = append(named, f.flag)
		}
	}
	if len(named) < 2 {
		return nil
	}
	all := strings.Join(named, " and ")
	return usage("only one of "+all, "%s can't both be planned", all)
}

func (a *app) kennelFile() (name string, data []byte, err error) {
	if a.flags.demo {
		return demoName, demo.Kennel, nil
	}
	data, err = readFile(a.flags.kennel, "the path of a kennel file, or --demo")
	return a.flags.kennel, data, err
}

// bookSource reads the book that --book names, or the one that is used by itself.
func (a *app) bookSource(ctx context.Context, ps kennel.Patterns) (source, error) {
	b, err := a.readBook(ctx)
	if errors.Is(err, &book.Error{Trouble: book.TroubleNone}) && a.flags.book == "" {
		return source{}, usage("tuckup serve or tuckup dog add NAME to begin a book, tuckup import FILE to begin it from a file, --kennel FILE for a "+
			"kennel file, or --demo for the string that comes with the program",
			"no kennel is named, and there is no book yet")
	}
	if err != nil {
		return source{}, err
	}
	defer b.Close() //nolint:errcheck // only read
	s, version, err := b.Read(ctx)
	if err != nil {
		return source{}, err
	}
	return source{kennel: s.Kennel, patterns: ps, state: s, version: version, book: b.Path()}, nil
}

// locate says where what is wrong stands: in a file its line, in a book whose it is.
func (s source) locate(err error) error {
	var in *kennel.InputError
	if s.book != "" && errors.As(err, &in) {
		return book.Named(in, s.kennel)
	}
	return s.positions.Locate(err)
}

// remembered is how many days back work done is looked at: longer than the rarest duty is away.
const remembered = 53 * kennel.DaysAWeek

// asOf moves the kennel of a book to the day: coats moved by the work since they were looked at, without dogs that are
// gone and shows that are over. It sets what was agreed on and what was done in the plan's options.
func (s *source) asOf(on kennel.Date, opt *optimize.Options) {
	s.lookAt(on, opt)
	if s.book == "" {
		return
	}
	if dogs, err := s.learned(on, *opt); err == nil { // else every dog's growth is as unsure as that of one without records
		opt.GrowthSDs = learn.GrowthSDs(dogs)
	}
	opt.Missed = s.missed(on, *opt).Value
}

// lookAt is asOf for a plan that was made already: what the records tell of growth takes a while to work out, and is not asked.
func (s *source) lookAt(on kennel.Date, opt *optimize.Options) {
	opt.On, opt.Over = on, nil
	if s.book == "" {
		return
	}
	s.kennel = s.state.Now(s.patterns, on).InHand(on)
	for _, show := range s.state.Kennel.Shows {
		if show.Odd(on).Past {
			opt.Over = append(opt.Over, show)
		}
	}
	opt.Accepted = s.state.Accepted(on)
	opt.Done = s.state.Done(on.AddDays(-remembered), on)
}

// readPatterns is the built-in patterns with those of the files that --patterns names laid over them.
func (a *app) readPatterns() (kennel.Patterns, error) {
	ps, err := patterns.Builtin()
	if err != nil {
		return nil, err
	}
	for _, name := range a.flags.patterns {
		data, err := readFile(name, "the path of a pattern file")
		if err != nil {
			return nil, err
		}
		if ps, err = patterns.Read(name, data, ps); err != nil {
			return nil, err
		}
	}
	return ps, nil
}

// readFile reads a file that the person named. A file that is not there, is a folder or is far too large is wrong use.
func readFile(name, try string) ([]byte, error) { return readUpTo(name, try, largestFile) }

// readUpTo is readFile for files of at most most bytes.
func readUpTo(name, try string, most int) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, cannotRead(name, try, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, usage(try, "%q is a folder", name)
	}
	data, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	if err != nil {
		return nil, err
	}
	if len(data) > most {
		return nil, usage(try, "%q is larger than %d MB", name, most>>20)
	}
	return data, nil
}

// cannotRead says why a file can't be opened; what the person can mend is wrong use.
func cannotRead(name, try string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return usage(try, "there is no file %q", name)
	case errors.Is(err, fs.ErrPermission):
		return usage("a file that you may read", "%q can't be read: permission denied", name)
	}
	return err
}

// today is the date that the flag gives, else the kennel file's first day to plan, else the clock's. In a book the first
// day to plan only counts until it is over.
func (a *app) today(c *cobra.Command, src source) (kennel.Date, error) {
	return a.todayBy(c, "on", a.flags.on, src)
}

func (a *app) todayBy(c *cobra.Command, flag, given string, src source) (kennel.Date, error) {
	if c.Flags().Changed(flag) {
		return dateFlag(flag, given)
	}
	k := src.state.Kennel
	if k.PlanFrom != 0 && src.book == "" {
		return k.PlanFrom, nil
	}
	clock, err := a.clockDay(k)
	return max(clock, k.PlanFrom), err
}

// clockDay is the day that the clock shows in the kennel's zone.
func (a *app) clockDay(k kennel.Kennel) (kennel.Date, error) {
	zone := time.Local
	if k.TimeZone != "" {
		z, err := time.LoadLocation(k.TimeZone)
		if err != nil {
			return 0, err
		}
		zone = z
	}
	return kennel.DateOf(a.now().In(zone)), nil
}

// dateFlag reads the date that a flag was given.
func dateFlag(flag, given string) (kennel.Date, error) {
	d, err := kennel.ParseDay(given)
	var in *kennel.InputError
	if errors.As(err, &in) {
		return 0, usage("--"+flag+" with "+in.Try, "--%s %q %s", flag, given, in.What)
	}
	return d, err
}
