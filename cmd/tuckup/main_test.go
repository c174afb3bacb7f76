package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write the golden files, the transcript and the pictures again")

func TestMain(m *testing.M) {
	testscript.Main(withCache{m}, map[string]func(){"tuckup": main})
}

// withCache runs all tests with one cache folder, so that what several of them plan is planned once. A test of the search itself asks
// for a folder of its own (ownCache).
type withCache struct{ *testing.M }

func (m withCache) Run() int {
	dir, err := os.MkdirTemp("", "tuckup-test-*")
	if err == nil {
		defer os.RemoveAll(dir)
		err = errors.Join(os.Setenv(cacheHome, dir), os.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state")))
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return m.M.Run()
}

const cacheHome = "XDG_CACHE_HOME"

// ownCache gives the test an empty cache folder.
func ownCache(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	t.Setenv(cacheHome, dir)
	return filepath.Join(dir, "tuckup", "plans")
}

// The files that the pages show are at hand in every script, under the names that they give them.
func TestScripts(t *testing.T) {
	dir, files := "testdata/script", []string(nil)
	if testing.Short() { // the quick round leaves out the scripts that plan or take long
		dir = ""
		for _, name := range []string{"badkennel", "book", "help", "pattern", "settings", "spoken", "terminal", "usage"} {
			files = append(files, "testdata/script/"+name+".txtar")
		}
	}
	testscript.Run(t, testscript.Params{
		Dir:                 dir,
		Files:               files,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "configuration"))
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("XDG_STATE_HOME", filepath.Join(e.WorkDir, "state"))
			e.Setenv(cacheHome, os.Getenv(cacheHome))
			e.Setenv("TODAY", time.Now().Format(time.DateOnly)) // as the copies of a book are named
			return errors.Join(writeExamples(e.WorkDir), writeDot(filepath.Join(e.WorkDir, "dot.png")))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": exitCode},
	})
}

// writeDot writes a picture that a script can bring.
func writeDot(file string) error {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8))); err != nil {
		return err
	}
	return os.WriteFile(file, b.Bytes(), 0o600)
}

// exitCode is the script command "code N tuckup ...": the program must end with exactly this exit code.
func exitCode(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) < 2 {
		ts.Fatalf("usage: code N command ...")
	}
	want := args[0]
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		got = strings.TrimPrefix(err.Error(), "exit status ")
	}
	if got != want {
		ts.Fatalf("%s ended with %s, want exit status %s", strings.Join(args[1:], " "), got, want)
	}
}

// program runs the program inside the test.
func program(ctx context.Context, args ...string) (code int, out, err string) {
	var o, e bytes.Buffer
	day := func() time.Time { return time.Date(2027, 1, 5, 23, 30, 0, 0, time.UTC) }
	code = newApp(&o, &e, day).run(ctx, args)
	return code, o.String(), e.String()
}

// inExamples makes a folder with the files that the pages show the current one.
func inExamples(t *testing.T) {
	t.Helper()
	dir := t.TempDir()
	if err := writeExamples(dir); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(dir, "configuration"))
	t.Setenv("XDG_DATA_HOME", filepath.Join(dir, "data"))
	t.Chdir(dir)
}

// examples are the files that the pages show, by the page and what they are called in it.
var examples = []struct{ page, kind, name string }{
	{readmePage, "string", "my-string.yaml"},
	{kennelPage, "kennel", "thornfield.yaml"},
	{patternsPage, "pattern", "mine.yaml"},
	{commandsPage, "settings", "settings.yaml"},
}

// writeExamples writes the files that the pages show.
func writeExamples(dir string) error {
	for _, x := range examples {
		text, err := os.ReadFile(filepath.Join(here, x.page))
		if err != nil {
			return err
		}
		m := regexp.MustCompile("(?s)```yaml " + x.kind + "\n(.*?)```").FindSubmatch(text)
		if m == nil {
			return fmt.Errorf("%s has no example of a file called %s", x.page, x.kind)
		}
		if _, err := os.Stat(filepath.Join(dir, x.name)); err == nil {
			return fmt.Errorf("there is a %s already; examples and scripts need files of their own", x.name)
		}
		if err := os.WriteFile(filepath.Join(dir, x.name), m[1], 0o600); err != nil {
			return err
		}
	}
	return nil
}

// here is the folder of this package, which tests leave.
var here, _ = os.Getwd()

func textOf(t *testing.T, page string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(here, page))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// The pages that people read, from this folder.
const (
	readmePage   = "../../README.md"
	commandsPage = "../../cmd/tuckup/README.md"
	planPage     = "../../optimize/README.md"
	deskPage     = "../../reports/desk/README.md"
	kennelPage   = "../../kennel/text/README.md"
	patternsPage = "../../kennel/patterns/README.md"
)

var pages = []string{readmePage, commandsPage, planPage, deskPage, kennelPage, patternsPage}

func TestAFaultInsideEndsInOneSentence(t *testing.T) {
	inExamples(t)
	var o, e bytes.Buffer
	a := newApp(&o, &e, func() time.Time { panic("the clock is broken") })
	if code := a.run(context.Background(), []string{"plan", "--kennel", "thornfield.yaml"}); code != codeFailed {
		t.Errorf("exit code %d, want %d", code, codeFailed)
	}
	if got := e.String(); strings.Contains(got, "goroutine") || !strings.Contains(got, "the clock is broken") || strings.Count(got, "\n") != 2 {
		t.Errorf("said %q", got)
	}
}

func TestAStoppedPlanSaysSo(t *testing.T) {
	inExamples(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	code, out, err := program(ctx, "plan", "--kennel", "thornfield.yaml")
	if code != codeFailed || out != "" || !strings.Contains(err, "stopped before the plan was made") {
		t.Errorf("code %d, wrote %q, said %q", code, out, err)
	}
}

func TestTodayIsTheKennelsOwn(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	data, err := os.ReadFile("thornfield.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for zone, want := range map[string]string{"Europe/Dublin": "2027-01-05", "Pacific/Auckland": "2027-01-06"} {
		file := strings.Replace(string(data), "plan_from: 2027-01-04\n", "", 1)
		file = strings.Replace(file, "Europe/Dublin", zone, 1)
		if err := os.WriteFile("elsewhere.yaml", []byte(file), 0o600); err != nil {
			t.Fatal(err)
		}
		code, out, said := program(context.Background(), "plan", "--kennel", "elsewhere.yaml", "--format", "json")
		if code != codeDone || !strings.Contains(out, `"on": "`+want+`"`) {
			t.Errorf("in %s today should be %s; code %d, said %q", zone, want, code, said)
		}
	}
}

func TestWhatIsSaidCannotHarmTheTerminal(t *testing.T) {
	code, _, err := program(context.Background(), "plan", "--kennel", "no\x1b[2J\nsuch\u202efile")
	if code != codeUsage || strings.ContainsAny(err, "\x1b\u202e") || strings.Count(err, "\n") != 2 {
		t.Errorf("code %d, said %q", code, err)
	}
}
