package book

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Begin begins a book at the path, where there is none, with what first does to it. The file is there when all of that
// is done, whole, and is not there when any of it fails; so are the folders that were made for it. A book that somebody
// else began meanwhile is left as it is, and the error is then fs.ErrExist.
func Begin(ctx context.Context, path string, opt Options, first func(*Book) error) error {
	place, err := target(path)
	if err != nil {
		return cannotOpen(path, err)
	}
	if pending(place) {
		return &Error{
			Trouble: TroublePlace, What: fmt.Sprintf("there is no book at %q, but %q is left of one; nothing was written", path, place+"-wal"),
			Try: "to put the book back, or move that file away, then the same again",
		}
	}
	made, err := makeFolders(filepath.Dir(place))
	if err == nil {
		err = begin(ctx, path, place, opt.complete(), first)
	}
	if err != nil {
		for _, dir := range made {
			_ = os.Remove(dir) // one that somebody else put something into stays
		}
	}
	return err
}

// begin makes the book in a folder of its own beside its place, and moves it there.
func begin(ctx context.Context, path, place string, opt Options, first func(*Book) error) error {
	temp, err := os.MkdirTemp(filepath.Dir(place), ".tuckup-*")
	if err != nil {
		return cannotWrite(path, err)
	}
	defer os.RemoveAll(temp) //nolint:errcheck // an empty folder stays at worst
	b := &Book{path: path, file: filepath.Join(temp, "book.db"), opt: opt}
	f, err := os.OpenFile(b.file, os.O_CREATE|os.O_RDWR, fileMode)
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		return cannotWrite(path, err)
	}
	if err := b.use(ctx); err != nil {
		return err
	}
	err = first(b)
	if e := b.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	if pending(b.file) { // closing moves all changes into the file, unless there is no room to
		return fullDisk(path, nil)
	}
	if err := syncFile(b.file); err != nil {
		return cannotWrite(path, err)
	}
	err = putInPlace(b.file, place)
	if errors.Is(err, fs.ErrExist) {
		return &Error{
			Trouble: TroubleBusy, What: fmt.Sprintf("another tuckup has begun the book %q; nothing was changed", path),
			Try: "the same again", cause: err,
		}
	}
	if err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

// target is where a path leads to that may be a link to a file that is not there yet.
func target(path string) (string, error) {
	const most = 16
	for range most {
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil //nolint:nilerr // it is no link
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("too many links")
}

// makeFolders makes a folder and those above it; it returns those that it made, the innermost first.
func makeFolders(dir string) (made []string, err error) {
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); err == nil || d == filepath.Dir(d) {
			break
		}
		made = append(made, d)
	}
	if err := os.MkdirAll(dir, folderMode); err != nil {
		for _, d := range made {
			_ = os.Remove(d)
		}
		return nil, cannotWrite(dir, err)
	}
	return made, nil
}

// folderMode lets only the owner into the folders of books: notes are private.
const folderMode = 0o700
