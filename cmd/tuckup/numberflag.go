package main

import (
	"strconv"

	"github.com/spf13/pflag"

	"tuckup/kennel"
)

// numberFlag is a flag with a number as people write it: with a point or a comma, with its unit or without.
type numberFlag[T ~float64] struct {
	to    *T
	parse func(string) (T, error)
}

// numberVar declares a flag that parse reads.
func numberVar[T ~float64](f *pflag.FlagSet, to *T, parse func(string) (T, error), name string, usual T, about string) {
	*to = usual
	f.Var(&numberFlag[T]{to, parse}, name, about)
}

func (n *numberFlag[T]) String() string {
	if n.to == nil {
		return "0"
	}
	return strconv.FormatFloat(float64(*n.to), 'g', -1, 64)
}

// Set takes a plain number, which may be out of range: what the book holds is checked as a whole.
func (n *numberFlag[T]) Set(said string) error {
	v, err := kennel.ParseNumber(said)
	if err == nil {
		*n.to = T(v)
		return nil
	}
	x, err := n.parse(said)
	if err == nil {
		*n.to = x
	}
	return err
}

// Type is what the help calls the value.
func (n *numberFlag[T]) Type() string { return "float" }
