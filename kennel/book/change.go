package book

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"time"

	"tuckup/kennel"
)

// AnyVersion lets a change be made whatever the book's last change is.
const AnyVersion int64 = -1

// Done is what a change did.
type Done struct {
	Version int64        // number of the change in the history; that of the last one when nothing differed
	State   State        // as it is now
	Changes []Difference // in words, empty when nothing differed
	// Uncopied is why the book as it was before the first change of the day could not be copied; nil = it was, or there
	// was no need to. The change is made all the same.
	Uncopied error
	Answer   string // what whoever asked is answered, by Once
	Again    bool   // it was carried out before: nothing was changed now, and State and Changes are empty
}

// Change makes one change: edit is given all that the book holds and changes it in place. What it leaves is checked
// whole, only rows that differ are written, and one line of history says what was done. An error of edit, or a kennel
// that can't be, changes nothing. When edit leaves everything as it was, no line is written. expect is the version that
// the person looked at, or AnyVersion; another one in the book is a *StaleError.
func (b *Book) Change(ctx context.Context, expect int64, what string, edit func(*State) error) (Done, error) {
	return b.Carry(ctx, expect, func(s *State) (string, error) { return what, edit(s) })
}

// Carry is Change for an edit that itself says what it did, because only it knows which names were meant.
func (b *Book) Carry(ctx context.Context, expect int64, edit func(*State) (what string, err error)) (Done, error) {
	return b.CarryOnce(ctx, expect, Once{}, edit)
}

// CarryOnce is Carry for a change that may be asked for again: then it is answered as it was the first time, and nothing
// is changed, whatever the version that is expected.
func (b *Book) CarryOnce(ctx context.Context, expect int64, once Once, edit func(*State) (what string, err error)) (Done, error) {
	return b.change(ctx, change{expect: expect, once: once, edit: edit, keep: true, patterns: b.opt.Patterns})
}

// Try is Change on a copy: it says what would change, and writes nothing.
func (b *Book) Try(ctx context.Context, edit func(*State) error) (Done, error) {
	return b.change(ctx, change{
		expect: AnyVersion, edit: func(s *State) (string, error) { return "", edit(s) }, patterns: b.opt.Patterns,
	})
}

// change is a change that is to be made.
type change struct {
	expect   int64
	once     Once
	edit     func(*State) (what string, err error)
	keep     bool            // write it
	patterns kennel.Patterns // what dogs that differ are checked against; nil = not checked
}

func (b *Book) change(ctx context.Context, c change) (done Done, err error) {
	err = b.changing(ctx, c.keep, func(tx *sql.Tx, copied *dayCopy) error {
		var again bool
		if done, again, err = c.once.again(ctx, tx); err != nil || again {
			return err
		}
		version, err := expected(ctx, tx, c.expect)
		if err != nil {
			return err
		}
		was, err := load(ctx, tx)
		if err != nil {
			return err
		}
		s, err := b.decode(ctx, tx, was)
		if err != nil {
			return err
		}
		what, err := c.edit(&s)
		if err != nil {
			return err
		}
		s.Kennel.NamePatterns(c.patterns)
		now, err := settle(was, &s, c.patterns)
		if err != nil {
			return err
		}
		p := between(was, now)
		done = Done{Version: version, State: s, Changes: p.differences()}
		switch {
		case !c.keep:
			return nil
		case p.empty():
			return b.answer(ctx, tx, c.once, &done)
		}
		done.Uncopied = copied.make(ctx, version)
		if err := b.write(ctx, tx, p); err != nil {
			return err
		}
		if len(p.after[tPlan]) > 0 {
			if err := keepRecord(ctx, tx, s.Plan.Result); err != nil {
				return err
			}
		}
		if done.Version, err = b.line(ctx, tx, what, p, 0); err != nil {
			return err
		}
		return b.answer(ctx, tx, c.once, &done)
	})
	if err != nil {
		return Done{}, err
	}
	return done, nil
}

// changing does something in one transaction that may keep the day's copy first. Where that copy has taken the room that
// the change itself needs, it is dropped and the change is made without.
func (b *Book) changing(ctx context.Context, keep bool, do func(*sql.Tx, *dayCopy) error) error {
	copied := &dayCopy{book: b}
	err := b.inside(ctx, !keep, func(tx *sql.Tx) error { return do(tx, copied) })
	if errors.Is(err, &Error{Trouble: TroubleFull}) && copied.drop() {
		err = b.inside(ctx, !keep, func(tx *sql.Tx) error { return do(tx, copied) })
	}
	return err
}

