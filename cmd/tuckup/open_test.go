package main

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
)

func TestWhoTypedTheNameIsNotSurprisedByABrowser(t *testing.T) {
	const linux, mac, windows = "linux", "darwin", "windows"
	for _, c := range []struct {
		how  string
		s    start
		want bool
	}{
		{"from a file manager", start{system: linux, screen: true}, true},
		{"in a terminal", start{system: linux, screen: true, terminal: true}, false},
		{"in a script that reads it", start{system: linux, screen: true, read: true}, false},
		{"at the end of a pipe", start{system: linux, screen: true, fed: true}, false},
		{"by a clock on a machine without a screen", start{system: linux}, false},
		{"from the app folder", start{system: mac, bundled: true}, true},
		{"the app's program in a terminal", start{system: mac, bundled: true, terminal: true}, false},
		{"by a script on a Mac", start{system: mac}, false},
		{"from the Explorer, without a console", start{system: windows, desktop: true}, true},
		{"from the Explorer, with a console of its own", start{system: windows, explorer: true, terminal: true}, true},
		{"in a console", start{system: windows, terminal: true}, false},
		{"by a script on Windows", start{system: windows}, false},
	} {
		if got := c.s.clicked(); got != c.want {
			t.Errorf("%s: opened = %v", c.how, got)
		}
	}
}

func TestEachSystemHasAProgramThatOpensAnAddress(t *testing.T) {
	for system, want := range map[string]string{"linux": "xdg-open", "freebsd": "xdg-open", "darwin": "open", "windows": "rundll32"} {
		if got := browserTools(system)[0][0]; got != want {
			t.Errorf("on %s %s opens it, want %s", system, got, want)
		}
	}
}

// doubleClick is a program that was opened by a double-click, and where it opened the browser.
type doubleClick struct {
	opened chan string
	code   chan int
}

// clickOn opens the program by a double-click, in the data folder of the test.
func clickOn(t *testing.T) doubleClick {
	t.Helper()
	d := doubleClick{make(chan string, 8), make(chan int, 1)}
	a := newApp(failing{t}, failing{t}, time.Now)
	a.started = func() start { return start{system: "linux", screen: true} }
	a.browse = func(address string) error { d.opened <- address; return nil }
	a.patience = 20 * time.Second
	go func() { d.code <- a.run(t.Context(), nil) }()
	return d
}

// failing is where nobody can write: a program without a terminal.
type failing struct{ t *testing.T }

func (f failing) Write(p []byte) (int, error) {
	f.t.Errorf("written where nobody reads: %s", p)
	return 0, os.ErrClosed
}

func (d doubleClick) address(t *testing.T) string {
	t.Helper()
	select {
	case address := <-d.opened:
		return address
	case <-time.After(time.Minute):
		t.Fatal("no browser is opened")
		return ""
	}
}

func (d doubleClick) ended(t *testing.T) int {
	t.Helper()
	select {
	case code := <-d.code:
		return code
	case <-time.After(time.Minute):
		t.Fatal("it does not end")
		return 0
	}
}

// freshHome is a home in which the program never ran.
func freshHome(t *testing.T) {
	t.Helper()
	home := t.TempDir()
	for _, name := range []string{"XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"} {
		t.Setenv(name, filepath.Join(home, strings.ToLower(name)))
	}
}

