package book

import (
	"context"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

var noon = time.Date(2027, 1, 5, 12, 0, 0, 0, time.UTC)

func options() Options {
	return Options{Now: func() time.Time { return noon }, Who: "Handler", Create: true}
}

func open(t testing.TB, path string, opt Options) *Book {
	t.Helper()
	b, err := Open(context.Background(), path, opt)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

func sameName(n string) func(kennel.Dog) bool {
	return func(d kennel.Dog) bool { return strings.EqualFold(strings.TrimSpace(d.Name), strings.TrimSpace(n)) }
}

// Random changes are all in the book when it is opened again, every line of history tells one of them, and taking all of
// them back restores each state that was, to the last bit.
func TestUndoRestoresExactlyWhatWas(t *testing.T) {
	dir, n := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		n++
		ctx := context.Background()
		path := filepath.Join(dir, time.Duration(n).String()+" %20?#.db")
		b, err := Open(ctx, path, options())
		if err != nil {
			t.Fatal(err)
		}
		defer func() { b.Close() }()
		var states []State
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			was, version, err := b.Read(ctx)
			if err != nil {
				t.Fatal(err)
			}
			e := rapid.SampledFrom(edits).Draw(t, "edit")
			done, err := b.Change(ctx, version, e.name, func(s *State) error { e.edit(t, s); return nil })
			if err != nil {
				t.Fatalf("%s: %v", e.name, err)
			}
			now, v, err := b.Read(ctx)
			if err != nil || v != done.Version || !reflect.DeepEqual(now, done.State) {
				t.Fatalf("after %s the book holds\n%+v\nnot\n%+v (%v)", e.name, now, done.State, err)
			}
			if changed := !reflect.DeepEqual(was, now); changed != (v != version) || changed != (len(done.Changes) > 0) {
				t.Fatalf("after %s changed is %v, versions %d and %d, told are %v", e.name, changed, version, v, done.Changes)
			}
			if v != version {
				states = append(states, was)
			}
		}
		last, _, err := b.Read(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		if b, err = Open(ctx, path, options()); err != nil {
			t.Fatal(err)
		}
		if again, _, err := b.Read(ctx); err != nil || !reflect.DeepEqual(again, last) {
			t.Fatalf("opened again it holds\n%+v\nnot\n%+v (%v)", again, last, err)
		}
		if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
			t.Fatal(wrong, err)
		}
		for i, want := range states {
			if got, err := b.At(ctx, int64(i)); err != nil || !reflect.DeepEqual(got, want) {
				t.Fatalf("after change %d it held\n%+v\nnot\n%+v (%v)", i, got, want, err)
			}
		}
		for i := len(states) - 1; i >= 0; i-- {
			if _, _, err := b.Undo(ctx, AnyVersion); err != nil {
				t.Fatal(err)
			}
			if got, _, err := b.Read(ctx); err != nil || !reflect.DeepEqual(got, states[i]) {
				t.Fatalf("taken back, it holds\n%+v\nnot\n%+v (%v)", got, states[i], err)
			}
		}
		if lines, err := b.History(ctx, 0); err != nil || len(lines) != 2*len(states) {
			t.Fatalf("%d lines for %d changes taken back (%v)", len(lines), len(states), err)
		}
		if _, _, err := b.Undo(ctx, AnyVersion); err == nil {
			t.Fatal("took back what was not there")
		}
	})
}
