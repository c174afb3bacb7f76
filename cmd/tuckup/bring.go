package main

import (
	"context"
	"errors"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/text"
	"tuckup/optimize/learn"
	"tuckup/reports/desk"
)

// bring reads a file that was sent to the desk, like import reads one of the disk.
func (m bookDesk) bring(ctx context.Context, f desk.File) (desk.Brought, error) {
	read := reading{name: f.Name, data: f.Data, patterns: m.ps}
	read.table.Dates = text.DateOrder(f.Dates)
	for _, sign := range f.Separator {
		read.table.Separator = sign
	}
	err := read.parse(ctx, func() (kennel.Date, error) { return f.Today, nil })
	var wrong *usageError
	if errors.As(err, &wrong) {
		err = &kennel.InputError{What: wrong.what, Try: wrong.try}
	}
	if err != nil {
		return nil, err
	}
	return func(s *book.State) (string, error) {
		s.Begin()
		what := "took in " + read.name
		if read.isKennel() {
			read.kennelInto(s, f.Replace, f.Today)
			return what, nil
		}
		return what, s.Rows(read.rows, read.name, f.Today, func(show *kennel.Show) {
			if f.Chance != 1 {
				show.Chance = f.Chance
			}
			if len(f.Dogs) > 0 {
				show.Dogs = slices.Clone(f.Dogs)
			}
		})
	}, nil
}

// learned is what the book's records tell.
func (m bookDesk) learned(s book.State, on kennel.Date) ([]learn.Dog, learn.Estimate, error) {
	src := source{kennel: s.Kennel.InHand(on), patterns: m.ps, state: s}
	opt := m.live.options()
	dogs, err := src.learned(on, opt)
	return dogs, src.missed(on, opt), err
}

// export writes what a book holds of the kennel as a kennel file.
func (m bookDesk) export(s book.State) ([]byte, error) { return text.Write(s.Export(m.ps)) }
