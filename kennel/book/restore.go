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

// Restore goes back to what a copy holds: one change like any other, that can be taken back. A book that is not sound
// is not changed: the error is then an *Error of TroubleDamaged, and PutBack is the way.
func (b *Book) Restore(ctx context.Context, expect int64, c Copy) (Done, error) {
	return b.restore(ctx, expect, Once{}, c, true)
}

// RestoreOnce is Restore when it may be asked for again, like CarryOnce.
func (b *Book) RestoreOnce(ctx context.Context, expect int64, once Once, c Copy) (Done, error) {
	return b.restore(ctx, expect, once, c, true)
}

// TryRestore says what Restore would change, and writes nothing.
func (b *Book) TryRestore(ctx context.Context, c Copy) (Done, error) {
	return b.restore(ctx, AnyVersion, Once{}, c, false)
}

func (b *Book) restore(ctx context.Context, expect int64, once Once, c Copy, keep bool) (Done, error) {
	in, err := c.Look(ctx, b.opt)
	if err != nil {
		return Done{}, err
	}
	wrong, err := b.Check(ctx)
	if err != nil {
		return Done{}, err
	}
	if len(wrong) > 0 {
		return Done{}, &Error{
			Trouble: TroubleDamaged, What: fmt.Sprintf("the book %q is not sound, so that the copy must take its place: %s", b.path, wrong[0]),
			Try: "tuckup book restore " + c.Name + " --book " + word(b.path) + ", once tuckup serve is ended",
		}
	}
	if keep { // pictures of a copy from elsewhere lie beside it; those that are missing there stay missing
		if _, err := CopyPhotos(in.State, c.File, b.path); err != nil {
			return Done{}, err
		}
	}
	return b.change(ctx, change{expect: expect, once: once, keep: keep, edit: func(s *State) (string, error) {
		*s = in.State
		return "went back to the copy of " + c.Name, nil
	}})
}

// PutBack puts a copy in the place of a book that is lost or damaged, so that it can't be changed. What is at the path
// is moved into the folder of the copies first; aside is where, "" where nothing was. Where others use the book nothing
// is done.
func PutBack(ctx context.Context, path string, opt Options, c Copy) (in Inside, aside string, err error) {
	opt = opt.complete()
	if in, err = c.Look(ctx, opt); err != nil {
		return in, "", err
	}
	place, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		place, err = target(path)
	}
	if err != nil {
		return in, "", cannotOpen(path, err)
	}
	if err := unused(ctx, path, place); err != nil {
		return in, "", err
	}
	temp, err := os.MkdirTemp(filepath.Dir(place), copying)
	if err != nil {
		return in, "", cannotWrite(path, err)
	}
	defer os.RemoveAll(temp) //nolint:errcheck // an empty folder stays at worst
	copied := filepath.Join(temp, "copy")
	data, err := os.ReadFile(c.File)
	if err == nil {
		err = os.WriteFile(copied, data, fileMode)
	}
	if err == nil {
		err = syncFile(copied)
	}
	if err != nil {
		return in, "", cannotWrite(path, err)
	}
	stem := filepath.Join(copyFolder(path), fmt.Sprintf("%s-damaged-%s", filepath.Base(path), opt.Now().UTC().Format(timeInName)))
	if aside, err = moveAside(place, stem); err != nil {
		return in, "", cannotWrite(stem+".db", err)
	}
	if err := putInPlace(copied, place); err != nil {
		return in, aside, cannotWrite(path, err)
	}
	_, err = CopyPhotos(in.State, c.File, path)
	return in, aside, err
}

// moveAside moves a file and the changes beside it to a free name that begins with the stem, and returns that; "" where
// there is no file.
func moveAside(file, stem string) (string, error) {
	to := stem + ".db"
	for n := 2; ; n++ {
		if _, err := os.Lstat(to); err != nil {
			break
		}
		to = fmt.Sprintf("%s-%d.db", stem, n)
	}
	moved := ""
	for _, end := range []string{"-wal", "-shm", ""} {
		err := os.Rename(file+end, to+end)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return "", err
		case end == "":
			moved = to
		}
	}
	return moved, nil
}

// unused makes sure that nobody has the book open: a file that somebody has open would go on being changed after it was
// moved. A file that can't be asked is used by nobody.
func unused(ctx context.Context, path, place string) error {
	if info, err := os.Stat(place); err != nil || info.Size() == 0 {
		return nil //nolint:nilerr // nothing is there to be used
	}
	const wait = 300 * time.Millisecond // what is open stays open, a command ends
	db, err := sql.Open("sqlite", address(place, wait, "locking_mode(EXCLUSIVE)"))
	if err != nil {
		return nil //nolint:nilerr // as said
	}
	db.SetMaxOpenConns(1)
	defer db.Close() //nolint:errcheck // nothing was written
	_, err = db.ExecContext(ctx, "BEGIN EXCLUSIVE; ROLLBACK")
	if err = plainError(path, err); errors.Is(err, &Error{Trouble: TroubleBusy}) {
		return &Error{
			Trouble: TroubleBusy, What: fmt.Sprintf("the book %q is in use; nothing was changed", path),
			Try: "the same again once tuckup serve, and whatever else uses it, is ended", cause: err,
		}
	}
	return nil
}
