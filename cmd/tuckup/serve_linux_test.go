package main

import (
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"
)

// On a disk that can't be written the desk shows the book, says on its pages that nothing can be written down, and
// refuses forms in words.
func TestTheDeskOpensOnADiskThatCannotBeWritten(t *testing.T) {
	inExamples(t)
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=2m"); err != nil {
		t.Skipf("no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	path := filepath.Join(dir, "book.db")
	if code, _, said := program(t.Context(), "import", "thornfield.yaml", "--book", path); code != codeDone {
		t.Fatal(said)
	}
	before, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("no disk can be made read-only here: %v", err)
	}
	address, stop := openedDesk(t, "--book", path)
	get := func(page string) string {
		resp, err := http.Get(address + page)
		if err != nil {
			t.Fatal(err)
		}
		defer resp.Body.Close()
		body, err := io.ReadAll(resp.Body)
		if err != nil || resp.StatusCode != http.StatusOK {
			t.Errorf("%s: %d %v", page, resp.StatusCode, err)
		}
		return string(body)
	}
	if body := get("string"); !strings.Contains(body, "Sorrel") || !strings.Contains(body, "Nothing can be written down") {
		t.Errorf("the string is shown as %.300s", body)
	}
	for limit := time.Now().Add(time.Minute); !strings.Contains(get("workload"), "calendar.ics?key="); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(limit) { // it has one once there is a plan
			t.Fatal("the calendar has no address")
		}
	}
	req, err := http.NewRequest(http.MethodPost, address+"history", strings.NewReader(url.Values{"version": {"1"}, "do": {"undo"}}.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	req.Header.Set("Origin", strings.TrimSuffix(address, "/"))
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(resp.Body)
	resp.Body.Close()
	if err != nil || resp.StatusCode != http.StatusServiceUnavailable || !strings.Contains(string(body), "can&#39;t be written; nothing was changed") {
		t.Errorf("a form is answered with %d: %.300s", resp.StatusCode, body)
	}
	if code := stop(); code != codeDone {
		t.Errorf("it ended with status %d", code)
	}
	if after, err := os.ReadDir(dir); err != nil || !reflect.DeepEqual(before, after) {
		t.Errorf("the folder holds %v, held %v", after, before)
	}
	code, _, said := program(t.Context(), "hours", "set", "Handler", "tue", "2", "--book", path)
	if code != codeFailed || !strings.Contains(said, "can't be written; nothing was changed") || !strings.Contains(said, "Try: ") {
		t.Errorf("a change ends with %d and says %q", code, said)
	}
	code, _, said = program(t.Context(), "serve", "--listen", "127.0.0.1:0", "--book", filepath.Join(dir, "none.db"))
	if code == codeDone || !strings.Contains(said, "Try: ") {
		t.Errorf("without a book it ends with %d and says %q", code, said)
	}
}
