// Package config reads the settings of a plan, from a file, from the environment, or the defaults that it is given, and writes the file.
// Every number is checked against its range, and every one knows where it came from.
package config

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/viper"
)

// EnvPrefix starts the name of every environment variable: TUCKUP_BALANCE sets balance.
const EnvPrefix = "TUCKUP"

// Setting is one number that can be set.
type Setting struct {
	Key       string // as the settings file writes it
	Unit      string
	Low, High float64 // both allowed
	Whole     bool    // whole numbers only
	About     string  // one line
}

// Env is the environment variable that sets it.
func (s Setting) Env() string { return EnvPrefix + "_" + strings.ToUpper(s.Key) }

// Range is the range in words.
func (s Setting) Range() string {
	kind := ""
	if s.Whole {
		kind = ", whole"
	}
	return fmt.Sprintf("%s to %s%s", Number(s.Low), Number(s.High), kind)
}

// Number writes x as people type it.
func Number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// check says what is wrong with x, or nothing.
func (s Setting) check(x float64) string {
	switch {
	case math.IsNaN(x) || x < s.Low || x > s.High:
		return fmt.Sprintf("is outside %s to %s", Number(s.Low), Number(s.High))
	case s.Whole && x != math.Trunc(x):
		return "is not a whole number"
	}
	return ""
}

// Value is a setting with its number and where that came from.
type Value struct {
	Setting
	Number float64
	Usual  float64 // by default
	From   string  // "default", "file <path>", "environment <variable>" or "flag <name>"
}

// Values are settings in the order in which they were declared.
type Values []Value

// Get is the number of a key. The key must be one that was declared.
func (vs Values) Get(key string) float64 {
	i := slices.IndexFunc(vs, func(v Value) bool { return v.Key == key })
	return vs[i].Number
}

// Set overrides a key with what was given on the command line. The error is an *Error.
func (vs Values) Set(key string, x float64, flag string) error {
	i := slices.IndexFunc(vs, func(v Value) bool { return v.Key == key })
	if wrong := vs[i].check(x); wrong != "" {
		return vs[i].refuse("flag "+flag, Number(x), wrong)
	}
	vs[i].Number, vs[i].From = x, "flag "+flag
	return nil
}

// Error is a setting that can't be used. Its text is one sentence; Try says what to do.
type Error struct {
	From, What, Try string
	Wrong           string // what is wrong with the value alone, like "is outside 0 to 10"; "" where it is not one value
}

func (e *Error) Error() string { return e.From + ": " + e.What }

func (s Setting) refuse(from, value, wrong string) *Error {
	return &Error{
		From: from, What: fmt.Sprintf("%s: %q %s", s.Key, value, wrong),
		Try: fmt.Sprintf("%s as a number from %s (%s)", s.Key, s.Range(), s.Unit), Wrong: wrong,
	}
}

// DefaultFile is where settings are looked for when no file is named: config.yaml in the folder tuckup of the
// user's configuration directory (XDG_CONFIG_HOME on Linux). It is "" when there is no such directory.
func DefaultFile() string {
	dir, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "tuckup", "config.yaml")
}

// Load gives every setting its number: the environment before the file, the file before the default. A file that
// is named must be there; with file "" the default file is read if it is there. Keys of the file that are no
// setting are refused. The error is an *Error.
func Load(settings []Setting, defaults map[string]float64, file string) (Values, error) {
	v := viper.New()
	path, err := readFile(v, file)
	if err != nil {
		return nil, err
	}
	if err := refuseUnknown(v, settings, path); err != nil {
		return nil, err
	}
	values := make(Values, 0, len(settings))
	for _, s := range settings {
		value, err := valueOf(v, s, defaults[s.Key], path)
		if err != nil {
			return nil, err
		}
		values = append(values, value)
	}
	return values, nil
}

// readFile reads the settings file into v and returns its path, "" when there is none.
func readFile(v *viper.Viper, file string) (string, error) {
	path := file
	if path == "" {
		path = DefaultFile()
	}
	if path == "" {
		return "", nil
	}
	v.SetConfigFile(path)
	v.SetConfigType("yaml")
	err := v.ReadInConfig()
	switch {
	case err == nil:
		return path, nil
	case file == "" && errors.Is(err, fs.ErrNotExist):
		return "", nil
	case errors.Is(err, fs.ErrNotExist):
		return "", &Error{From: path, What: "there is no such settings file", Try: "the path of a settings file, or leave --config out"}
	}
	var path2 *fs.PathError
	if errors.As(err, &path2) {
		return "", &Error{From: path, What: "the settings file can't be read: " + path2.Err.Error(), Try: "a file that can be read"}
	}
	return "", &Error{From: path, What: oneLine(err.Error()), Try: "lines like \"balance: 0.5\", one setting a line"}
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func refuseUnknown(v *viper.Viper, settings []Setting, path string) error {
	keys := v.AllKeys()
	slices.Sort(keys)
	for _, k := range keys {
		if slices.ContainsFunc(settings, func(s Setting) bool { return s.Key == k }) {
			continue
		}
		names := make([]string, len(settings))
		for i, s := range settings {
			names[i] = s.Key
		}
		return &Error{From: path, What: fmt.Sprintf("%q is not a setting", k), Try: "one of " + strings.Join(names, ", ")}
	}
	return nil
}

func valueOf(v *viper.Viper, s Setting, standard float64, path string) (Value, error) {
	if err := v.BindEnv(s.Key, s.Env()); err != nil {
		return Value{}, err
	}
	from, raw := "default", v.Get(s.Key)
	switch {
	case os.Getenv(s.Env()) != "":
		from = "environment " + s.Env()
	case v.InConfig(s.Key):
		from = "file " + path
	default:
		return Value{s, standard, standard, from}, nil
	}
	x, err := s.Read(fmt.Sprint(raw), from)
	return Value{s, x, standard, from}, err
}

// Fixed reports whether the value was given when the program was started, so that no file changes it.
func (v Value) Fixed() bool {
	return strings.HasPrefix(v.From, "environment ") || strings.HasPrefix(v.From, "flag ")
}

// UnknownEnv lists, sorted, the environment variables that look like settings and are none.
func UnknownEnv(settings []Setting) []string {
	var unknown []string
	for _, pair := range os.Environ() {
		name, _, _ := strings.Cut(pair, "=")
		if strings.HasPrefix(name, EnvPrefix+"_") && !slices.ContainsFunc(settings, func(s Setting) bool { return s.Env() == name }) {
			unknown = append(unknown, name)
		}
	}
	slices.Sort(unknown)
	return unknown
}
