package book

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

// calendar is a clock that tests move on.
type calendar struct{ now time.Time }

func (c *calendar) options() Options {
	opt := options()
	opt.Now = func() time.Time { return c.now }
	return opt
}

func rename(t *testing.T, b *Book, name string) Done {
	t.Helper()
	done, err := b.Change(context.Background(), AnyVersion, "name "+name, func(s *State) error { s.Kennel.Name = name; return nil })
	if err != nil {
		t.Fatal(err)
	}
	return done
}

func copyNames(t *testing.T, path string) (names []string) {
	t.Helper()
	all, err := Copies(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		names = append(names, c.Name)
	}
	return names
}

func look(t *testing.T, path, name string) Inside {
	t.Helper()
	c, err := FindCopy(path, name)
	if err != nil {
		t.Fatal(err)
	}
	in, err := c.Look(context.Background(), options())
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// The first change of a day copies the book as it was before it; what changes nothing, and what is refused, copies
// nothing.
func TestTheFirstChangeOfADayCopiesTheBookAsItWas(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	clock := &calendar{now: noon}
	b := open(t, path, clock.options())
	if done := rename(t, b, "First"); done.Uncopied != nil || copyNames(t, path) != nil {
		t.Errorf("a book that held nothing was copied: %v %v", copyNames(t, path), done.Uncopied)
	}
	clock.now = noon.AddDate(0, 0, 1)
	if _, err := b.Change(ctx, AnyVersion, "nothing", func(*State) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Change(ctx, AnyVersion, "bad", func(s *State) error { s.Kennel.Weeks = -1; return nil }); err == nil {
		t.Fatal("a kennel that can't be was taken")
	}
	if _, err := b.Try(ctx, func(s *State) error { s.Kennel.Name = "Tried"; return nil }); err != nil {
		t.Fatal(err)
	}
	if names := copyNames(t, path); names != nil {
		t.Errorf("copied for nothing: %v", names)
	}
	rename(t, b, "Second")
	rename(t, b, "Third")
	clock.now = noon.AddDate(0, 0, 4)
	if _, done, err := b.Undo(ctx, AnyVersion); err != nil || done.Uncopied != nil {
		t.Fatal(err, done.Uncopied)
	}
	if names := copyNames(t, path); !slices.Equal(names, []string{"2027-01-09", "2027-01-06"}) {
		t.Fatalf("copies are %v", names)
	}
	for name, want := range map[string]string{"2027-01-06": "First", "2027-01-09": "Third"} {
		if in := look(t, path, name); in.State.Kennel.Name != want {
			t.Errorf("the copy of %s holds %q, not %q", name, in.State.Kennel.Name, want)
		}
	}
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*", ".*")); err != nil || len(left) > 0 {
		t.Errorf("left in the folder: %v", left)
	}
}

func TestCopiesOfFourteenDaysAndTwelveMonthsAreKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	clock := &calendar{now: time.Date(2025, 11, 20, 9, 0, 0, 0, time.UTC)}
	b := open(t, path, clock.options())
	fill(t, b)
	if err := os.MkdirAll(copyFolder(path), 0o700); err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(copyFolder(path), "book.db-spring.db")
	files := []string{other}
	var days []string
	for range 239 {
		days = append(days, clock.now.Format(time.DateOnly))
		files = append(files, copyNamed(path, days[len(days)-1]).File)
		clock.now = clock.now.AddDate(0, 0, 2)
	}
	for _, f := range files {
		if err := os.WriteFile(f, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	rename(t, b, "Second")
	days = append(days, clock.now.Format(time.DateOnly))
	var want []string
	months := map[string]bool{}
	for i := len(days) - 1; i >= 0; i-- {
		first := i == 0 || days[i-1][:7] != days[i][:7]
		if first {
			months[days[i][:7]] = true
		}
		if len(days)-i <= keptDays || first && len(months) <= keptMonths {
			want = append(want, days[i])
		}
	}
	if names := copyNames(t, path); !slices.Equal(names, want) || len(want) < keptDays+keptMonths-2 {
		t.Errorf("kept are %v\nnot     %v", names, want)
	}
	if _, err := os.Stat(other); err != nil {
		t.Error("somebody else's file went:", err)
	}
}

// Where no copy can be made the change is made all the same, and says so.
func TestAChangeIsNotLostForWantOfACopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	clock := &calendar{now: noon}
	b := open(t, path, clock.options())
	fill(t, b)
	if err := os.WriteFile(copyFolder(path), nil, 0o600); err != nil { // a file where the folder should be
		t.Fatal(err)
	}
	done := rename(t, b, "Second")
	if k, err := b.Kennel(context.Background()); err != nil || k.Name != "Second" || done.Version != 2 {
		t.Errorf("it holds %q at change %d (%v)", k.Name, done.Version, err)
	}
	if done.Uncopied == nil || !strings.Contains(done.Uncopied.Error(), "backups") {
		t.Errorf("of the copy is said %v", done.Uncopied)
	}
	if err := os.Remove(copyFolder(path)); err != nil {
		t.Fatal(err)
	}
	if done := rename(t, b, "Third"); done.Uncopied != nil || look(t, path, "2027-01-05").State.Kennel.Name != "Second" {
		t.Errorf("the next change of the day makes no copy: %v", done.Uncopied)
	}
}

// Halves that were left by a copy that was cut short are cleared away, and never taken for a copy.
func TestACopyThatWasCutShortIsNone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	fill(t, b)
	half := filepath.Join(copyFolder(path), ".day-123")
	if err := os.MkdirAll(half, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(half, "copy"), []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	if names := copyNames(t, path); names != nil {
		t.Errorf("copies are %v", names)
	}
	rename(t, b, "Second")
	if _, err := os.Stat(half); err == nil {
		t.Error("the half is still there")
	}
}

func TestGoingBackToACopyIsAChangeThatCanBeTakenBack(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	clock := &calendar{now: noon}
	b := open(t, path, clock.options())
	fill(t, b)
	clock.now = noon.AddDate(0, 0, 1)
	for n := range 3 {
		if _, err := b.Change(ctx, AnyVersion, "work", func(s *State) error {
			s.Kennel.Dogs = s.Kennel.Dogs[:2]
			dropDog(s, s.Kennel.Dogs[0].Name)
			d := keptState().Kennel.Dogs[1]
			d.Name = fmt.Sprint("Dog ", n)
			s.Kennel.Dogs = append(s.Kennel.Dogs, d)
			s.Work = append(s.Work, Work{Work: kennel.Work{Dog: d.Name, On: 20000, Minutes: 5, Duty: "nails"}})
			return nil
		}); err != nil {
			t.Fatal(err)
		}
	}
	was, version, err := b.Read(ctx)
	if err != nil {
		t.Fatal(err)
	}
	in := look(t, path, "2027-01-06")
	if !reflect.DeepEqual(in.State, later(len(migrations()))) || in.Version != 1 {
		t.Errorf("the copy holds %+v at change %d", in.State, in.Version)
	}
	would, err := b.TryRestore(ctx, in.Copy)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(would.Changes, in.Changes(was)) || !slices.ContainsFunc(would.Changes, func(d Difference) bool { return d.String() == "new dog Sorrel" }) {
		t.Errorf("said are %v and %v", would.Changes, in.Changes(was))
	}
	if now, v, err := b.Read(ctx); err != nil || v != version || !reflect.DeepEqual(now, was) {
		t.Errorf("trying wrote change %d (%v)", v, err)
	}
	_, err = b.Restore(ctx, version-1, in.Copy)
	trouble(t, err, TroubleStale)
	done, err := b.Restore(ctx, version, in.Copy)
	if err != nil || !reflect.DeepEqual(done.State, in.State) || done.Version != version+1 {
		t.Fatalf("it holds %+v at change %d (%v)", done.State, done.Version, err)
	}
	if lines, err := b.History(ctx, 1); err != nil || lines[0].What != "went back to the copy of 2027-01-06" {
		t.Errorf("the history tells %+v (%v)", lines, err)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
	if _, _, err := b.Undo(ctx, AnyVersion); err != nil {
		t.Fatal(err)
	}
	if now, _, err := b.Read(ctx); err != nil || !reflect.DeepEqual(now, was) {
		t.Errorf("taken back it holds %+v (%v)", now, err)
	}
}

func TestACopyIsFoundByItsNameAndADamagedOneIsRefused(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	fill(t, b)
	var in *kennel.InputError
	if _, err := FindCopy(path, "2027-01-05"); !errors.As(err, &in) || in.Try == "" {
		t.Errorf("said is %v", err)
	}
	rename(t, b, "Second")
	if _, err := FindCopy(path, "2027-01-06"); !errors.As(err, &in) || in.Try != "2027-01-05" {
		t.Errorf("said is %v", err)
	}
	c := look(t, path, "2027-01-05").Copy
	damageWord(t, c.File, "R. Calloway", "R. Callowaz")
	before := filesIn(t, copyFolder(path))
	_, err := c.Look(ctx, options())
	trouble(t, err, TroubleDamaged)
	_, err = b.Restore(ctx, AnyVersion, c)
	trouble(t, err, TroubleDamaged)
	_, _, err = PutBack(ctx, path, options(), c)
	trouble(t, err, TroubleDamaged)
	if k, err := b.Kennel(ctx); err != nil || k.Name != "Second" {
		t.Errorf("it holds %q (%v)", k.Name, err)
	}
	if after := filesIn(t, copyFolder(path)); !reflect.DeepEqual(before, after) {
		t.Error("the folder of copies is not as it was")
	}
}

// damageWord changes the first word of a file like that into another one of its length.
func damageWord(t *testing.T, file, from, to string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), from) || len(from) != len(to) {
		t.Fatalf("%q is not in %s", from, file)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(data), from, to, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
}

// A book that is lost, empty or damaged gets a copy in its place, and what was there is kept.
func TestACopyTakesThePlaceOfABookThatIsLostOrDamaged(t *testing.T) {
	ctx := context.Background()
	for name, spoil := range map[string]func(path string) error{
		"lost":     os.Remove,
		"empty":    func(path string) error { return os.Truncate(path, 0) },
		"cut off":  func(path string) error { return os.Truncate(path, 4096) },
		"no book":  func(path string) error { return os.WriteFile(path, []byte("kennel: Thornfield\n"), 0o600) },
		"one byte": func(path string) error { damageWord(t, path, "R. Calloway", "R. Callowaz"); return nil },
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "book.db")
			b := open(t, path, options())
			fill(t, b)
			rename(t, b, "Second")
			c := look(t, path, "2027-01-05").Copy
			_, _, err := PutBack(ctx, path, options(), c)
			trouble(t, err, TroubleBusy)
			if _, err := b.db.Exec("UPDATE dogs SET owner = 'Nobody'"); err != nil {
				t.Fatal(err)
			}
			_, err = b.Restore(ctx, AnyVersion, c) // the history would never again tell the rows
			trouble(t, err, TroubleDamaged)
			if _, err := b.db.Exec("UPDATE dogs SET owner = 'R. Calloway' WHERE name = 'Sorrel'; UPDATE dogs SET owner = NULL WHERE name = 'Moss'"); err != nil {
				t.Fatal(err)
			}
			if err := b.Close(); err != nil {
				t.Fatal(err)
			}
			if err := spoil(path); err != nil {
				t.Fatal(err)
			}
			spoilt, there := filesIn(t, filepath.Dir(path))[path]
			if r, err := Open(ctx, path, reading()); err == nil {
				wrong, err := r.Check(ctx)
				if err == nil && len(wrong) == 0 {
					t.Error("the damage is not noticed")
				}
				if err := r.Close(); err != nil {
					t.Fatal(err)
				}
			} else {
				var e *Error
				if !errors.As(err, &e) || !strings.Contains(e.Try, "tuckup book restore --book "+path) {
					t.Errorf("the copy is not named: %v, %q", err, e.Try)
				}
			}
			in, aside, err := PutBack(ctx, path, options(), c)
			if err != nil {
				t.Fatal(err)
			}
			if kept := filesIn(t, filepath.Dir(path))[aside]; there != (aside != "") || kept != spoilt {
				t.Errorf("what was there is in %q: %d bytes of %d", aside, len(kept), len(spoilt))
			}
			if _, twice, err := PutBack(ctx, path, options(), c); err != nil || twice == aside || twice == "" {
				t.Errorf("put back again, what was there is in %q (%v)", twice, err)
			}
			again := open(t, path, options())
			if got, _, err := again.Read(ctx); err != nil || !reflect.DeepEqual(got, in.State) || !reflect.DeepEqual(got, later(len(migrations()))) {
				t.Errorf("it holds %+v (%v)", got, err)
			}
			if wrong, err := again.Check(ctx); err != nil || len(wrong) > 0 {
				t.Error(wrong, err)
			}
		})
	}
}

// What says that a book is damaged names copies only where there are any.
func TestNoCopyIsNamedThatIsNotThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a book.db")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	said := func() string {
		_, err := Open(context.Background(), path, reading())
		var e *Error
		if !errors.As(err, &e) {
			t.Fatal(err)
		}
		return e.Try
	}
	if try := said(); strings.Contains(try, "restore") || strings.Contains(try, "backups") {
		t.Errorf("said is %q", try)
	}
	if err := os.MkdirAll(copyFolder(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(copyNamed(path, "2027-01-05").File, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if try := said(); !strings.Contains(try, "tuckup book restore --book '"+path+"'") {
		t.Errorf("said is %q", try)
	}
}
