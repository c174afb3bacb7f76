package book

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"tuckup/kennel"
)

// Copy is one of the copies of a book that are kept in the folder backups beside it.
type Copy struct {
	Name string      // the day, like 2027-01-05: the book before its first change; with a time and a form: before it got a newer form
	Day  kennel.Date // when it was made
	File string
}

// How many copies are kept.
const (
	keptDays   = 14 // days on which the book was changed
	keptMonths = 12 // months, the first copy of each
	keptForms  = 10 // copies from before a newer form
)

const timeInName = "2006-01-02T150405"

var (
	dayName  = regexp.MustCompile(`^\d{4}-\d\d-\d\d$`)
	formName = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d{6}-form-\d+(-\d+)?$`)
)

// copyFolder is where the copies of a book are.
func copyFolder(path string) string { return filepath.Join(filepath.Dir(path), "backups") }

// copyNamed is the copy of a book that has a name.
func copyNamed(path, name string) Copy {
	c := Copy{Name: name, File: filepath.Join(copyFolder(path), filepath.Base(path)+"-"+name+".db")}
	if d, err := kennel.ParseDate(name[:min(len(time.DateOnly), len(name))]); err == nil {
		c.Day = d
	}
	return c
}

// Copies are the copies of the book at a path, the newest first; the book itself need not be there. Other files in the
// folder are left alone.
func Copies(path string) (all []Copy, err error) {
	entries, err := os.ReadDir(copyFolder(path))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, cannotOpen(copyFolder(path), err)
	}
	for _, e := range entries {
		name, ours := strings.CutPrefix(e.Name(), filepath.Base(path)+"-")
		name, db := strings.CutSuffix(name, ".db")
		if ours && db && (dayName.MatchString(name) || formName.MatchString(name)) {
			if c := copyNamed(path, name); c.Day != 0 {
				all = append(all, c)
			}
		}
	}
	slices.SortFunc(all, func(a, b Copy) int { return strings.Compare(b.Name, a.Name) })
	return all, nil
}

// FindCopy is the copy of the book at a path that has the name. The error has the nearest name to try.
func FindCopy(path, name string) (Copy, error) {
	all, err := Copies(path)
	if err != nil {
		return Copy{}, err
	}
	names := make([]string, len(all))
	for i, c := range all {
		if names[i] = c.Name; c.Name == name {
			return c, nil
		}
	}
	try := "a change of the book: the first of each day makes one"
	if len(names) > 0 {
		try = kennel.Nearest(name, names, 1)[0]
	}
	return Copy{}, &kennel.InputError{Field: "copy", Value: name, What: "is not there", Try: try}
}

// SentCopy is a copy of a book that somebody sent, under the name that people are shown; it lies in a file of its own until drop is called.
func SentCopy(name string, data []byte) (c Copy, drop func(), err error) {
	dir, err := os.MkdirTemp("", "tuckup-*")
	if err != nil {
		return c, nil, err
	}
	drop = func() { _ = os.RemoveAll(dir) } // it lies in the folder for what may go
	c = Copy{Name: name, File: filepath.Join(dir, "copy.db")}
	if err := os.WriteFile(c.File, data, fileMode); err != nil {
		drop()
		return c, nil, err
	}
	return c, drop, nil
}

// forget removes all copies of a book but those that are kept. One that can't be removed stays until the next time.
func forget(path string) {
	all, err := Copies(path)
	if err != nil {
		return
	}
	var gone []Copy
	days, forms := 0, 0
	firsts := map[string]string{} // of each month
	for _, c := range all {
		if dayName.MatchString(c.Name) {
			firsts[month(c)] = c.Name
		}
	}
	months := map[string]bool{}
	for _, c := range all {
		switch {
		case !dayName.MatchString(c.Name):
			if forms++; forms > keptForms {
				gone = append(gone, c)
			}
			continue
		case firsts[month(c)] == c.Name && len(months) < keptMonths:
			months[month(c)] = true
			days++
			continue
		}
		if days++; days > keptDays {
			gone = append(gone, c)
		}
	}
	for _, c := range gone {
		_ = os.Remove(c.File)
	}
}

func month(c Copy) string { return c.Name[:len("2006-01")] }

// Inside is what a copy holds.
type Inside struct {
	Copy
	State   State
	Version int64 // its last change
}

// Changes are what going back to the copy would change of a state, in words.
func (i Inside) Changes(now State) []Difference {
	return between(encode(now), encode(i.State)).differences()
}

// Look opens a copy, holds it against itself and reads it; nothing is written. The error is an *Error of TroubleDamaged
// when it is not sound.
func (c Copy) Look(ctx context.Context, opt Options) (in Inside, err error) {
	opt.Create, opt.Read = false, true
	b, err := Open(ctx, c.File, opt)
	if err != nil {
		return in, c.unsound(err)
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	wrong, err := b.Check(ctx)
	if err == nil && len(wrong) > 0 {
		err = errors.New(wrong[0])
	}
	if err != nil {
		return in, c.unsound(err)
	}
	in.Copy = c
	in.State, in.Version, err = b.Read(ctx)
	return in, err
}

func (c Copy) unsound(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, &Error{Trouble: TroubleNewer}) {
		return err
	}
	return &Error{
		Trouble: TroubleDamaged, What: fmt.Sprintf("the copy %s is not sound: %v", c.Name, err), Try: "a copy of another day", cause: err,
	}
}
