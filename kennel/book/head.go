package book

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
)

// look reads whose file it is and how new, and changes nothing.
func (b *Book) look(ctx context.Context) (head, error) {
	h, err := readHead(b.file)
	if err != nil {
		return h, err
	}
	if pending(b.file) {
		if h, err = b.askHead(ctx); err != nil {
			return h, err
		}
	}
	switch {
	case h.mark != ours && (h.mark != 0 || h.form != 0 || !h.bare):
		return h, notABook(b.path, nil)
	case h.mark != ours:
		return h, emptyFile(b.path)
	case h.form > len(migrations()):
		return h, &Error{
			Trouble: TroubleNewer,
			What:    fmt.Sprintf("the book %q is of form %d, this program knows forms up to %d; nothing was changed", b.path, h.form, len(migrations())),
			Try:     "the newest tuckup",
		}
	}
	return h, nil
}

// pending reports whether there are changes beside the file that are not in it yet.
func pending(file string) bool {
	info, err := os.Stat(file + "-wal")
	return err == nil && info.Size() > 0
}

// head is what a file says of itself: whose it is, its form, and whether it has no table yet, as a book whose first
// step was cut short.
type head struct {
	mark, form int
	bare       bool
}

// readHead reads the head from the file's first bytes (the database header of the SQLite file format), because opening
// a book leaves traces beside it.
func readHead(path string) (h head, err error) {
	f, err := os.Open(path)
	if err != nil {
		return h, cannotOpen(path, err)
	}
	defer f.Close()
	const formAt, markAt, kindAt, cellsAt, end, leaf = 60, 68, 100, 103, 105, 0x0d
	b := make([]byte, end)
	if _, err := io.ReadFull(f, b); err != nil || !bytes.HasPrefix(b, []byte("SQLite format 3\x00")) {
		return h, notABook(path, err)
	}
	return head{
		mark: int(binary.BigEndian.Uint32(b[markAt:])), form: int(binary.BigEndian.Uint32(b[formAt:])),
		bare: b[kindAt] == leaf && binary.BigEndian.Uint16(b[cellsAt:]) == 0,
	}, nil
}

// askHead has the head read together with the changes beside the file. Where nobody uses the book that is
// done on a copy, because SQLite would leave a file beside it.
func (b *Book) askHead(ctx context.Context) (h head, err error) {
	if _, err := os.Stat(b.file + "-shm"); err == nil {
		h, err = b.askHeadOf(ctx, b.file)
		var trouble *Error
		if !errors.As(err, &trouble) || trouble.Trouble != TroubleFull { // a full disk may have no room for all of the shared memory
			return h, err
		}
	}
	dir, copied, err := b.elsewhere()
	if err != nil {
		return h, err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // it lies in the folder for what may go
	return b.askHeadOf(ctx, copied)
}

// askHeadOf asks a file with changes beside it, without a trace.
func (b *Book) askHeadOf(ctx context.Context, file string) (h head, err error) {
	db, err := sql.Open("sqlite", uri(file)+"?mode=ro&_pragma=busy_timeout(1000)")
	if err != nil {
		return h, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	var tables int
	for _, ask := range []struct {
		query string
		into  *int
	}{{"PRAGMA application_id", &h.mark}, {"PRAGMA user_version", &h.form}, {"SELECT count(*) FROM sqlite_schema", &tables}} {
		if err := db.QueryRowContext(ctx, ask.query).Scan(ask.into); err != nil {
			return h, b.plain(err)
		}
	}
	h.bare = tables == 0
	return h, nil
}
