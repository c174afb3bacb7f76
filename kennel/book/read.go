package book

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	"tuckup/kennel"
)

// Read is all that the book holds, and the number of the last change that made it so.
func (b *Book) Read(ctx context.Context) (s State, version int64, err error) {
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		c, err := load(ctx, tx)
		if err != nil {
			return err
		}
		if version, err = lastChange(ctx, tx); err != nil {
			return err
		}
		s, err = b.decode(ctx, tx, c)
		return err
	})
	return s, version, err
}

// Kennel is the kennel as it was told: coats as they were last looked at.
func (b *Book) Kennel(ctx context.Context) (kennel.Kennel, error) {
	s, _, err := b.Read(ctx)
	return s.Kennel, err
}

// Version is the number of the last change, 0 for none.
func (b *Book) Version(ctx context.Context) (version int64, err error) {
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		version, err = lastChange(ctx, tx)
		return err
	})
	return version, err
}

// expected is the number of the last change; another one than the person looked at is a *StaleError.
func expected(ctx context.Context, tx *sql.Tx, expect int64) (version int64, err error) {
	version, err = lastChange(ctx, tx)
	if err == nil && expect != AnyVersion && expect != version {
		err = &StaleError{Looked: expect, Now: version}
	}
	return version, err
}

func lastChange(ctx context.Context, tx *sql.Tx) (version int64, err error) {
	err = tx.QueryRowContext(ctx, "SELECT coalesce(max(id), 0) FROM history").Scan(&version)
	return version, err
}

func (b *Book) decode(ctx context.Context, tx *sql.Tx, c content) (State, error) {
	s, err := decode(c)
	if err == nil {
		if s.Plan.Result, err = recordOf(ctx, tx, c); err != nil {
			return State{}, err
		}
	}
	if err != nil {
		return State{}, damaged(b.path, fmt.Sprintf("the book %q holds what no kennel can: %v", b.path, err), err)
	}
	return s, nil
}

// load reads all rows of all tables.
func load(ctx context.Context, tx *sql.Tx) (c content, err error) {
	for t := range tables {
		if c[t], err = tables[t].load(ctx, tx); err != nil {
			return c, err
		}
	}
	return c, nil
}

func (t *table) load(ctx context.Context, tx *sql.Tx) (all []row, err error) {
	rows, err := tx.QueryContext(ctx, t.selection())
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // rows.Err tells it
	into := make([]any, len(t.columns))
	for rows.Next() {
		r := make(row, len(t.columns))
		for i := range r {
			into[i] = &r[i]
		}
		if err := rows.Scan(into...); err != nil {
			return nil, err
		}
		for i, c := range t.columns {
			if !c.holds(r[i]) {
				return nil, &valueError{fmt.Sprintf("%s.%s holds %v, which is of another kind", t.name, c.name, r[i])}
			}
		}
		all = append(all, r)
	}
	return all, rows.Err()
}

// holds reports whether a value is of the column's kind; what was not told is of every kind.
func (c column) holds(v any) bool {
	ok := v == nil
	if !ok {
		switch c.kind {
		case words:
			_, ok = v.(string)
		case whole:
			_, ok = v.(int64)
		case real:
			_, ok = v.(float64)
		}
	}
	return ok
}

// valueError is a value that no program of ours writes into its column.
type valueError struct{ what string }

func (e *valueError) Error() string { return e.what }

func (t *table) selection() string {
	return "SELECT " + strings.Join(t.names(), ", ") + " FROM " + t.name + " ORDER BY " + strings.Join(t.orderNames(), ", ")
}

func (t *table) names() []string {
	all := make([]string, len(t.columns))
	for i, c := range t.columns {
		all[i] = c.name
	}
	return all
}

func (t *table) orderNames() (all []string) {
	for _, i := range t.order() {
		all = append(all, t.columns[i].name)
	}
	return all
}
