package config

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/viper"
)

// fileMode and dirMode are how the settings file and its folder are made.
const (
	fileMode = 0o644
	dirMode  = 0o755
)

// Read is the number that somebody wrote for the setting: a number within its range. from says where it was written. The error is an
// *Error.
func (s Setting) Read(written, from string) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(written), 64)
	if err != nil {
		return 0, s.refuse(from, written, "is not a number")
	}
	if wrong := s.check(x); wrong != "" {
		return 0, s.refuse(from, written, wrong)
	}
	return x, nil
}

// Save writes settings into a file, as Load reads them: those of given, by key, over what the file has of them; "" takes a setting out
// of the file, so that it has its default. With file "" it is the default file, which is made where there is none. Comments and
// lines of other settings stay as they are. The file is replaced whole or not at all: where anything of given, or of what the file
// had, can't be used, nothing is changed. The error is an *Error.
func Save(settings []Setting, file string, given map[string]string) error {
	path := file
	if path == "" {
		path = DefaultFile()
	}
	if path == "" {
		return &Error{From: "settings", What: "there is no folder for the settings file", Try: "--config with the path of a settings file"}
	}
	wanted := map[string]float64{}
	for _, key := range slices.Sorted(maps.Keys(given)) {
		i := slices.IndexFunc(settings, func(s Setting) bool { return s.Key == key })
		if i < 0 {
			return &Error{From: path, What: fmt.Sprintf("%q is not a setting", key), Try: "one that `tuckup settings` lists"}
		}
		if strings.TrimSpace(given[key]) == "" {
			continue
		}
		x, err := settings[i].Read(given[key], path)
		if err != nil {
			return err
		}
		wanted[key] = x
	}
	before, v, err := fileOf(path, file == "", settings)
	if err != nil {
		return err
	}
	for _, write := range []func() ([]byte, error){
		func() ([]byte, error) { return edited(before, given, wanted), nil },
		func() ([]byte, error) { return rewritten(v, given, wanted) }, // a file that is not written line by line
	} {
		data, err := write()
		if err != nil {
			return cannotSave(path, err)
		}
		done, err := replaceFile(path, data, func(written string) bool { return holds(written, settings, v, given, wanted) })
		if err != nil {
			return cannotSave(path, err)
		}
		if done {
			return nil
		}
	}
	return &Error{From: path, What: "the settings can't be written into this file", Try: "one setting a line, like \"balance: 0.5\""}
}

func cannotSave(path string, err error) error {
	var in *os.PathError
	if errors.As(err, &in) {
		err = in.Err
	}
	return &Error{From: path, What: "the settings file can't be written; nothing was changed: " + err.Error(), Try: "a folder that you may write to, with --config"}
}

// fileOf is the settings file as it is; one that need not be there may be missing.
func fileOf(path string, usual bool, settings []Setting) ([]byte, *viper.Viper, error) {
	v := viper.New()
	name := path
	if usual {
		name = "" // it may be missing
	}
	found, err := readFile(v, name)
	if err != nil {
		return nil, nil, err
	}
	if found == "" {
		return nil, v, nil
	}
	if err := refuseUnknown(v, settings, path); err != nil {
		return nil, nil, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, nil, cannotSave(path, err)
	}
	return data, v, nil
}

// edited is the file with the lines of the settings changed, taken out or added.
func edited(before []byte, given map[string]string, wanted map[string]float64) []byte {
	after := string(before)
	for _, key := range slices.Sorted(maps.Keys(given)) {
		line := regexp.MustCompile(`(?im)^["']?` + regexp.QuoteMeta(key) + `["']?[ \t]*:[^#\r\n]*(#[^\r\n]*)?\r?\n?`)
		x, is := wanted[key]
		text := key + ": " + Number(x)
		switch at := line.FindStringSubmatchIndex(after); {
		case at == nil && is:
			if after != "" && !strings.HasSuffix(after, "\n") {
				after += "\n"
			}
			after += text + "\n"
		case at == nil:
		case !is:
			after = after[:at[0]] + after[at[1]:]
		default:
			if at[2] >= 0 {
				text += " " + after[at[2]:at[3]]
			}
			after = after[:at[0]] + text + "\n" + after[at[1]:]
		}
	}
	return []byte(after)
}

// rewritten is a file of the same settings, with those of wanted.
func rewritten(v *viper.Viper, given map[string]string, wanted map[string]float64) ([]byte, error) {
	to := viper.New()
	to.SetConfigType("yaml")
	for _, key := range v.AllKeys() {
		if _, changes := given[key]; !changes {
			to.Set(key, v.Get(key))
		}
	}
	for key, x := range wanted {
		to.Set(key, x)
	}
	var b bytes.Buffer
	err := to.WriteConfigTo(&b)
	return b.Bytes(), err
}

// holds reports whether a file that was written says what it should, and of all else what it said before.
func holds(file string, settings []Setting, before *viper.Viper, given map[string]string, wanted map[string]float64) bool {
	now := viper.New()
	if _, err := readFile(now, file); err != nil {
		return false
	}
	for _, s := range settings {
		x, want := wanted[s.Key]
		switch _, changes := given[s.Key]; {
		case want:
			if got, err := s.Read(fmt.Sprint(now.Get(s.Key)), file); err != nil || got != x {
				return false
			}
		case changes:
			if now.InConfig(s.Key) {
				return false
			}
		case now.InConfig(s.Key) != before.InConfig(s.Key) || fmt.Sprint(now.Get(s.Key)) != fmt.Sprint(before.Get(s.Key)):
			return false
		}
	}
	return refuseUnknown(now, settings, file) == nil
}

// replaceFile puts data in the place of a file if what was written passes the check.
func replaceFile(path string, data []byte, check func(file string) bool) (done bool, err error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // what a link leads to is replaced, not the link
	}
	mode := os.FileMode(fileMode)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	if err := os.MkdirAll(filepath.Dir(path), dirMode); err != nil {
		return false, err
	}
	temp, err := os.CreateTemp(filepath.Dir(path), ".config-*")
	if err != nil {
		return false, err
	}
	defer os.Remove(temp.Name()) // gone already where it took its place
	_, err = temp.Write(data)
	err = errors.Join(err, temp.Chmod(mode), temp.Sync(), temp.Close())
	if err != nil || !check(temp.Name()) {
		return false, err
	}
	return true, os.Rename(temp.Name(), path)
}
