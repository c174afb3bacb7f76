package book

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
)

// madePlan is a plan as the book sees one.
type madePlan struct {
	sessions []kennel.Session
	record   string
}

func (p madePlan) SessionsAhead() []kennel.Session { return p.sessions }
func (p madePlan) Pack() ([]byte, error)           { return []byte(p.record), nil }

// take takes a made plan with one session of Moss.
func take(t *testing.T, b *Book, record string, on kennel.Date) Done {
	t.Helper()
	p := madePlan{[]kennel.Session{{Dog: "Moss", On: on + 1, Start: 540, Minutes: 30}}, record}
	done, err := b.Change(t.Context(), AnyVersion, "took "+record, func(s *State) error { return s.Take(p, on, 1) })
	if err != nil {
		t.Fatal(err)
	}
	return done
}

func inUse(t *testing.T, b *Book) string {
	t.Helper()
	s, _, err := b.Read(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return string(s.Plan.Result)
}

// The plan in use comes and goes with the change that took it: through undo, history, a copy and opening again.
func TestThePlanInUseIsPartOfTheBook(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	if _, err := b.Change(ctx, AnyVersion, "moved in", func(s *State) error { *s = keptState(); return nil }); err != nil {
		t.Fatal(err)
	}
	if got := inUse(t, b); got != "" {
		t.Errorf("a book that no plan was taken in has %q", got)
	}
	done := take(t, b, "spring", monday)
	if got := string(done.State.Plan.Result); got != "spring" {
		t.Errorf("taking says that %q is in use", got)
	}
	copied := filepath.Join(t.TempDir(), "copy.db")
	if err := b.Backup(ctx, copied); err != nil {
		t.Fatal(err)
	}
	done = take(t, b, "summer", monday+7)
	if !slices.ContainsFunc(done.Changes, func(d Difference) bool { return d.String() == "changed plan in use: on day 2027-01-11 -> 2027-01-18" }) {
		t.Errorf("people are shown %v", done.Changes)
	}
	if was, err := b.At(ctx, done.Version-1); err != nil || string(was.Plan.Result) != "spring" {
		t.Errorf("one change ago %q was in use (%v)", was.Plan.Result, err)
	}
	if _, done, err := b.Undo(ctx, AnyVersion); err != nil || string(done.State.Plan.Result) != "spring" || inUse(t, b) != "spring" {
		t.Errorf("taken back, %q is in use (%v)", inUse(t, b), err)
	}
	if _, _, err := b.Undo(ctx, AnyVersion); err != nil || inUse(t, b) != "" {
		t.Errorf("with both taken back %q is in use (%v)", inUse(t, b), err)
	}
	if _, err := b.Restore(ctx, AnyVersion, Copy{Name: "copy", File: copied}); err != nil || inUse(t, b) != "spring" {
		t.Errorf("after the copy %q is in use (%v)", inUse(t, b), err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if b = open(t, path, options()); inUse(t, b) != "spring" {
		t.Errorf("opened again, %q is in use", inUse(t, b))
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
}

// A byte that changes in a plan's record is found, and the book can still be read.
func TestADamagedPlanIsFound(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	if _, err := b.Change(ctx, AnyVersion, "moved in", func(s *State) error { *s = keptState(); return nil }); err != nil {
		t.Fatal(err)
	}
	take(t, b, "spring", monday)
	if _, err := b.db.ExecContext(ctx, "UPDATE plan_records SET plan = x'00'"); err != nil {
		t.Fatal(err)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) != 1 || !strings.Contains(wrong[0], "plan") {
		t.Errorf("found %v (%v)", wrong, err)
	}
}

// The history does not grow with the plans, and only the newest of them are kept.
func TestOnlySoManyPlansAreKept(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	if _, err := b.Change(ctx, AnyVersion, "moved in", func(s *State) error { *s = keptState(); return nil }); err != nil {
		t.Fatal(err)
	}
	for n := range mostRecords + 3 {
		take(t, b, strings.Repeat("x", 10000+n), monday)
	}
	var kept, longest int
	if err := b.db.QueryRowContext(ctx, "SELECT (SELECT count(*) FROM plan_records), (SELECT max(length(before) + length(after)) FROM history WHERE id > 1)").Scan(&kept, &longest); err != nil {
		t.Fatal(err)
	}
	if kept != mostRecords || longest > 2000 {
		t.Errorf("%d plans are kept, the longest line of history has %d letters", kept, longest)
	}
	for range 2 {
		if _, _, err := b.Undo(ctx, AnyVersion); err != nil {
			t.Fatal(err)
		}
	}
	if got := len(inUse(t, b)); got != 10000+mostRecords {
		t.Errorf("taken back twice, a plan of %d letters is in use", got)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
}
