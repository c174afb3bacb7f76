package book

import (
	"context"
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
