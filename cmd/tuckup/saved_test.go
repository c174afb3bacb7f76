package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"tuckup/kennel/book"
)

// full is an output with no room left.
type full struct{}

func (full) Write([]byte) (int, error) {
	return 0, &os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
}

// changingCommands are commands that change the book of three dogs, in an order in which each does.
func changingCommands(dir string) [][]string {
	return [][]string{
		{"import", filepath.Join(dir, "kennel.yaml")},
		{"work", "add", "Sorrel", "back", "1/17", "--minutes", "20"},
		{"work", "add", "Moss", "--duty", "nails", "--minutes", "10"},
		{"work", "drop", "1"},
		{"measure", "add", "Moss", "back", "30"},
		{"coat", "set", "Moss", "back", "0.5", "2026-10-01", "0.5", "2026-12-01"},
		{"dog", "edit", "Moss", "--priority", "2"},
		{"show", "add", "Ferrydown", "--on", "2027-03-06", "--dogs", "Moss"},
		{"hours", "set", "mon=5"},
		{"hours", "away", "--from", "2027-02-01", "--to", "2027-02-02"},
		{"undo"},
	}
}

func threeDogsIn(t *testing.T) (dir, path string) {
	t.Helper()
	dir = t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "kennel.yaml"), []byte(threeDogs), 0o600); err != nil {
		t.Fatal(err)
	}
	return dir, filepath.Join(dir, "book.db")
}

func versionOf(t *testing.T, path string) int64 {
	t.Helper()
	b, err := book.Open(context.Background(), path, book.Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	v, err := b.Version(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A command whose change is saved and whose output can't be written says that it is saved, and its status is not one
// that a script would do it again for. What changes nothing fails as before.
func TestAChangeThatCannotBeToldIsSaidToBeSaved(t *testing.T) {
	dir, path := threeDogsIn(t)
	on := func() time.Time { return time.Date(2027, 1, 5, 12, 0, 0, 0, time.UTC) }
	run := func(args ...string) (int, string) {
		var said bytes.Buffer
		code := newApp(full{}, &said, on).run(context.Background(), append(args, "--book", path))
		return code, said.String()
	}
	for n, args := range changingCommands(dir) {
		code, said := run(args...)
		want := fmt.Sprintf("tuckup: change %d is saved, but the output that says so can't be written: write /dev/stdout: no space left on device\nTry: tuckup history", n+1)
		if code != codeDone || !strings.HasPrefix(said, want) || !strings.Contains(said, "again would do it once more") {
			t.Errorf("%q: status %d, said %q", args, code, said)
		}
		if v := versionOf(t, path); v != int64(n+1) {
			t.Fatalf("%q: the book is at change %d, want %d", args, v, n+1)
		}
	}
	changes := versionOf(t, path)
	for _, args := range [][]string{
		{"work", "add", "Sorrel", "back", "1/17", "--minutes", "20", "--dry-run"}, {"dog", "edit", "Moss", "--priority", "2"}, {"history"}, {"dog", "list"},
	} {
		if code, said := run(args...); code != codeFailed || strings.Contains(said, "saved") || versionOf(t, path) != changes {
			t.Errorf("%q: status %d, said %q, the book is at change %d", args, code, said, versionOf(t, path))
		}
	}
	if code, said := run("book", "restore", "2027-01-05"); code != codeDone || !strings.Contains(said, fmt.Sprintf("change %d is saved, but", changes+1)) {
		t.Errorf("restore: status %d, said %q", code, said)
	}
	changes++
	file := filepath.Join(dir, "copy.db")
	if code, said := run("book", "backup", file); code != codeDone || !strings.Contains(said, "the copy is written, but") || versionOf(t, file) != changes {
		t.Errorf("backup: status %d, said %q", code, said)
	}
}
