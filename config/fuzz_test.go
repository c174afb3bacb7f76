package config

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
)

// refusedOrInRange holds what was read to numbers that may be, each with its origin, and what was refused to one sentence
// with something to try.
func refusedOrInRange(t *testing.T, vs Values, err error) {
	t.Helper()
	if err != nil {
		var in *Error
		if !errors.As(err, &in) || in.What == "" || in.Try == "" || in.From == "" {
			t.Fatalf("%#v", err)
		}
		for _, said := range []string{in.What, in.Try} {
			if strings.ContainsFunc(said, unicode.IsControl) || strings.Contains(said, "<nil>") {
				t.Errorf("said %q", said)
			}
		}
		return
	}
	if len(vs) != len(twoSettings) {
		t.Fatalf("%d values", len(vs))
	}
	for i, v := range vs {
		if v.Key != twoSettings[i].Key || !(v.Number >= v.Low && v.Number <= v.High) || v.Whole && v.Number != math.Trunc(v.Number) {
			t.Errorf("%+v", v)
		}
		if v.From == "default" && v.Number != twoDefaults[v.Key] {
			t.Errorf("%s is %v by default", v.Key, v.Number)
		}
	}
}

func FuzzSettingsFile(f *testing.F) {
	for _, s := range []string{
		"balance: 2\nweeks: 30\n", "balance: 0x1p0", "balance:", "balance: ~", "BALANCE: 2\nbalance: 3\n", "balance: &a 2\nweeks: *a", "weeks: .inf", "weeks: 4_0",
		"balance: 2027-01-01", "? [a]\n: 1", "- 1", "--- 1\n--- 2", "\xff\xfe", "balance: !!binary AA==", "a.b: 1", "balance: {low: 1}", "1: 2", "\x1b[2J: 1",
	} {
		f.Add([]byte(s))
	}
	file := filepath.Join(f.TempDir(), "config.yaml")
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		vs, err := Load(twoSettings, twoDefaults, file)
		refusedOrInRange(t, vs, err)
	})
}

func FuzzEnvironment(f *testing.F) {
	for _, s := range []string{"", "2", " 3.5 ", "1e1", "NaN", "inf", "-0", "0x1p0", "1_0", "1,5", "\x1b[2J", "\xff", "११", strings.Repeat("9", 400)} {
		f.Add(s)
	}
	file := filepath.Join(f.TempDir(), "config.yaml")
	if err := os.WriteFile(file, []byte("balance: 2\n"), 0o600); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, value string) {
		if strings.Contains(value, "\x00") {
			return // no system takes it
		}
		t.Setenv("TUCKUP_BALANCE", value)
		t.Setenv("TUCKUP_"+strings.Map(upper, value), "1")
		vs, err := Load(twoSettings, twoDefaults, file)
		refusedOrInRange(t, vs, err)
		if err == nil && value == "" && vs.Get("balance") != 2 {
			t.Errorf("an empty variable sets %v", vs.Get("balance"))
		}
		if err == nil && value != "" && vs[0].From != "environment TUCKUP_BALANCE" {
			t.Errorf("%q: balance is from %q", value, vs[0].From)
		}
		for _, name := range UnknownEnv(twoSettings) {
			if !strings.HasPrefix(name, "TUCKUP_") || name == "TUCKUP_BALANCE" || name == "TUCKUP_WEEKS" {
				t.Errorf("%q is called unknown", name)
			}
		}
	})
}

// upper keeps what may be in the name of a variable.
func upper(r rune) rune {
	if unicode.IsLetter(r) && r < unicode.MaxASCII {
		return unicode.ToUpper(r)
	}
	return -1
}
