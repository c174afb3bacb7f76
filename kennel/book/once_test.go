package book

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"tuckup/kennel"
)

// tick writes down ten minutes of work on Sorrel, asked for by the key.
func tick(b *Book, key string, expect int64) (Done, error) {
	answer := func(d Done) string { return fmt.Sprintf("/?work=%d&change=%d", d.State.lastWork(), d.Version) }
	return b.CarryOnce(context.Background(), expect, Once{Key: key, Answer: answer}, func(s *State) (string, error) {
		s.Record(kennel.Work{Dog: "Sorrel", On: kennel.NewDate(2027, 1, 5), Minutes: 10, Duty: "nails"})
		return "wrote down work", nil
	})
}

func works(t *testing.T, b *Book) int {
	t.Helper()
	s, _, err := b.Read(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return len(s.Work)
}

// What is asked for again is answered as it was and changes nothing: also when the book has gone on, when it was opened
// again, and when the change was taken back since.
func TestAChangeIsCarriedOutOnceByItsKey(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	fill(t, b)
	had := works(t, b)
	first, err := tick(b, "one", 1)
	if err != nil || first.Again || first.Version != 2 || first.Answer == "" {
		t.Fatalf("%+v %v", first, err)
	}
	if other, err := tick(b, "two", AnyVersion); err != nil || other.Again || other.Answer == first.Answer {
		t.Fatalf("another key: %+v %v", other, err)
	}
	again := func(when string, changes int64, lines int) {
		t.Helper()
		got, err := tick(b, "one", 1) // of a version that is long past
		if err != nil || !got.Again || got.Answer != first.Answer || got.Version != changes || len(got.Changes) != 0 {
			t.Errorf("%s: %+v %v, want the answer %q", when, got, err, first.Answer)
		}
		if answer, ok, err := b.Answered(ctx, "one"); err != nil || !ok || answer != first.Answer {
			t.Errorf("%s: answered %q %t %v", when, answer, ok, err)
		}
		if n := works(t, b); n != had+lines {
			t.Errorf("%s: %d lines of work, want %d more than %d", when, n, lines, had)
		}
	}
	again("at once", 3, 2)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open(t, path, options())
	again("opened again", 3, 2)
	for range 2 {
		if _, _, err := b.Undo(ctx, AnyVersion); err != nil {
			t.Fatal(err)
		}
	}
	again("taken back", 5, 0)
	if _, ok, err := b.Answered(ctx, "never used"); ok || err != nil {
		t.Error("a key that was never used is answered:", err)
	}
	for range 2 { // without a key nothing is remembered
		if got, err := tick(b, "", AnyVersion); err != nil || got.Again {
			t.Errorf("%+v %v", got, err)
		}
	}
	if n := works(t, b); n != had+2 {
		t.Errorf("%d lines of work", n)
	}
}

func TestTakingBackIsCarriedOutOnceByItsKey(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	for _, key := range []string{"one", "two"} {
		if _, err := tick(b, key, AnyVersion); err != nil {
			t.Fatal(err)
		}
	}
	once := Once{Key: "back", Answer: func(Done) string { return "/history" }}
	line, done, err := b.UndoOnce(ctx, 3, once)
	if err != nil || done.Again || line.ID != 3 || done.Answer != "/history" {
		t.Fatalf("%+v %+v %v", line, done, err)
	}
	if line, done, err = b.UndoOnce(ctx, 3, once); err != nil || !done.Again || line.ID != 0 || done.Answer != "/history" || done.Version != 4 {
		t.Errorf("asked again: %+v %+v %v", line, done, err)
	}
}

// A change that was refused may be asked for again by its key; one that changed nothing was carried out all the same.
func TestAKeyIsUsedOnlyWhenItsChangeWasCarriedOut(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	once := Once{Key: "one", Answer: func(d Done) string { return fmt.Sprint(len(d.Changes), " changes") }}
	refused := errors.New("not so")
	if _, err := b.CarryOnce(ctx, AnyVersion, once, func(*State) (string, error) { return "", refused }); !errors.Is(err, refused) {
		t.Fatal(err)
	}
	var bad *kennel.InputError
	if _, err := b.CarryOnce(ctx, AnyVersion, once, func(s *State) (string, error) { s.Kennel.Dogs[0].Name = ""; return "", nil }); !errors.As(err, &bad) {
		t.Fatal(err)
	}
	var stale *StaleError
	if _, err := b.CarryOnce(ctx, 99, once, func(*State) (string, error) { return "", nil }); !errors.As(err, &stale) {
		t.Fatal(err)
	}
	if _, ok, err := b.Answered(ctx, "one"); ok || err != nil {
		t.Fatal("the key of what was refused is used:", err)
	}
	done, err := b.CarryOnce(ctx, AnyVersion, once, func(*State) (string, error) { return "", nil })
	if err != nil || done.Again || done.Answer != "0 changes" {
		t.Fatalf("%+v %v", done, err)
	}
	if done, err = tick(b, "one", AnyVersion); err != nil || !done.Again || done.Answer != "0 changes" {
		t.Errorf("asked again: %+v %v", done, err)
	}
}

// Asked for by many at once, it is carried out by one, and all are answered alike.
func TestAKeyThatComesManyTimesAtOnceIsCarriedOutOnce(t *testing.T) {
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	had := works(t, b)
	var all sync.WaitGroup
	var mu sync.Mutex
	answers, again := map[string]int{}, 0
	for range 12 {
		all.Go(func() {
			done, err := tick(b, "one", AnyVersion)
			if err != nil {
				t.Error(err)
			}
			mu.Lock()
			defer mu.Unlock()
			answers[done.Answer]++
			if done.Again {
				again++
			}
		})
	}
	all.Wait()
	if len(answers) != 1 || again != 11 || works(t, b) != had+1 {
		t.Errorf("answers %v, %d of them again, %d lines of work more", answers, again, works(t, b)-had)
	}
}

// The newest keys are kept, and none for ever.
func TestOldKeysAreForgotten(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	nothing := func(*State) (string, error) { return "", nil }
	use := func(key string) {
		t.Helper()
		if _, err := b.CarryOnce(ctx, AnyVersion, Once{Key: key}, nothing); err != nil {
			t.Fatal(err)
		}
	}
	known := func(key string) bool {
		t.Helper()
		_, ok, err := b.Answered(ctx, key)
		if err != nil {
			t.Fatal(err)
		}
		return ok
	}
	for n := range mostKeys + 5 {
		use(fmt.Sprint(n))
	}
	if known("4") || !known("5") || !known(fmt.Sprint(mostKeys+4)) {
		t.Error("of the keys not the newest are kept")
	}
	now := b.opt.Now()
	b.opt.Now = func() time.Time { return now.Add(keysLast + time.Second) }
	use("late")
	if known(fmt.Sprint(mostKeys+4)) || !known("late") {
		t.Error("a key is kept for ever")
	}
}
