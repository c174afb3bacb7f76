package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tiny is a kennel file that is planned in the blink of an eye.
const tiny = `kennel: Fellside
plan_from: 2027-01-04
weeks: 8
hands:
  - {name: Maeve, hours: {mon: 2, thu: 2}}
dogs:
  - {name: Moss, pattern: border-terrier, areas: {all: [{share: 0.6, pulled: 2026-10-12}, {share: 0.4, pulled: 2026-12-07}]}}
shows:
  - {name: Brackenmere, on: 2027-02-13, dogs: [Moss]}
`

func writeTiny(t *testing.T) {
	t.Helper()
	if err := os.WriteFile("tiny.yaml", []byte(tiny), 0o600); err != nil {
		t.Fatal(err)
	}
}

// searched runs a command on the tiny string, and says whether it searched for a plan.
func searched(t *testing.T, args ...string) (out string, searched bool) {
	t.Helper()
	code, out, said := program(context.Background(), append(args, "--kennel", "tiny.yaml", "--log", "debug")...)
	if code != codeDone || out == "" {
		t.Fatalf("%v: code %d, said %s", args, code, said)
	}
	return out, !strings.Contains(said, "planned before")
}

func filesIn(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestAPlanOfUnchangedInputIsNotSoughtAgain(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	writeTiny(t)
	afresh := map[string]string{}
	commands := []string{"plan", "sheet", "readiness", "workload", "calendar", "plan --check", "plan --format json"}
	for _, c := range commands {
		dir := ownCache(t)
		out, was := searched(t, strings.Fields(c)...)
		if afresh[c] = out; !was || len(filesIn(t, dir)) != 1 {
			t.Errorf("%s with an empty cache: searched %t, kept %v", c, was, filesIn(t, dir))
		}
	}
	for _, c := range commands { // each with what the last of them has left
		if out, was := searched(t, strings.Fields(c)...); was || out != afresh[c] {
			t.Errorf("%s again: searched %t, and wrote\n%s\nnot\n%s", c, was, out, afresh[c])
		}
	}
	for name, args := range map[string][]string{
		"another day": {"plan", "--on", "2027-01-05"}, "another seed": {"plan", "--seed", "7"},
	} {
		if _, was := searched(t, args...); !was {
			t.Errorf("%s was not planned", name)
		}
	}
	if err := os.WriteFile("tiny.yaml", []byte(strings.Replace(tiny, "thu: 2", "thu: 3", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, was := searched(t, "plan"); !was {
		t.Error("other hours were not planned")
	}
	t.Setenv("TUCKUP_BALANCE", "3")
	if _, was := searched(t, "plan"); !was {
		t.Error("another setting was not planned with")
	}
}

func TestADamagedOrForeignKeptPlanIsReplaced(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	writeTiny(t)
	dir := ownCache(t)
	want, _ := searched(t, "plan")
	file := filepath.Join(dir, filesIn(t, dir)[0])
	good, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	other := slices.Clone(good)
	other[len(other)-30] ^= 1
	for name, data := range map[string][]byte{"damaged": other, "cut short": good[:len(good)/2], "empty": nil, "foreign": []byte("a letter\n"), "of another version": append([]byte("x"), good...)} {
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, was := searched(t, "plan"); !was || out != want {
			t.Errorf("%s: searched %t, wrote\n%s", name, was, out)
		}
		if now, err := os.ReadFile(file); err != nil || string(now) != string(good) {
			t.Errorf("%s: it was not replaced (%v)", name, err)
		}
	}
}

func TestOnlyTheNewestPlansAreKept(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	writeTiny(t)
	dir := ownCache(t)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	for n := range mostKept + 5 {
		if err := os.WriteFile(filepath.Join(dir, strings.Repeat("0", n+1)), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, was := searched(t, "plan"); !was || len(filesIn(t, dir)) != mostKept {
		t.Errorf("%d plans are kept", len(filesIn(t, dir)))
	}
	if _, was := searched(t, "sheet"); was {
		t.Error("the newest one went")
	}
	for n := range mostKept + 5 { // others that are newer than when it was made, but not than when it was used
		if err := os.WriteFile(filepath.Join(dir, strings.Repeat("1", n+1)), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	searched(t, "plan", "--seed", "2")
	if _, was := searched(t, "plan"); was || len(filesIn(t, dir)) != mostKept {
		t.Errorf("the one that is used went; %d are kept", len(filesIn(t, dir)))
	}
}

// A cache folder that can't be made or written is no trouble, and what a time limit might have cut short is not kept.
func TestAPlanIsMadeWithoutACacheFolder(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	writeTiny(t)
	if err := os.WriteFile("file", nil, 0o600); err != nil {
		t.Fatal(err)
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv(cacheHome, filepath.Join(here, "file"))
	if _, was := searched(t, "plan"); !was {
		t.Error("it was found in no folder")
	}
	dir := ownCache(t)
	if _, was := searched(t, "plan", "--time-limit", "60"); !was || len(filesIn(t, dir)) != 0 {
		t.Errorf("with a time limit it searched %t and kept %v", was, filesIn(t, dir))
	}
	if _, was := searched(t, "plan"); !was {
		t.Error("the one with a time limit was taken for it")
	}
	if _, was := searched(t, "plan", "--time-limit", "60"); was {
		t.Error("a limit made it search for what is known")
	}
}
