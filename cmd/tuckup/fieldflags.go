package main

import (
	"strconv"

	"github.com/spf13/cobra"

	"tuckup/kennel/fields"
)

// fieldFlag is a flag that says a field of a thing, in the words that people write for it everywhere.
type fieldFlag struct {
	read  func(string) (any, error)
	value any
	words string // what the help says it is by default
	kind  string
}

func (f *fieldFlag) String() string { return f.words }

func (f *fieldFlag) Set(said string) (err error) {
	f.value, err = f.read(said)
	f.words = said
	return err
}

// Type is what the help calls the value.
func (f *fieldFlag) Type() string { return f.kind }

// addFieldFlags adds a flag for each of the fields; the help names what the usual thing has.
func addFieldFlags[T any](c *cobra.Command, usual T, all []fields.Field[T]) {
	for _, f := range all {
		flag := &fieldFlag{read: f.Reading().Read, words: f.Text(&usual), kind: map[fields.Kind]string{
			fields.Words: "string", fields.Day: "date", fields.Number: "float", fields.Whole: "int", fields.Yes: "bool",
		}[f.Kind()]}
		c.Flags().Var(flag, f.Flag(), f.Help())
		if f.Kind() == fields.Yes {
			c.Flags().Lookup(f.Flag()).NoOptDefVal = strconv.FormatBool(true)
		}
	}
}

// setFieldFlags writes what the flags say into the thing, and leaves alone what they don't.
func setFieldFlags[T any](c *cobra.Command, to *T, all []fields.Field[T]) {
	for _, f := range all {
		if flag, ours := c.Flags().Lookup(f.Flag()).Value.(*fieldFlag); ours && c.Flags().Changed(f.Flag()) {
			f.Set(to, flag.value)
		}
	}
}

// put writes a value where it was given.
func put[T any](given bool, to *T, v T) {
	if given {
		*to = v
	}
}
