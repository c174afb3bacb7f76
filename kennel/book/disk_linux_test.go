package book

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"

	"tuckup/kennel"
)

// smallDisk is a folder on a disk of its own of so many kB, where the test may mount one.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

func TestADiskThatFillsUpLosesNothing(t *testing.T) {
	ctx := context.Background()
	dir := smallDisk(t, "600k")
	path := filepath.Join(dir, "book.db")
	b := open(t, path, options())
	fill(t, b)
	refused := false
	var last int64
	for range 400 {
		done, err := b.Change(ctx, AnyVersion, "work", func(s *State) error {
			for range 5 {
				s.Work = append(s.Work, Work{Work: kennel.Work{Dog: "Moss", On: 20000, Minutes: 5, Duty: "nails", Note: strings.Repeat("long ", 20)}})
			}
			return nil
		})
		if err != nil {
			trouble(t, err, TroubleFull)
			refused = true
			break
		}
		last = done.Version
	}
	if !refused {
		t.Fatal("the disk never was full")
	}
	s, v, err := b.Read(ctx)
	if err != nil || v != last || len(s.Work) != 2+5*int(last-1) {
		t.Errorf("version %d of %d, %d lines of work (%v)", v, last, len(s.Work), err)
	}
	trouble(t, b.Backup(ctx, filepath.Join(dir, "copy.db")), TroubleFull)
	if left, err := filepath.Glob(filepath.Join(dir, "*copy*")); err != nil || len(left) > 0 {
		t.Errorf("half a copy is left: %v", left)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
	if err := b.Close(); err != nil {
		t.Log(err)
	}
	if again, v, err := open(t, path, options()).Read(ctx); err != nil || v != last || !reflect.DeepEqual(again, s) {
		t.Errorf("opened again, version %d of %d (%v)", v, last, err)
	}
	_, err = Open(ctx, filepath.Join(dir, "another.db"), options())
	trouble(t, err, TroubleFull)
}

// fillUp takes all the room that a disk has left.
func fillUp(t *testing.T, dir string) {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, "other"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	chunk := make([]byte, 512)
	for {
		if _, err := f.Write(chunk); err != nil {
			if !errors.Is(err, syscall.ENOSPC) {
				t.Fatal(err)
			}
			return
		}
	}
}

// On a disk without room a book is read, of whatever form, also when its writer was killed before the changes were moved
// into the file, and copied to another disk; what can't be written is said to be for want of room. With room again it is
// changed.
func TestABookOnAFullDiskIsReadAndCopiedAway(t *testing.T) {
	ctx := context.Background()
	want := later(len(migrations()))
	for name, put := range map[string]func(t *testing.T, path string){
		"of today":          func(t *testing.T, path string) { fill(t, open(t, path, options())) },
		"of the first form": func(t *testing.T, path string) { copyFile(t, keptFile(1), path) },
		"of a killed writer": func(t *testing.T, path string) {
			b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
			fill(t, b)
			for _, end := range []string{"", "-wal"} {
				copyFile(t, b.file+end, path+end)
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			want := want
			if name == "of the first form" {
				want = later(1)
			}
			dir := smallDisk(t, "2m")
			path := filepath.Join(dir, "book.db")
			t.Run("put", func(t *testing.T) { put(t, path) })
			fillUp(t, dir)
			for _, how := range []string{"changed", "read"} { // reading may make room by moving changes into the file
				opt := options()
				if how == "read" {
					opt = reading()
				}
				b, err := Open(ctx, path, opt)
				if err != nil {
					t.Fatalf("%s: %v", how, err)
				}
				if s, v, err := b.Read(ctx); err != nil || v != 1 || !reflect.DeepEqual(s, want) {
					t.Errorf("%s: version %d, it holds %+v (%v)", how, v, s, err)
				}
				if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
					t.Errorf("%s: %v %v", how, wrong, err)
				}
				copied := filepath.Join(t.TempDir(), "copy.db")
				if err := b.Backup(ctx, copied); err != nil {
					t.Errorf("%s: %v", how, err)
				} else if s, _, err := open(t, copied, reading()).Read(ctx); err != nil || !reflect.DeepEqual(s, want) {
					t.Errorf("%s: the copy holds %+v (%v)", how, s, err)
				}
				if how == "changed" {
					_, err = b.Change(ctx, AnyVersion, "weeks", func(s *State) error { s.Kennel.Weeks = 9; return nil })
					trouble(t, err, TroubleFull)
					trouble(t, b.ReadOnly(), TroubleFull)
				}
				if err := b.Close(); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.Remove(filepath.Join(dir, "other")); err != nil {
				t.Fatal(err)
			}
			b := open(t, path, options())
			rename(t, b, "Again")
			if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
				t.Error(wrong, err)
			}
		})
	}
}

