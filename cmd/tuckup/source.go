package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"time"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/kennel/text"
	"tuckup/testdata/demo"
)

// demoName stands for the file's name in what is said about the demo string.
const demoName = "demo"

// largestFile is the most bytes that a kennel or pattern file may have: hundreds of times the demo.
const largestFile = 16 << 20

// source is what a plan is made from.
type source struct {
	kennel    kennel.Kennel
	patterns  kennel.Patterns
	positions text.Positions
}

func (a *app) sourceFlags(c *cobra.Command) {
	c.Flags().BoolVar(&a.flags.demo, "demo", false, "plan the invented string that comes with the program")
	c.Flags().StringVar(&a.flags.kennel, "kennel", "", "kennel file to plan")
	c.Flags().StringVar(&a.flags.on, "on", "", "take this date as today, like 2027-01-04 (default: the file's plan_from, else today)")
	a.patternsFlag(c)
}

func (a *app) patternsFlag(c *cobra.Command) {
	c.Flags().StringArrayVar(&a.flags.patterns, "patterns", nil, "file of your own coat patterns; may be given more than once")
}

// source reads the kennel and the patterns that the flags name.
func (a *app) source() (source, error) {
	name, data, err := a.kennelFile()
	if err != nil {
		return source{}, err
	}
	ps, err := a.readPatterns()
	if err != nil {
		return source{}, err
	}
	k, pos, err := text.Read(name, data)
	if err != nil {
		return source{}, err
	}
	return source{k, ps, pos}, nil
}

func (a *app) kennelFile() (name string, data []byte, err error) {
	switch {
	case a.flags.demo && a.flags.kennel != "":
		return "", nil, usage("only one of --demo and --kennel", "--demo and --kennel can't both be planned")
	case a.flags.demo:
		return demoName, demo.Kennel, nil
	case a.flags.kennel == "":
		return "", nil, usage("--kennel FILE, or --demo for the string that comes with the program", "no kennel is named")
	}
	data, err = readFile(a.flags.kennel, "the path of a kennel file, or --demo")
	return a.flags.kennel, data, err
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
func readFile(name, try string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, cannotRead(name, try, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, usage(try, "%q is a folder", name)
	}
	data, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err != nil {
		return nil, err
	}
	if len(data) > largestFile {
		return nil, usage(try, "%q is larger than %d MB", name, largestFile>>20)
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

// today is the date that the flags, the kennel or the clock give, in this order.
func (a *app) today(c *cobra.Command, k kennel.Kennel) (kennel.Date, error) {
	if c.Flags().Changed("on") {
		d, err := kennel.ParseDate(a.flags.on)
		if err != nil {
			return 0, usage("--on with a date like 2027-01-04", "--on %v", err)
		}
		return d, nil
	}
	if k.PlanFrom != 0 {
		return k.PlanFrom, nil
	}
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