// settle numbers new records, checks the state against what it was before and returns it as rows.
func settle(was content, s *State, patterns kennel.Patterns) (content, error) {
	s.number()
	now := encode(*s)
	for t := range tables {
		if !tables[t].ordered() {
			tables[t].sort(now[t])
		}
	}
	if err := check(*s, was, now, patterns); err != nil {
		return now, err
	}
	keepOrder(was, now)
	settled, err := decode(now)
	if err != nil {
		return now, &kennel.InputError{What: err.Error(), Try: "days of the years 1971 to 2199"}
	}
	settled.Plan.Result = s.Plan.Result
	*s = settled
	return now, nil
}

// number gives new records their numbers. A number is never given to other work of the same book that a look at a coat
// speaks of.
func (s *State) number() {
	work := s.lastWork()
	for i := range s.Work {
		if s.Work[i].ID == 0 {
			work++
			s.Work[i].ID = work
		}
	}
	numbered(s.Measures, func(m *Measure) *int64 { return &m.ID })
	numbered(s.Showables, func(x *Showable) *int64 { return &x.ID })
	numbered(s.Sessions, func(x *Session) *int64 { return &x.ID })
	numbered(s.Photos, func(x *Photo) *int64 { return &x.ID })
}

func numbered[T any](all []T, id func(*T) *int64) {
	var last int64
	for i := range all {
		last = max(last, *id(&all[i]))
	}
	for i := range all {
		if n := id(&all[i]); *n == 0 {
			last++
			*n = last
		}
	}
}

// write carries a patch out: rows that go without coming again are deleted, rows that come are put in their place.
func (b *Book) write(ctx context.Context, tx *sql.Tx, p patch) error {
	for t := range tables {
		b.at(stageRows)
		comes := map[string]bool{}
		for _, r := range p.after[t] {
			comes[tables[t].key(r)] = true
		}
		for _, r := range p.before[t] {
			if comes[tables[t].key(r)] {
				continue
			}
			if _, err := tx.ExecContext(ctx, tables[t].deletion(), r[:tables[t].keys]...); err != nil {
				return err
			}
		}
		if err := tables[t].put(ctx, tx, p.after[t]); err != nil {
			return err
		}
	}
	return nil
}

func (t *table) put(ctx context.Context, tx *sql.Tx, rows []row) error {
	if len(rows) == 0 {
		return nil
	}
	put, err := tx.PrepareContext(ctx, t.insertion())
	if err != nil {
		return err
	}
	defer put.Close() //nolint:errcheck // its errors are those of its executions
	for _, r := range rows {
		if _, err := put.ExecContext(ctx, r...); err != nil {
			return err
		}
	}
	return nil
}

func (t *table) deletion() string {
	where := make([]string, t.keys)
	for i := range where {
		where[i] = t.columns[i].name + " = ?"
	}
	return "DELETE FROM " + t.name + " WHERE " + strings.Join(where, " AND ")
}

// insertion puts a row in, over the one with the same key where there is one.
func (t *table) insertion() string {
	names := t.names()
	sets := make([]string, 0, len(names))
	for _, n := range names[t.keys:] {
		sets = append(sets, n+" = excluded."+n)
	}
	return "INSERT INTO " + t.name + " (" + strings.Join(names, ", ") + ") VALUES (?" + strings.Repeat(", ?", len(names)-1) +
		") ON CONFLICT (" + strings.Join(names[:t.keys], ", ") + ") DO UPDATE SET " + strings.Join(sets, ", ")
}

// line writes one line of history and returns its number.
func (b *Book) line(ctx context.Context, tx *sql.Tx, what string, p patch, undoes int64) (int64, error) {
	before, err := encodeRows(p.before)
	if err != nil {
		return 0, err
	}
	after, err := encodeRows(p.after)
	if err != nil {
		return 0, err
	}
	l := link{
		at: b.opt.Now().UTC().Format(time.RFC3339), who: b.opt.Who, what: what, before: before, after: after, undoes: undoes,
	}
	if l.id, err = lastChange(ctx, tx); err != nil {
		return 0, err
	}
	l.id++
	prev, err := lastSum(ctx, tx)
	if err != nil {
		return 0, err
	}
	_, err = tx.ExecContext(ctx, "INSERT INTO history (id, at, who, what, before, after, undoes, sum) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
		l.id, l.at, l.who, l.what, l.before, l.after, number(l.undoes), l.sumAfter(prev))
	return l.id, err
}
