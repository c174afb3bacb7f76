package book

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Backup writes a copy of the book as it is at one moment into a new file, while others read and change it. The copy
// is whole or not there. A file that is there already is not written over: the error is then fs.ErrExist.
func (b *Book) Backup(ctx context.Context, file string) error {
	if _, err := os.Lstat(file); err == nil {
		return &Error{
			Trouble: TroubleReadOnly, What: fmt.Sprintf("there is a file %q already; nothing was written", file),
			Try: "another name for the copy", cause: fs.ErrExist,
		}
	}
	temp, err := os.MkdirTemp(filepath.Dir(file), ".tuckup-*")
	if err != nil {
		return cannotCopy(file, err)
	}
	defer os.RemoveAll(temp) //nolint:errcheck // an empty folder stays at worst
	copied := filepath.Join(temp, "copy")
	if _, err := b.db.ExecContext(ctx, "VACUUM INTO ?", copied); err != nil {
		return plainError(file, err)
	}
	if err := syncFile(copied); err != nil {
		return cannotCopy(file, err)
	}
	if err := os.Link(copied, file); err != nil { // unlike a rename never over another file
		if errors.Is(err, fs.ErrExist) {
			return cannotCopy(file, err)
		}
		if err := os.Rename(copied, file); err != nil {
			return cannotCopy(file, err)
		}
	}
	return nil
}

// syncFile brings a file onto the disk.
func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Chmod(fileMode), f.Sync(), f.Close())
}

// fileMode lets only the owner read a copy: notes are private.
const fileMode = 0o600

func cannotCopy(file string, err error) error {
	return &Error{
		Trouble: TroubleReadOnly, What: fmt.Sprintf("the copy %q can't be written: %v", file, err),
		Try: "a path in a folder that is there and that you may write to", cause: err,
	}
}

// keptCopies is how many dated copies are kept.
const keptCopies = 10

// keepDated copies the book before it is brought into another form, and lets the oldest copies go.
func (b *Book) keepDated(ctx context.Context, version int) error {
	folder := filepath.Join(filepath.Dir(b.path), "backups")
	if err := os.MkdirAll(folder, folderMode); err != nil {
		return cannotCopy(folder, err)
	}
	base := filepath.Base(b.path)
	stem := fmt.Sprintf("%s-%s-form-%d", base, b.opt.Now().UTC().Format("2006-01-02T150405"), version)
	file := filepath.Join(folder, stem+".db")
	for n := 2; ; n++ {
		err := b.Backup(ctx, file)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
		file = filepath.Join(folder, fmt.Sprintf("%s-%d.db", stem, n))
	}
	return forget(folder, base)
}

// forget removes all dated copies of a book but the newest.
func forget(folder, base string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	var dated []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), base+"-") && strings.Contains(e.Name(), "-form-") && strings.HasSuffix(e.Name(), ".db") {
			dated = append(dated, e.Name())
		}
	}
	slices.Sort(dated) // by date, for the date comes first
	for _, name := range dated[:max(0, len(dated)-keptCopies)] {
		if err := os.Remove(filepath.Join(folder, name)); err != nil {
			return err
		}
	}
	return nil
}