func fetch(t *testing.T, address string) (status int, page *goquery.Document) {
	t.Helper()
	resp, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	page, err = goquery.NewDocumentFromReader(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, page
}

// closeForm is the form of a page that closes the desk.
func closeForm(t *testing.T, page *goquery.Document) url.Values {
	t.Helper()
	form := url.Values{"do": {"close"}}
	f := page.Find(`form[action="/close"]`)
	if f.Length() != 1 {
		t.Fatal("no button closes the desk")
	}
	f.Find("input").Each(func(_ int, s *goquery.Selection) { form.Set(s.AttrOr("name", ""), s.AttrOr("value", "")) })
	return form
}

func send(t *testing.T, address, origin string, form url.Values) (status int, body string) {
	t.Helper()
	req, err := http.NewRequest(http.MethodPost, address+"close", strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	req.Header.Set("Origin", origin)
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(data)
}

func TestADoubleClickOpensTheDeskASecondFindsItAndAButtonClosesIt(t *testing.T) {
	freshHome(t)
	first := clickOn(t)
	address := first.address(t)
	if status, _ := fetch(t, address); status != http.StatusOK {
		t.Fatalf("the desk answers with %d", status)
	}
	second := clickOn(t)
	if again := second.address(t); again != address {
		t.Errorf("the second start opened %s, the first %s", again, address)
	}
	if code := second.ended(t); code != codeDone {
		t.Errorf("the second start ended with %d", code)
	}

	_, page := fetch(t, address+"hours")
	form := closeForm(t, page)
	own := strings.TrimSuffix(address, "/")
	if status, _ := send(t, address, "http://elsewhere.example", form); status != http.StatusForbidden {
		t.Errorf("a page elsewhere closes the desk: %d", status)
	}
	for range 2 { // tapped twice
		if status, body := send(t, address, own, form); status != http.StatusOK || !strings.Contains(body, "The desk is closed.") {
			t.Errorf("it is closed with %d: %.300s", status, body)
		}
	}
	if code := first.ended(t); code != codeDone {
		t.Errorf("the desk ended with %d", code)
	}
	if _, err := http.Get(address); err == nil {
		t.Error("the desk answers after it was closed")
	}
	third := clickOn(t)
	address = third.address(t)
	_, page = fetch(t, address+"hours")
	if status, _ := send(t, address, strings.TrimSuffix(address, "/"), closeForm(t, page)); status != http.StatusOK {
		t.Errorf("it can't be closed again: %d", status)
	}
	third.ended(t)
}

func TestOfManyDoubleClicksOneOpensTheDesk(t *testing.T) {
	freshHome(t)
	var all []doubleClick
	for range 5 {
		all = append(all, clickOn(t))
	}
	address := all[0].address(t)
	for _, d := range all[1:] {
		if got := d.address(t); got != address {
			t.Errorf("desks at %s and %s", address, got)
		}
	}
	_, page := fetch(t, address+"hours")
	send(t, address, strings.TrimSuffix(address, "/"), closeForm(t, page))
	for _, d := range all {
		if code := d.ended(t); code != codeDone {
			t.Errorf("one ended with %d", code)
		}
	}
}

// The port of a desk that has ended may have gone to another program; a note that was left behind proves nothing.
func TestOnlyTheDeskThatWroteTheNoteIsFound(t *testing.T) {
	freshHome(t)
	var asked sync.Map
	other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Store(r.URL.Path, true)
		io.WriteString(w, "welcome")
	}))
	defer other.Close()
	path, err := newApp(io.Discard, io.Discard, time.Now).bookPath()
	if err != nil {
		t.Fatal(err)
	}
	hold, free, err := claimDesk(path)
	if err != nil || !free {
		t.Fatal(free, err)
	}
	if err := hold.tell(strings.TrimPrefix(other.URL, "http://")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(hold.path); err != nil || info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" {
		t.Errorf("others can read the note: %v %v", info, err)
	}
	var pages []string
	var said bytes.Buffer
	a := newApp(&said, &said, time.Now)
	a.started = func() start { return start{system: "linux", screen: true} }
	a.browse = func(address string) error { pages = append(pages, address); return nil }
	a.patience = 300 * time.Millisecond
	t.Setenv("TMPDIR", t.TempDir())
	if code := a.run(t.Context(), nil); code != codeUsage {
		t.Errorf("it ended with %d", code)
	}
	if _, ok := asked.Load(herePath); !ok {
		t.Error("the other program was not even asked")
	}
	if len(pages) != 1 || !strings.HasPrefix(pages[0], "file:///") {
		t.Fatalf("the browser is opened on %q", pages)
	}
	page, err := os.ReadFile(strings.TrimPrefix(pages[0], "file://"))
	if err != nil || !strings.Contains(string(page), "does not answer") || !strings.Contains(string(page), "Try: ") {
		t.Errorf("the page says %q %v", page, err)
	}
	hold.drop()
	next := clickOn(t) // what was left behind by a program that was killed holds nothing
	address := next.address(t)
	_, desk := fetch(t, address+"hours")
	send(t, address, strings.TrimSuffix(address, "/"), closeForm(t, desk))
	next.ended(t)
}

func TestADeskOpenedInATerminalIsFoundToo(t *testing.T) {
	freshHome(t)
	address, stop := openedDesk(t)
	d := clickOn(t)
	if got := d.address(t); got != address {
		t.Errorf("a double-click opens %s, the desk is at %s", got, address)
	}
	d.ended(t)
	if code := stop(); code != codeDone {
		t.Errorf("it ended with %d", code)
	}
	path, err := notePath(filepath.Join(os.Getenv("XDG_DATA_HOME"), "tuckup", "book.db"))
	if err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(path); err == nil {
		t.Errorf("the note is left behind: %s", data)
	}
}

