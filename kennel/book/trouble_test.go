package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

func trouble(t *testing.T, err error, want Trouble) {
	t.Helper()
	if !errors.Is(err, &Error{Trouble: want}) {
		t.Fatalf("got %v, want trouble %q", err, want)
	}
	var e *Error
	if errors.As(err, &e) && (e.What == "" || e.Try == "") {
		t.Errorf("%q has nothing to try: %q", e.What, e.Try)
	}
}

// fill puts the kept state into a book.
func fill(t *testing.T, b *Book) {
	t.Helper()
	if _, err := b.Change(context.Background(), AnyVersion, "moved in", func(s *State) error { *s = later(len(migrations())); return nil }); err != nil {
		t.Fatal(err)
	}
}

func TestABookThatIsNotThereIsNotMade(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "book.db")
	opt := options()
	opt.Create = false
	_, err := Open(context.Background(), path, opt)
	trouble(t, err, TroubleNone)
	if _, err := os.Stat(filepath.Dir(path)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("something was made: %v", err)
	}
}

func TestANewerBookIsRefusedUntouched(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.db")
	b := open(t, path, options())
	fill(t, b)
	if _, err := b.db.Exec("PRAGMA user_version = 99"); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	before := filesIn(t, dir)
	_, err := Open(context.Background(), path, options())
	trouble(t, err, TroubleNewer)
	if after := filesIn(t, dir); !reflect.DeepEqual(before, after) {
		t.Error("the folder is not as it was")
	}
}

func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	if err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		files[p] = string(data)
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return files
}

