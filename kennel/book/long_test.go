package book

import (
	"context"
	"database/sql"
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"tuckup/kennel"
)

// longBook is a book as it was written before names had a limit: a kennel, a dog, an owner and a show with names of
// thousands of letters, and a note that tells a novel.
func longBook(t *testing.T) (b *Book, dog string) {
	t.Helper()
	ctx := context.Background()
	b = open(t, filepath.Join(t.TempDir(), "book.db"), options())
	s := keptState()
	s.Kennel.Name = strings.Repeat("Thornfield ", 500) + "x"
	dog = strings.Repeat("Sorrel ", 500) + "x"
	s.Kennel.Shows[0].Name = strings.Repeat("Brackenmere ", 500) + "x"
	s.Kennel.Dogs[1].Owner = strings.Repeat("Calloway ", 500) + "x"
	s.Work[0].Note = strings.Repeat("fussy ", 5000) + "x"
	s.RenameDog("Sorrel", dog)
	err := b.inside(ctx, false, func(tx *sql.Tx) error {
		was, err := load(ctx, tx)
		if err != nil {
			return err
		}
		now := encode(s)
		for i := range tables {
			if !tables[i].ordered() {
				tables[i].sort(now[i])
			}
		}
		p := between(was, now)
		if err := b.write(ctx, tx, p); err != nil {
			return err
		}
		_, err = b.line(ctx, tx, "written long ago", p, 0)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b, dog
}

func TestABookWithLongerNamesIsReadAndFixed(t *testing.T) {
	ctx := context.Background()
	b, dog := longBook(t)
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Fatalf("%v, %v", wrong, err)
	}
	s, _, err := b.Read(ctx)
	if err != nil || s.Kennel.Dogs[0].Name != dog {
		t.Fatal(err)
	}
	// Other things can be changed while the names are as they are.
	if _, err := b.Change(ctx, AnyVersion, "a coat", func(s *State) error { s.Kennel.Dogs[0].Coat.Growth = 1.2; return nil }); err != nil {
		t.Fatalf("the dog with the long name can't be changed: %v", err)
	}
	// A new name has to be short enough, and what is refused changes nothing.
	_, err = b.Change(ctx, AnyVersion, "a name", func(s *State) error { s.RenameDog(dog, dog+"x"); return nil })
	var in *kennel.InputError
	if !errors.As(err, &in) || !strings.HasSuffix(in.Field, ": name") || in.What != "has 3502 letters" || in.Try != "at most 80 letters" || len(err.Error()) > 300 {
		t.Fatalf("a longer name: %v", err)
	}
	if _, err := b.Change(ctx, AnyVersion, "names", func(s *State) error {
		s.RenameDog(dog, "Sorrel")
		s.Kennel.Name, s.Kennel.Shows[0].Name, s.Kennel.Dogs[1].Owner, s.Work[0].Note = "Thornfield", "Brackenmere", "Calloway", "fussy"
		return nil
	}); err != nil {
		t.Fatalf("the names can't be made shorter: %v", err)
	}
	if _, err := b.Change(ctx, AnyVersion, "a name", func(s *State) error { s.RenameDog("Sorrel", dog); return nil }); err == nil {
		t.Error("the long name came back")
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Fatalf("%v, %v", wrong, err)
	}
}

func TestTooLongTextsAreRefusedWithTheirField(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	if _, err := b.Change(ctx, AnyVersion, "all", func(s *State) error { *s = keptState(); return nil }); err != nil {
		t.Fatal(err)
	}
	name, note := strings.Repeat("n", kennel.LongestName+1), strings.Repeat("n", kennel.LongestNote+1)
	for field, edit := range map[string]func(*State){
		"kennel":                 func(s *State) { s.Kennel.Name = name },
		"Moss: owner":            func(s *State) { s.Kennel.Dogs[1].Owner = name },
		"Sorrel: duties[0].name": func(s *State) { s.Kennel.Dogs[0].Duties[0].Name = name },
		"Handler: away[0].why":   func(s *State) { s.Kennel.Hands[0].Away[0].Why = note },
		"work 1: note":           func(s *State) { s.Work[0].Note = note },
		"measure 1: note":        func(s *State) { s.Measures[0].Note = note },
		"photo 1: note": func(s *State) {
			s.Photos = []Photo{{1, kennel.Photo{Dog: "Sorrel", On: s.Kennel.PlanFrom, Digest: strings.Repeat("0a", 32), Note: note}}}
		},
		"Brackenmere Terrier Club on 2027-03-20: away.why": func(s *State) { s.Kennel.Shows[0].Away.Why = note },
	} {
		_, err := b.Change(ctx, AnyVersion, "too long", func(s *State) error { edit(s); return nil })
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Field != field || !strings.HasPrefix(in.What, "has ") || !strings.HasPrefix(in.Try, "at most ") {
			t.Errorf("%s: %v", field, err)
		}
	}
	if done, err := b.Change(ctx, AnyVersion, "nothing", func(*State) error { return nil }); err != nil || len(done.Changes) > 0 || done.Version != 1 {
		t.Errorf("something was changed: %+v, %v", done.Changes, err)
	}
}