func TestWithoutABrowserTheAddressIsSaid(t *testing.T) {
	freshHome(t)
	path, err := newApp(io.Discard, io.Discard, time.Now).bookPath()
	if err != nil {
		t.Fatal(err)
	}
	hold, _, err := claimDesk(path)
	if err != nil {
		t.Fatal(err)
	}
	defer hold.drop()
	server := httptest.NewServer(hold.answers(http.NotFoundHandler()))
	defer server.Close()
	if err := hold.tell(strings.TrimPrefix(server.URL, "http://")); err != nil {
		t.Fatal(err)
	}
	var out, said bytes.Buffer
	a := newApp(&out, &said, time.Now)
	a.browse = func(string) error { return os.ErrNotExist }
	if code := a.run(t.Context(), []string{"open"}); code != codeUsage || !strings.Contains(said.String(), "Try: to open "+server.URL+"/ in your browser yourself") {
		t.Errorf("it ended with %d and said %q", code, said.String())
	}
	resp, err := http.Get(server.URL + "/hours")
	if err != nil || resp.StatusCode != http.StatusNotFound {
		t.Errorf("other pages are not handed on: %v", err)
	}
	resp.Body.Close()
}

// The program itself, opened as a file manager opens it: without a terminal, with a screen.
func TestTheProgramOpensTheBrowserWhenAFileManagerStartsIt(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("file managers start it otherwise here")
	}
	freshHome(t)
	dir := t.TempDir()
	seen := filepath.Join(dir, "seen")
	if err := os.WriteFile(filepath.Join(dir, "xdg-open"), []byte("#!/bin/sh\necho \"$1\" >>'"+seen+"'\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	null, err := os.OpenFile(os.DevNull, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	c := exec.CommandContext(t.Context(), "tuckup")
	c.Env = append(os.Environ(), "DISPLAY=:7", "PATH="+dir+":"+os.Getenv("PATH"))
	c.Stdin, c.Stdout, c.Stderr = null, null, null
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	var address string
	for limit := time.Now().Add(time.Minute); address == "" && time.Now().Before(limit); time.Sleep(50 * time.Millisecond) {
		data, _ := os.ReadFile(seen)
		address = strings.TrimSpace(string(data))
	}
	if !strings.HasPrefix(address, "http://127.0.0.1:") {
		t.Fatalf("the browser is opened on %q", address)
	}
	_, page := fetch(t, address+"hours")
	if status, _ := send(t, address, strings.TrimSuffix(address, "/"), closeForm(t, page)); status != http.StatusOK {
		t.Errorf("closed with %d", status)
	}
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(time.Minute):
		t.Fatal("it does not end")
	}
}

func TestNoWordsAreNotThoseOfTheProcess(t *testing.T) {
	was := os.Args
	defer func() { os.Args = was }()
	os.Args = []string{"tuckup", "nonsense"}
	if code, out, said := program(t.Context()); code != 0 || out != fiveLines {
		t.Errorf("%d, %q, %q", code, out, said)
	}
}

func TestTheFiveLinesNameCommandsThatExist(t *testing.T) {
	if n := strings.Count(fiveLines, "\n"); n != 5 {
		t.Errorf("they are %d lines", n)
	}
	var names []string
	for _, c := range commandTree().Commands() {
		names = append(names, c.Name())
	}
	for line := range strings.Lines(fiveLines) {
		words := strings.Fields(line)
		if strings.HasPrefix(line, "  ") && (words[0] != "tuckup" || words[1] != "help" && !slices.Contains(names, words[1])) {
			t.Errorf("no such command: %q", line)
		}
		if len(strings.TrimRight(line, "\n")) > 100 {
			t.Errorf("longer than a line: %q", line)
		}
	}
}

func TestTheNoteOfABookIsItsOwn(t *testing.T) {
	freshHome(t)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.db"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("a.db", filepath.Join(dir, "link.db")); err != nil {
		t.Skip("no links here: ", err)
	}
	t.Chdir(dir)
	var paths []string
	for _, book := range []string{"a.db", filepath.Join(dir, "a.db"), "link.db", "b.db"} {
		path, err := notePath(book)
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	if paths[0] != paths[1] || paths[0] != paths[2] || paths[0] == paths[3] {
		t.Errorf("the notes are %q", paths)
	}
}