func TestOtherFilesAreNoBooks(t *testing.T) {
	dir := t.TempDir()
	other, err := sql.Open("sqlite", filepath.Join(dir, "other.db"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := other.Exec("CREATE TABLE t (x)"); err != nil {
		t.Fatal(err)
	}
	other.Close()
	if err := os.WriteFile(filepath.Join(dir, "text.db"), []byte(strings.Repeat("kennel: Thornfield\n", 99)), 0o600); err != nil {
		t.Fatal(err)
	}
	before := filesIn(t, dir)
	for _, name := range []string{"other.db", "text.db", "."} {
		_, err := Open(context.Background(), filepath.Join(dir, name), options())
		trouble(t, err, TroubleNotABook)
	}
	if after := filesIn(t, dir); !reflect.DeepEqual(before, after) {
		t.Error("a file that is no book was touched")
	}
}

// What can't be a kennel is refused, and nothing of it is written.
func TestAChangeThatCannotBeLeavesTheBookAsItWas(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	was, version, err := b.Read(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for name, edit := range map[string]func(*State){
		"growth":               func(s *State) { s.Kennel.Dogs[0].Coat.Growth = 9 },
		"two of one name":      func(s *State) { s.Kennel.Dogs[1].Name = "sorrel" },
		"a show's dog":         func(s *State) { s.Kennel.Shows[0].Dogs = []string{"Rowan"} },
		"a control character":  func(s *State) { s.Kennel.Dogs[0].Owner = "R.\nCalloway" },
		"no UTF-8":             func(s *State) { s.Kennel.Name = "\xff" },
		"work without minutes": func(s *State) { s.Work[0].Minutes = 0 },
		"work of nobody":       func(s *State) { s.Work[0].Dog = "Rowan" },
		"a share above 1":      func(s *State) { s.Work[0].Areas[0].Share = 1.5 },
		"an area twice":        func(s *State) { s.Work[0].Areas[1].Area = kennel.AreaRibs },
		"a duty that pulls":    func(s *State) { s.Work[0].Duty = "nails" },
		"a length":             func(s *State) { s.Measures[0].Length = -1 },
		"a picture of no name": func(s *State) {
			s.Photos = []Photo{{1, kennel.Photo{Dog: "Sorrel", On: 1, Digest: "../../etc/passwd"}}}
		},
		"hair before its pull":    func(s *State) { s.Showables[0].Pulled = s.Showables[0].On + 1 },
		"a session done by none":  func(s *State) { s.Sessions[1].Work = 77 },
		"an area that is unknown": func(s *State) { s.Measures[0].Area = "wings" },
		"a dog left without work": func(s *State) { s.Kennel.Dogs = s.Kennel.Dogs[:1] },
	} {
		_, err := b.Change(ctx, version, name, func(s *State) error { s.Kennel.Dogs[1].Owner = "half"; edit(s); return nil })
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Try == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	boom := errors.New("no")
	if _, err := b.Change(ctx, version, "no", func(s *State) error { s.Kennel.Name = "half"; return boom }); !errors.Is(err, boom) {
		t.Error(err)
	}
	if now, v, err := b.Read(ctx); err != nil || v != version || !reflect.DeepEqual(now, was) {
		t.Errorf("version %d (%v), the book holds\n%+v", v, err, now)
	}
}

func TestTryWritesNothing(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	b := open(t, filepath.Join(dir, "book.db"), options())
	fill(t, b)
	was, version, err := b.Read(ctx)
	if err != nil {
		t.Fatal(err)
	}
	done, err := b.Try(ctx, func(s *State) error {
		s.Kennel.Dogs[0].Priority = 2
		s.Kennel.Shows = s.Kennel.Shows[:1]
		s.Kennel.Dogs[1].All[0].Share = 0.5
		s.Kennel.Hands = append(s.Kennel.Hands, kennel.Hands{Name: "Neighbour"})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, d := range done.Changes {
		told = append(told, d.String())
	}
	want := []string{
		"new hands Neighbour", "changed dog Sorrel: priority 1.25 -> 2", "changed dog Moss: coat",
		"gone show Yarrowmead Show on 2027-05-04",
	}
	if !reflect.DeepEqual(told, want) {
		t.Errorf("told %q, want %q", told, want)
	}
	if _, _, err := b.TryUndo(ctx); err != nil {
		t.Error(err)
	}
	if now, v, err := b.Read(ctx); err != nil || v != version || !reflect.DeepEqual(now, was) {
		t.Errorf("version %d (%v), the book holds\n%+v", v, err, now)
	}
}

func TestAChangeOfWhatSomebodyElseChangedIsRefused(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	_, looked, err := b.Read(ctx)
	if err != nil {
		t.Fatal(err)
	}
	name := func(n string) func(*State) error { return func(s *State) error { s.Kennel.Name = n; return nil } }
	if _, err := b.Change(ctx, looked, "first", name("First")); err != nil {
		t.Fatal(err)
	}
	_, err = b.Change(ctx, looked, "second", name("Second"))
	trouble(t, err, TroubleStale)
	var stale *StaleError
	if !errors.As(err, &stale) || stale.Looked != looked || stale.Now != looked+1 {
		t.Errorf("stale is %+v", stale)
	}
	_, _, err = b.Undo(ctx, looked)
	trouble(t, err, TroubleStale)
	if k, err := b.Kennel(ctx); err != nil || k.Name != "First" {
		t.Errorf("%q, %v", k.Name, err)
	}
}

// Two who change at once take turns; one who waits too long is told so, and neither loses anything.
func TestASecondWriterWaitsThenIsTold(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	opt := options()
	opt.Wait = 200 * time.Millisecond
	impatient := open(t, path, opt)
	second := open(t, path, options())
	inside, leave, both := make(chan bool), make(chan bool), make(chan error)
	go func() {
		_, err := b.Change(ctx, AnyVersion, "first", func(s *State) error {
			s.Kennel.Name = "Thornfield"
			inside <- true
			<-leave
			return nil
		})
		both <- err
	}()
	<-inside
	_, err := impatient.Change(ctx, AnyVersion, "impatient", func(s *State) error { s.Kennel.Weeks = 9; return nil })
	trouble(t, err, TroubleBusy)
	if _, _, err := impatient.Read(ctx); err != nil {
		t.Errorf("reading waits for a writer: %v", err)
	}
	go func() {
		_, err := second.Change(ctx, AnyVersion, "second", func(s *State) error { s.Kennel.Weeks = 30; return nil })
		both <- err
	}()
	time.Sleep(100 * time.Millisecond)
	leave <- true
	for range 2 {
		if err := <-both; err != nil {
			t.Error(err)
		}
	}
	if k, err := b.Kennel(ctx); err != nil || k.Name != "Thornfield" || k.Weeks != 30 {
		t.Errorf("the book holds %+v (%v)", k, err)
	}
}

// Many programs and many hands at once: every change is there, in one line each.
func TestWritersAtOnceLoseNothing(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	fill(t, open(t, path, options()))
	const writers, each = 4, 8
	errs := make(chan error)
	for range writers {
		b := open(t, path, options())
		go func() {
			for range each {
				_, err := b.Change(ctx, AnyVersion, "work", func(s *State) error {
					s.Work = append(s.Work, Work{Work: kennel.Work{Dog: "Moss", On: 20000, Minutes: 5, Duty: "nails"}})
					return nil
				})
				if err != nil {
					errs <- err
					return
				}
			}
			errs <- nil
		}()
	}
	for range writers {
		if err := <-errs; err != nil {
			t.Fatal(err)
		}
	}
	b := open(t, path, options())
	s, v, err := b.Read(ctx)
	if err != nil || len(s.Work) != 2+writers*each || v != 1+writers*each {
		t.Errorf("%d lines of work, version %d (%v)", len(s.Work), v, err)
	}
}

func TestACopyMadeWhileTheBookIsChangedIsSound(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	b := open(t, filepath.Join(dir, "book.db"), options())
	fill(t, b)
	stop, stopped := make(chan bool), make(chan error)
	go func() {
		for n := kennel.Weeks(4); ; n++ {
			select {
			case <-stop:
				stopped <- nil
				return
			default:
				if _, err := b.Change(ctx, AnyVersion, "weeks", func(s *State) error { s.Kennel.Weeks = 4 + n%100; return nil }); err != nil {
					stopped <- err
					return
				}
			}
		}
	}()
	for _, name := range []string{"one.db", "two.db", "three.db"} {
		file := filepath.Join(dir, name)
		if err := b.Backup(ctx, file); err != nil {
			t.Fatal(err)
		}
		if err := b.Backup(ctx, file); !errors.Is(err, fs.ErrExist) {
			t.Errorf("a copy was written over: %v", err)
		}
		copied := open(t, file, options())
		if wrong, err := copied.Check(ctx); err != nil || len(wrong) > 0 {
			t.Error(wrong, err)
		}
		if s, _, err := copied.Read(ctx); err != nil || len(s.Kennel.Dogs) != 2 {
			t.Errorf("the copy holds %+v (%v)", s, err)
		}
	}
	close(stop)
	if err := <-stopped; err != nil {
		t.Error(err)
	}
	trouble(t, b.Backup(ctx, filepath.Join(dir, "no", "such.db")), TroublePlace)
}

func TestDamageIsFound(t *testing.T) {
	ctx := context.Background()
	for name, damage := range map[string]string{
		"a reference":         "PRAGMA foreign_keys = 0; DELETE FROM dogs WHERE name = 'Moss'",
		"a number":            "UPDATE dogs SET growth = 9",
		"a day":               "UPDATE dogs SET born = 'yesterday'",
		"a share":             "UPDATE layers SET share = 3",
		"a session's minutes": "UPDATE sessions SET minutes = -3",
	} {
		b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
		fill(t, b)
		b.db.SetMaxOpenConns(1)
		if _, err := b.db.Exec(damage); err != nil {
			t.Fatal(err)
		}
		if wrong, err := b.Check(ctx); err != nil || len(wrong) == 0 {
			t.Errorf("%s: nothing found (%v)", name, err)
		}
	}
}

// History that was tampered with is not followed into a wrong state.
func TestUndoRefusesWhatTheHistoryDidNotLeave(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	if _, err := b.db.Exec("UPDATE dogs SET owner = 'somebody else' WHERE name = 'Moss'"); err != nil {
		t.Fatal(err)
	}
	if _, _, err := b.Undo(ctx, AnyVersion); err == nil || !strings.Contains(err.Error(), "dogs") {
		t.Errorf("undid a change of another state: %v", err)
	}
}

func TestAFullDiskIsRefusedCleanly(t *testing.T) {
	ctx := context.Background()
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	was, version, err := b.Read(ctx)
	if err != nil {
		t.Fatal(err)
	}
	b.db.SetMaxOpenConns(1)
	var pages int
	if err := b.db.QueryRow("PRAGMA page_count").Scan(&pages); err != nil {
		t.Fatal(err)
	}
	if err := b.db.QueryRow(fmt.Sprint("PRAGMA max_page_count = ", pages+2)).Scan(&pages); err != nil {
		t.Fatal(err)
	}
	_, err = b.Change(ctx, AnyVersion, "too much", muchWork)
	trouble(t, err, TroubleFull)
	if now, v, err := b.Read(ctx); err != nil || v != version || !reflect.DeepEqual(now, was) {
		t.Errorf("version %d (%v)", v, err)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
}

func muchWork(s *State) error {
	for range 2000 {
		s.Work = append(s.Work, Work{Work: kennel.Work{Dog: "Moss", On: 20000, Minutes: 5, Duty: "nails", Note: strings.Repeat("long ", 20)}})
	}
	return nil
}
