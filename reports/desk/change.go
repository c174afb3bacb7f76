package desk

import (
	"context"
	"errors"
	"slices"

	"tuckup/kennel/book"
)

// fact is one thing that is told of what a form is about.
type fact struct{ Name, Value string }

// conflict is an edit that was refused because what it is about was changed in the meantime.
type conflict struct {
	Was, Now []fact
	Adds     bool // what was sent adds to what is there, and does not go over it
}

// Rows sets both versions side by side.
func (c *conflict) Rows() (rows []struct{ Name, Was, Now string }) {
	value := func(all []fact, name string) string {
		for _, f := range all {
			if f.Name == name {
				return f.Value
			}
		}
		return ""
	}
	var names []string
	for _, f := range slices.Concat(c.Was, c.Now) {
		if !slices.Contains(names, f.Name) {
			names = append(names, f.Name)
		}
	}
	for _, n := range names {
		rows = append(rows, struct{ Name, Was, Now string }{n, value(c.Was, n), value(c.Now, n)})
	}
	return rows
}

// edit is a change of the book that a form asks for.
type edit struct {
	version int64                   // that the person looked at
	about   func(book.State) []fact // what the form is about: while it is as it was, others may change the rest
	do      func(*book.State) (string, error)
	key     string                 // of the form: it is carried out once
	lands   func(book.Done) string // where the browser goes when it was carried out
	adds    bool                   // it adds to what it is about
}

// carry carries an edit out. A change to what it is about since it was looked at refuses it; the conflict says both
// versions.
func (d *Desk) carry(ctx context.Context, e edit) (done book.Done, c *conflict, err error) {
	const tries = 5
	version := e.version
	for range tries {
		done, err = d.opt.Book.CarryOnce(ctx, version, book.Once{Key: e.key, Answer: e.lands}, e.do)
		var stale *book.StaleError
		if !errors.As(err, &stale) {
			if err == nil {
				d.changed(done)
			}
			return done, nil, err
		}
		was, e1 := d.opt.Book.At(ctx, e.version)
		now, at, e2 := d.opt.Book.Read(ctx)
		if err := errors.Join(e1, e2); err != nil {
			return done, nil, err
		}
		if a, b := e.about(was), e.about(now); !slices.Equal(a, b) {
			return done, &conflict{Was: a, Now: b, Adds: e.adds}, nil
		}
		version = at
	}
	return done, nil, err
}
