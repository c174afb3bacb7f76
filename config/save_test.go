package config

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestSavedSettingsAreReadAgainAndAllElseOfTheFileStays(t *testing.T) {
	for name, c := range map[string]struct {
		before string
		given  map[string]string
		after  string
	}{
		"no file yet":        {"", map[string]string{"balance": "2"}, "balance: 2\n"},
		"a line changes":     {"# mine\nbalance: 2 # tried in March\nweeks: 30\n", map[string]string{"balance": " 1.5 "}, "# mine\nbalance: 1.5 # tried in March\nweeks: 30\n"},
		"a line comes":       {"weeks: 30", map[string]string{"balance": "1"}, "weeks: 30\nbalance: 1\n"},
		"a line goes":        {"balance: 2\n# long\nweeks: 30\n", map[string]string{"weeks": ""}, "balance: 2\n# long\n"},
		"two at once":        {"balance: 2\nweeks: 30\n", map[string]string{"weeks": "20", "balance": ""}, "weeks: 20\n"},
		"in capitals":        {"BALANCE: 2\n", map[string]string{"balance": "3"}, "balance: 3\n"},
		"a flow on one line": {"{balance: 2, weeks: 30}\n", map[string]string{"weeks": "20"}, "balance: 2\nweeks: 20\n"},
		"nothing was there":  {"weeks: 30\n", map[string]string{"balance": ""}, "weeks: 30\n"},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "config.yaml")
			if err := os.WriteFile(file, []byte(c.before), 0o600); err != nil {
				t.Fatal(err)
			}
			if err := Save(twoSettings, file, c.given); err != nil {
				t.Fatal(err)
			}
			if got, _ := os.ReadFile(file); string(got) != c.after {
				t.Errorf("the file is %q, want %q", got, c.after)
			}
			if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("its mode is now %v (%v)", info.Mode(), err)
			}
			vs, err := Load(twoSettings, twoDefaults, file)
			if err != nil {
				t.Fatal(err)
			}
			for key, said := range c.given {
				if said == "" && vs.Get(key) != twoDefaults[key] {
					t.Errorf("%s is %v, want its default", key, vs.Get(key))
				}
			}
			if left, err := filepath.Glob(filepath.Join(filepath.Dir(file), ".*")); err != nil || len(left) > 0 {
				t.Errorf("left behind: %v", left)
			}
		})
	}
}

func TestTheUsualSettingsFileIsMadeWhereThereIsNone(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(t.TempDir(), "deep"))
	if err := Save(twoSettings, "", map[string]string{"balance": "2"}); err != nil {
		t.Fatal(err)
	}
	if vs, err := Load(twoSettings, twoDefaults, ""); err != nil || vs.Get("balance") != 2 || vs[0].Fixed() || vs[0].Usual != 0.5 {
		t.Errorf("%+v %v", vs, err)
	}
	t.Setenv("TUCKUP_BALANCE", "3")
	if vs, err := Load(twoSettings, twoDefaults, ""); err != nil || !vs[0].Fixed() {
		t.Errorf("what the environment sets can be changed by the file: %+v %v", vs, err)
	}
}

func TestSettingsThatCannotBeUsedChangeNothing(t *testing.T) {
	const before = "balance: 2\n"
	for name, c := range map[string]struct {
		before string
		given  map[string]string
		want   string
	}{
		"out of range":         {before, map[string]string{"weeks": "30", "balance": "11"}, "is outside 0 to 10"},
		"no number":            {before, map[string]string{"balance": "much"}, "is not a number"},
		"not whole":            {before, map[string]string{"weeks": "5.5"}, "is not a whole number"},
		"a line more":          {before, map[string]string{"balance": "1\nweeks: 5"}, "is not a number"},
		"no setting":           {before, map[string]string{"levelling": "1"}, "is not a setting"},
		"a file that is wrong": {"balance: [1\n", map[string]string{"balance": "1"}, "config.yaml"},
		"unknown in the file":  {"levelling: 1\n", map[string]string{"balance": "1"}, "is not a setting"},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "config.yaml")
			if err := os.WriteFile(file, []byte(c.before), 0o600); err != nil {
				t.Fatal(err)
			}
			err := Save(twoSettings, file, c.given)
			var bad *Error
			if !errors.As(err, &bad) || bad.Try == "" || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want a refusal with %q", err, c.want)
			}
			if got, _ := os.ReadFile(file); string(got) != c.before {
				t.Errorf("the file is now %q", got)
			}
		})
	}
	inTheWay := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XDG_CONFIG_HOME", inTheWay)
	var bad *Error
	if err := Save(twoSettings, "", map[string]string{"balance": "2"}); !errors.As(err, &bad) || bad.Try == "" {
		t.Errorf("where no folder can be made: %v", err)
	}
}
