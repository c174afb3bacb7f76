package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Line is one line of the history.
type Line struct {
	ID     int64
	At     time.Time // UTC
	Who    string
	What   string
	Before string // the rows that went, by table, as JSON
	After  string // the rows that came, by table, as JSON
	Undoes int64  // the change that this one took back; 0 = none
	Undone bool   // taken back by a later one
}

const lineColumns = `SELECT id, at, who, what, before, after, coalesce(undoes, 0),
	EXISTS (SELECT 1 FROM history u WHERE u.undoes = h.id) FROM history h `

// History is the last n lines of history, the newest first; 0 or less for all.
func (b *Book) History(ctx context.Context, n int) (all []Line, err error) {
	if n <= 0 {
		n = -1 // SQLite's "no limit"
	}
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, lineColumns+"ORDER BY id DESC LIMIT ?", n)
		if err != nil {
			return err
		}
		defer rows.Close() //nolint:errcheck // rows.Err tells it
		for rows.Next() {
			l, err := scanLine(b.path, rows)
			if err != nil {
				return err
			}
			all = append(all, l)
		}
		return rows.Err()
	})
	return all, err
}

func scanLine(path string, r interface{ Scan(...any) error }) (l Line, err error) {
	var at string
	if err = r.Scan(&l.ID, &at, &l.Who, &l.What, &l.Before, &l.After, &l.Undoes, &l.Undone); err != nil {
		return l, err
	}
	if l.At, err = time.Parse(time.RFC3339, at); err != nil {
		return l, damaged(path, fmt.Sprintf("the book %q is damaged: line %d of its history was written at %q, which is no time", path, l.ID, at), err)
	}
	return l, nil
}

// Undo takes back the last change that was not taken back yet, and that is no taking back itself, so that asked again
// it goes further back. It is a line of history of its own. With expect other than AnyVersion it is refused with a
// *StaleError when the book's last change is another one.
func (b *Book) Undo(ctx context.Context, expect int64) (undone Line, done Done, err error) {
	return b.undo(ctx, expect, true, Once{})
}

// UndoOnce is Undo when it may be asked for again, like CarryOnce. Asked again, undone is empty.
func (b *Book) UndoOnce(ctx context.Context, expect int64, once Once) (undone Line, done Done, err error) {
	return b.undo(ctx, expect, true, once)
}

// TryUndo says what Undo would take back, and writes nothing.
func (b *Book) TryUndo(ctx context.Context) (undone Line, done Done, err error) {
	return b.undo(ctx, AnyVersion, false, Once{})
}

func (b *Book) undo(ctx context.Context, expect int64, keep bool, once Once) (undone Line, done Done, err error) {
	err = b.changing(ctx, keep, func(tx *sql.Tx, copied *dayCopy) error {
		var again bool
		if done, again, err = once.again(ctx, tx); err != nil || again {
			return err
		}
		version, err := expected(ctx, tx, expect)
		if err != nil {
			return err
		}
		undone, err = scanLine(b.path, tx.QueryRowContext(ctx, lineColumns+
			"WHERE undoes IS NULL AND NOT EXISTS (SELECT 1 FROM history u WHERE u.undoes = h.id) ORDER BY id DESC LIMIT 1"))
		if errors.Is(err, sql.ErrNoRows) {
			return &Error{Trouble: TroubleNothing, What: "there is no change to take back", Try: "tuckup history for what was changed"}
		}
		if err != nil {
			return err
		}
		p, now, err := b.backwards(ctx, tx, undone)
		if err != nil {
			return err
		}
		done = Done{Version: version, Changes: p.differences()}
		if done.State, err = b.decode(ctx, tx, now); err != nil || !keep {
			return err
		}
		done.Uncopied = copied.make(ctx, version)
		if err := b.write(ctx, tx, p); err != nil {
			return err
		}
		if done.Version, err = b.line(ctx, tx, "took back: "+undone.What, p, undone.ID); err != nil {
			return err
		}
		return b.answer(ctx, tx, once, &done)
	})
	return undone, done, err
}

// backwards is the patch that takes a line back, and the content after it.
func (b *Book) backwards(ctx context.Context, tx *sql.Tx, l Line) (p patch, now content, err error) {
	if p.before, err = decodeRows(l.After); err != nil {
		return p, now, err
	}
	if p.after, err = decodeRows(l.Before); err != nil {
		return p, now, err
	}
	was, err := load(ctx, tx)
	if err != nil {
		return p, now, err
	}
	now, err = p.on(was)
	return p, now, err
}

// At is what the book held after an earlier change; 0 is the book before its first. The error is an *Error when there
// never was such a change.
func (b *Book) At(ctx context.Context, change int64) (s State, err error) {
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		version, err := lastChange(ctx, tx)
		if err != nil {
			return err
		}
		if change < 0 || change > version {
			return &Error{
				Trouble: TroubleNothing, What: fmt.Sprintf("the book has no change %d", change),
				Try: "tuckup history lists the changes",
			}
		}
		c, err := load(ctx, tx)
		if err != nil {
			return err
		}
		for n := version; n > change; n-- {
			l, err := scanLine(b.path, tx.QueryRowContext(ctx, lineColumns+"WHERE id = ?", n))
			if err != nil {
				return err
			}
			if c, err = l.before(c); err != nil {
				return err
			}
		}
		s, err = b.decode(ctx, tx, c)
		return err
	})
	return s, err
}

// before is the content before the line's change.
func (l Line) before(c content) (was content, err error) {
	var p patch
	if p.before, err = decodeRows(l.After); err != nil {
		return was, err
	}
	if p.after, err = decodeRows(l.Before); err != nil {
		return was, err
	}
	return p.on(c)
}
