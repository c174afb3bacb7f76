package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// Backup writes a copy of the book as it is at one moment into a new file, while others read and change it. The copy
// is whole or not there. A file that is there already is not written over: the error is then fs.ErrExist.
func (b *Book) Backup(ctx context.Context, file string) error {
	return b.copyInto(ctx, b.db, file, copying)
}

// copyInto copies the book into a new file, by way of a folder beside it that is named after the pattern.
func (b *Book) copyInto(ctx context.Context, db *sql.DB, file, pattern string) error {
	if _, err := os.Lstat(file); err == nil {
		return taken(file)
	}
	temp, err := os.MkdirTemp(filepath.Dir(file), pattern)
	if err != nil {
		return cannotWrite(file, err)
	}
	defer os.RemoveAll(temp) //nolint:errcheck // an empty folder stays at worst
	copied := filepath.Join(temp, "copy")
	if _, err := db.ExecContext(ctx, "VACUUM INTO ?", copied); err != nil {
		return plainError(file, err)
	}
	if err := syncFile(copied); err != nil {
		return cannotWrite(file, err)
	}
	b.at(stageCopied)
	err = putInPlace(copied, file)
	if errors.Is(err, fs.ErrExist) {
		return taken(file)
	}
	if err != nil {
		return cannotWrite(file, err)
	}
	return nil
}

// Patterns of the folders in which copies are made; those of the day's copies are only made by who holds the write lock.
const (
	copying    = ".tuckup-*"
	copyingDay = ".day-*"
)

func taken(file string) *Error {
	return &Error{
		Trouble: TroublePlace, What: fmt.Sprintf("there is a file %q already; nothing was written", file),
		Try: "another name for the copy", cause: fs.ErrExist,
	}
}

// putInPlace gives a file that is on the disk its name, and never writes over another: the error is then fs.ErrExist.
func putInPlace(file, place string) error {
	err := os.Link(file, place) // unlike a rename never over another file
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = os.Rename(file, place) // a disk that knows no links
	}
	if err != nil {
		return err
	}
	if dir, err := os.Open(filepath.Dir(place)); err == nil {
		_ = dir.Sync() // some systems can't; the file itself is on the disk
		_ = dir.Close()
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

// keepForm copies the book before it is brought into another form, and lets the oldest such copies go.
func (b *Book) keepForm(ctx context.Context, version int) error {
	folder := copyFolder(b.path)
	if err := os.MkdirAll(folder, folderMode); err != nil {
		return cannotWrite(folder, err)
	}
	name := fmt.Sprintf("%s-form-%d", b.opt.Now().UTC().Format(timeInName), version)
	for n := 1; ; n++ {
		c := copyNamed(b.path, name)
		if n > 1 {
			c = copyNamed(b.path, fmt.Sprintf("%s-%d", name, n))
		}
		err := b.Backup(ctx, c.File)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	forget(b.path)
	return nil
}

// dayCopy is the copy of the book as it was before the first change of a day.
type dayCopy struct {
	book *Book
	file string // that was made now
	full error  // why it was dropped again
}

// make copies the book, unless there is a copy of the day, the book never was changed, or the copy was dropped for want
// of room. It is called by who holds the write lock, so that nobody changes the book meanwhile or copies it too.
func (d *dayCopy) make(ctx context.Context, version int64) error {
	if d.full != nil || version == 0 {
		return d.full
	}
	b := d.book
	c := copyNamed(b.path, b.opt.Now().Format(time.DateOnly))
	if _, err := os.Lstat(c.File); err == nil {
		return nil
	}
	folder := copyFolder(b.path)
	if err := os.MkdirAll(folder, folderMode); err != nil {
		return cannotWrite(folder, err)
	}
	dropHalves(folder)
	// The transaction has a connection already and another may not be free: copying takes its own.
	db, err := sql.Open("sqlite", address(b.file, b.opt.Wait))
	if err != nil {
		return err
	}
	defer db.Close() //nolint:errcheck // only read
	if err := b.copyInto(ctx, db, c.File, copyingDay); err != nil {
		return err
	}
	d.file = c.File
	forget(b.path)
	return nil
}

// drop takes the copy away that was made now, and reports whether there was one.
func (d *dayCopy) drop() bool {
	if d.file == "" {
		return false
	}
	d.full = fullDisk(d.book.path, os.Remove(d.file))
	d.file = ""
	return true
}

// dropHalves clears away what copies left that were cut short.
func dropHalves(folder string) {
	halves, err := filepath.Glob(filepath.Join(folder, copyingDay))
	if err != nil {
		return
	}
	for _, h := range halves {
		_ = os.RemoveAll(h)
	}
}
