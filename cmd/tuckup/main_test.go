package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write the golden files and the README's transcript anew")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tuckup": main})
}

// The files that the README shows are at hand in every script, under the names that it gives them.
func TestScripts(t *testing.T) {
	readme := readmeText(t)
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "configuration"))
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("TODAY", time.Now().Format(time.DateOnly)) // as the copies of a book are named
			return writeExamples(e.WorkDir, readme)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": exitCode},
	})
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

// inExamples makes a folder with the README's files the current one.
func inExamples(t *testing.T) {
	t.Helper()
	dir := t.TempDir()
	if err := writeExamples(dir, readmeText(t)); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(dir, "configuration"))
	t.Setenv("XDG_DATA_HOME", filepath.Join(dir, "data"))
	t.Chdir(dir)
}

// writeExamples writes the README's example files.
func writeExamples(dir, readme string) error {
	for kind, name := range map[string]string{"kennel": "thornfield.yaml", "pattern": "mine.yaml", "settings": "settings.yaml"} {
		m := regexp.MustCompile("(?s)```yaml " + kind + "\n(.*?)```").FindStringSubmatch(readme)
		if m == nil {
			return errors.New("the README has no example of a " + kind + " file")
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(m[1]), 0o600); err != nil {
			return err
		}
	}
	return nil
}

func readmeText(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(readmePath)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

const readmePath = "../../README.md"

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
