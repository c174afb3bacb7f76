package desk

import (
	"bytes"
	"context"
	"sync"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	plans "tuckup/optimize/planned"
	"tuckup/reports/say"
)

// planned is a plan as it is seen on a day.
type planned struct {
	optimize.Result                 // as it is shown: from the day on, with what has changed since
	whole           optimize.Result // as it was made: with its days that are over and what was done of it
	record          []byte          // in the book; nil = it is not taken
	ask             ask             // the book and the day that it is seen with; of a plan that is not taken, that it was made for
	views           *views

	// Of a plan that was looked for because the one in use was made in a hurry: that one, by how many points this one is better, 0 where that can't
	// be said, and of how many things that can't be met it says the reason and that one doesn't.
	better  *planned
	gain    float64
	reasons int
}

// begin is the plan for a search to begin with; nil where there is none, or it can't be read.
func (x *planned) begin() *optimize.Result {
	switch {
	case x == nil:
		return nil
	case x.record == nil:
		return &x.whole
	}
	r, err := plans.Unpack(x.record)
	if err != nil {
		return nil
	}
	return &r
}

// days are the plan's days: up to today with what was done of them, then as they are still to come.
func (x *planned) days(today kennel.Date) (all []optimize.Day) {
	for _, d := range x.whole.Timetable.Days {
		if d.On <= today {
			all = append(all, d)
		}
	}
	for _, d := range x.Timetable.Days {
		if d.On > today {
			all = append(all, d)
		}
	}
	return all
}

// inUse keeps the plan in use as it was read and seen last.
type inUse struct {
	mu     sync.Mutex
	record []byte
	whole  optimize.Result
	err    error
	seen   *planned
}

// of is the plan in use of a book, nil for none. The error says why it can't be read.
func (u *inUse) of(l look, opt Options) (*planned, error) {
	record := l.state.Plan.Result
	if record == nil {
		return nil, nil
	}
	u.mu.Lock()
	defer u.mu.Unlock()
	if !bytes.Equal(u.record, record) {
		u.record, u.seen = record, nil
		u.whole, u.err = plans.UnpackShown(record)
	}
	if u.err != nil {
		return nil, u.err
	}
	if now := (ask{l.version, l.today}); u.seen == nil || u.seen.ask != now {
		u.seen = seenOf(u.whole, record, l, opt, u.seen)
	}
	return u.seen, nil
}

// forget has the plan in use seen again: what it is seen with besides the book has changed.
func (u *inUse) forget() {
	u.mu.Lock()
	defer u.mu.Unlock()
	u.seen = nil
}

// seenOf is a plan as it is seen with the book of a look. What was drawn of it before is kept where it is the same.
func seenOf(whole optimize.Result, record []byte, l look, opt Options, before *planned) *planned {
	r := opt.Seen(whole, Wish{State: l.state, On: l.today})
	return &planned{Result: r, whole: whole, record: record, ask: ask{l.version, l.today}, views: before.viewsFor(r)}
}

// viewsFor are the pictures of a plan that is seen again.
func (x *planned) viewsFor(r optimize.Result) *views {
	if x == nil || x.On != r.On {
		return &views{}
	}
	return x.views.keep(x.Result, r)
}

// takeFirst makes the first plan of a book the one in use, unless another was taken meanwhile.
func (d *Desk) takeFirst(x *planned) error {
	_, err := d.opt.Book.Carry(context.Background(), book.AnyVersion, func(s *book.State) (string, error) {
		if s.Plan.Result != nil {
			return tookWords(x.Result), nil
		}
		return tookWords(x.Result), s.Take(x.Result, x.On, x.ask.version)
	})
	return err
}

// tookWords are the history's words for a plan that was taken.
func tookWords(r optimize.Result) string {
	return "took the plan: " + say.Taken(r)
}