// A begun book that finds no room leaves nothing behind.
func TestABookIsNotBegunOnAFullDisk(t *testing.T) {
	dir := smallDisk(t, "64k")
	fillUp(t, dir)
	path := filepath.Join(dir, "deep", "book.db")
	_, err := Open(context.Background(), path, options())
	trouble(t, err, TroubleFull)
	if left, err := os.ReadDir(dir); err != nil || len(left) != 1 {
		t.Errorf("left are %v (%v)", left, err)
	}
}

// Where there is room for the change or for the copy before it, but not for both, the change is made.
func TestACopyDoesNotTakeTheRoomOfAChange(t *testing.T) {
	ctx := context.Background()
	dir := smallDisk(t, "2m")
	path := filepath.Join(dir, "book.db")
	clock := &calendar{now: noon}
	b := open(t, path, clock.options())
	fill(t, b)
	if _, err := b.db.Exec("PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	fillUp(t, dir)
	other := filepath.Join(dir, "other")
	taken, err := os.Stat(other)
	if err != nil {
		t.Fatal(err)
	}
	// Room for the copy and some of the change.
	if err := os.Truncate(other, taken.Size()-info.Size()-32<<10); err != nil {
		t.Fatal(err)
	}
	done, err := b.Change(ctx, AnyVersion, "work", func(s *State) error {
		for range 100 {
			s.Work = append(s.Work, Work{Work: kennel.Work{Dog: "Moss", On: 20000, Minutes: 5, Duty: "nails", Note: strings.Repeat("long ", 20)}})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if done.Uncopied == nil || !errors.Is(done.Uncopied, &Error{Trouble: TroubleFull}) {
		t.Errorf("of the copy is said %v", done.Uncopied)
	}
	if names := copyNames(t, path); names != nil {
		t.Errorf("copies are %v", names)
	}
	if s, v, err := b.Read(ctx); err != nil || v != 2 || len(s.Work) != 102 {
		t.Errorf("%d lines of work at change %d (%v)", len(s.Work), v, err)
	}
}

// What a killed writer left beside a book on a disk that can't be written is read too.
func TestChangesBesideABookThatMayNotBeWrittenAreRead(t *testing.T) {
	ctx := context.Background()
	dir := smallDisk(t, "2m")
	b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
	fill(t, b)
	rename(t, b, "Second")
	path := filepath.Join(dir, "book.db")
	for _, end := range []string{"", "-wal"} {
		copyFile(t, b.file+end, path+end)
	}
	copyFile(t, keptFile(2), filepath.Join(dir, "old.db"))
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("no disk can be made read-only here: %v", err)
	}
	if s, v, err := open(t, path, options()).Read(ctx); err != nil || v != 2 || s.Kennel.Name != "Second" {
		t.Errorf("version %d, it holds %q (%v)", v, s.Kennel.Name, err)
	}
	old := open(t, filepath.Join(dir, "old.db"), options())
	if s, _, err := old.Read(ctx); err != nil || !reflect.DeepEqual(s, later(2)) {
		t.Errorf("it holds %+v (%v)", s, err)
	}
	trouble(t, old.ReadOnly(), TroubleReadOnly)
}

func TestWhatIsNoFileIsNoBook(t *testing.T) {
	fifo := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(fifo, 0o600); err != nil {
		t.Skipf("no pipe can be made here: %v", err)
	}
	for _, path := range []string{fifo, "/dev/null"} {
		for _, opt := range []Options{options(), reading()} {
			_, err := Open(context.Background(), path, opt)
			if trouble(t, err, TroubleNotABook); !strings.Contains(err.Error(), "a device or a pipe") {
				t.Errorf("said is %q", err)
			}
		}
	}
}

func TestABookThatMayNotBeWrittenIsReadAndNotChanged(t *testing.T) {
	ctx := context.Background()
	dir := smallDisk(t, "2m")
	path := filepath.Join(dir, "book.db")
	b := open(t, path, options())
	fill(t, b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("no disk can be made read-only here: %v", err)
	}
	mayNotBeWritten(t, ctx, path)
}

func TestAFileThatMayNotBeWrittenIsReadAndNotChanged(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("root may write every file")
	}
	path := filepath.Join(t.TempDir(), "book.db")
	b := open(t, path, options())
	fill(t, b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o400); err != nil {
		t.Fatal(err)
	}
	mayNotBeWritten(t, context.Background(), path)
}

func mayNotBeWritten(t *testing.T, ctx context.Context, path string) {
	t.Helper()
	b := open(t, path, options())
	s, _, err := b.Read(ctx)
	if err != nil || !reflect.DeepEqual(s, later(len(migrations()))) {
		t.Fatalf("it holds %+v (%v)", s, err)
	}
	_, err = b.Change(ctx, AnyVersion, "name", func(s *State) error { s.Kennel.Name = "Other"; return nil })
	trouble(t, err, TroubleReadOnly)
	_, _, err = b.Undo(ctx, AnyVersion)
	trouble(t, err, TroubleReadOnly)
	if again, _, err := b.Read(ctx); err != nil || !reflect.DeepEqual(again, s) {
		t.Errorf("it holds %+v (%v)", again, err)
	}
}
