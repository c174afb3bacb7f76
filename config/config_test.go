package config

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var twoSettings = []Setting{
	{Key: "balance", Unit: "points", Low: 0, High: 10, About: "x"},
	{Key: "weeks", Unit: "weeks", Low: 4, High: 104, Whole: true, About: "x"},
}

var twoDefaults = map[string]float64{"balance": 0.5, "weeks": 26}

func load(t *testing.T, content string) (Values, error) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "config.yaml")
	if err := os.WriteFile(file, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return Load(twoSettings, twoDefaults, file)
}

func TestEnvironmentGoesBeforeFileAndFileBeforeDefault(t *testing.T) {
	vs, err := load(t, "balance: 2\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := vs.Get("balance"); got != 2 || !strings.HasPrefix(vs[0].From, "file ") {
		t.Errorf("balance = %v from %q, want 2 from the file", got, vs[0].From)
	}
	if got := vs.Get("weeks"); got != 26 || vs[1].From != "default" {
		t.Errorf("weeks = %v from %q, want 26 by default", got, vs[1].From)
	}
	t.Setenv("TUCKUP_BALANCE", "3.5")
	vs, err = load(t, "balance: 2\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := vs.Get("balance"); got != 3.5 || vs[0].From != "environment TUCKUP_BALANCE" {
		t.Errorf("balance = %v from %q, want 3.5 from the environment", got, vs[0].From)
	}
	if err := vs.Set("balance", 4, "--balance"); err != nil || vs.Get("balance") != 4 {
		t.Errorf("balance = %v (%v), want 4 from the flag", vs.Get("balance"), err)
	}
	if err := vs.Set("balance", 11, "--balance"); err == nil {
		t.Error("a flag outside the range was taken")
	}
}

func TestBadSettingsAreRefusedWithTheirOrigin(t *testing.T) {
	for name, c := range map[string]struct{ file, env, want string }{
		"unknown key":   {"levelling: 1\n", "", `"levelling" is not a setting`},
		"out of range":  {"balance: 11\n", "", `config.yaml: balance: "11" is outside 0 to 10`},
		"no number":     {"balance: much\n", "", `balance: "much" is not a number`},
		"a list":        {"balance: [1]\n", "", `is not a number`},
		"not whole":     {"weeks: 5.5\n", "", `weeks: "5.5" is not a whole number`},
		"not a number":  {"balance: .nan\n", "", `outside`},
		"broken file":   {"balance: [1\n", "", `config.yaml`},
		"nested":        {"balance: {deep: 1}\n", "", `"balance.deep" is not a setting`},
		"environment":   {"balance: 1\n", "12", `environment TUCKUP_BALANCE: balance: "12" is outside`},
		"env no number": {"", "lots", `environment TUCKUP_BALANCE: balance: "lots" is not a number`},
	} {
		t.Run(name, func(t *testing.T) {
			if c.env != "" {
				t.Setenv("TUCKUP_BALANCE", c.env)
			}
			vs, err := load(t, c.file)
			var bad *Error
			if !errors.As(err, &bad) {
				t.Fatalf("got %v, %v, want a refusal", vs, err)
			}
			if !strings.Contains(err.Error(), c.want) || bad.Try == "" || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %q, try %q, want one sentence with %q", err, bad.Try, c.want)
			}
		})
	}
}

func TestAFileThatIsNamedMustBeThere(t *testing.T) {
	if _, err := Load(twoSettings, twoDefaults, filepath.Join(t.TempDir(), "none.yaml")); err == nil {
		t.Error("a missing file was passed over")
	}
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	if _, err := Load(twoSettings, twoDefaults, ""); err != nil {
		t.Errorf("without a file the defaults should do: %v", err)
	}
}
