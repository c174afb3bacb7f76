package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// openedDesk starts the desk and returns its address; stop ends it and returns its exit code.
func openedDesk(t *testing.T, args ...string) (address string, stop func() int) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	out, to := io.Pipe()
	code := make(chan int, 1)
	var said strings.Builder
	go func() {
		code <- newApp(to, &said, time.Now).run(ctx, append([]string{"serve", "--listen", "127.0.0.1:0"}, args...))
		to.Close()
	}()
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if m := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(lines.Text()); m != "" {
			address = m
			break
		}
	}
	if address == "" {
		cancel()
		t.Fatalf("no address is printed; status %d, said is %q", <-code, said.String())
	}
	go io.Copy(io.Discard, out)
	return address, func() int { cancel(); return <-code }
}

func TestTheDemoIsServedAtOnceAndLeavesNothing(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	start := time.Now()
	address, stop := openedDesk(t, "--demo")
	resp, err := http.Get(address + "week")
	if err != nil {
		t.Fatal(err)
	}
	took := time.Since(start)
	body, err := io.ReadAll(resp.Body)
	resp.Body.Close()
	if err != nil || resp.StatusCode != http.StatusOK || !strings.Contains(string(body), "Thornfield") {
		t.Errorf("%d %v: %.200s", resp.StatusCode, err, body)
	}
	t.Logf("the first page came %v after the start", took) // under 300 ms on a machine with nothing else to do
	if took > 3*time.Second {
		t.Errorf("the first page came only after %v", took)
	}
	if code := stop(); code != codeDone {
		t.Errorf("it ended with status %d", code)
	}
	if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
	if _, err := http.Get(address); err == nil {
		t.Error("it answers after its end")
	}
}

func TestABookIsBegunByServingItAndItsCalendarKeepsItsAddress(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	key := func() string {
		address, stop := openedDesk(t, "--book", path)
		defer stop()
		resp, err := http.Get(address + "workload")
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		data, err := os.ReadFile(strings.TrimSuffix(path, ".db") + ".calendar-key")
		if err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(strings.TrimSuffix(path, ".db") + ".calendar-key"); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("others may read the key: %v %v", info.Mode(), err)
		}
		return string(data)
	}
	first := key()
	if second := key(); first != second || len(first) < 20 {
		t.Errorf("the key was %q, then %q", first, second)
	}
	if code, out, _ := program(t.Context(), "book", "check", "--book", path); code != codeDone {
		t.Errorf("the book is not sound: %s", out)
	}
}

func TestWhereTheDeskCannotListenIsSaid(t *testing.T) {
	freshHome(t)
	address, stop := openedDesk(t)
	defer stop()
	taken := strings.Trim(strings.TrimPrefix(address, "http://"), "/")
	for _, c := range []struct{ listen, want string }{{taken, "Try:"}, {"192.0.2.1:80", "Try:"}, {"nowhere", "Try:"}} {
		code, out, said := program(t.Context(), "serve", "--demo", "--listen", c.listen)
		if code != codeUsage || !strings.Contains(said, c.want) || strings.Contains(out, "http://") {
			t.Errorf("--listen %s ended with %d and said %q", c.listen, code, said)
		}
	}
	if code, _, said := program(t.Context(), "serve", "--demo", "--book", "other.db"); code != codeUsage || !strings.Contains(said, "can't both") {
		t.Errorf("a book and the demo: %d %q", code, said)
	}
}
