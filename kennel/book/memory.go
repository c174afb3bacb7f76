package book

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"os"
	"path/filepath"

	"modernc.org/sqlite"
)

// intoMemory reads the whole book into memory and brings it up to the form of today there, so that a book that can't be
// written can be read. why is what a change of it is refused with.
func (b *Book) intoMemory(ctx context.Context, why *Error) error {
	data, err := b.bytes(ctx)
	if err != nil {
		return err
	}
	b.db = sql.OpenDB(image(data))
	b.db.SetMaxOpenConns(1)
	form, err := b.form(ctx)
	if err == nil && form < len(migrations()) {
		if err = b.steps(ctx, form, len(migrations())); err == nil {
			data, err = serialized(ctx, b.db)
		}
	}
	if e := b.db.Close(); err == nil {
		err = e
	}
	if err != nil {
		return b.plain(err)
	}
	b.db = sql.OpenDB(image(data))
	b.db.SetMaxOpenConns(connections)
	b.only = why
	return nil
}

// Bytes are the book as it is at one moment, as the file of a book of its own.
func (b *Book) Bytes(ctx context.Context) ([]byte, error) {
	data, err := serialized(ctx, b.db)
	return data, b.plain(err)
}

// bytes are the book as it is, with the changes beside its file.
func (b *Book) bytes(ctx context.Context) (data []byte, err error) {
	if mayWrite(b.file) == nil {
		// Without shared memory, which a full disk has no room for, a book can be read while nobody else uses it.
		for _, way := range [][]string{{"query_only(1)"}, {"locking_mode(EXCLUSIVE)", "query_only(1)"}} {
			if data, err = b.bytesBy(ctx, address(b.file, b.opt.Wait, way...)); err == nil {
				return data, nil
			}
			var trouble *Error
			if !errors.As(err, &trouble) || trouble.Trouble != TroubleFull && trouble.Trouble != TroubleReadOnly {
				return nil, err
			}
		}
	}
	if !pending(b.file) {
		return os.ReadFile(b.file)
	}
	if _, err := os.Stat(b.file + "-shm"); err == nil {
		if data, err = b.bytesBy(ctx, address(b.file, b.opt.Wait)+"&mode=ro"); err == nil {
			return data, nil
		}
	}
	dir, copied, err := b.elsewhere()
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // it lies in the folder for what may go
	return b.bytesBy(ctx, address(copied, b.opt.Wait))
}

// bytesBy are the bytes of the book that a data source names.
func (b *Book) bytesBy(ctx context.Context, source string) ([]byte, error) {
	db, err := sql.Open("sqlite", source)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	data, err := serialized(ctx, db)
	if e := db.Close(); err == nil {
		err = e
	}
	return data, b.plain(err)
}

// elsewhere copies the file and the changes beside it into a folder of their own.
func (b *Book) elsewhere() (dir, copied string, err error) {
	if dir, err = os.MkdirTemp("", "tuckup-*"); err != nil {
		return "", "", err
	}
	copied = filepath.Join(dir, "book.db")
	for _, end := range []string{"", "-wal"} {
		data, err := os.ReadFile(b.file + end)
		if err == nil {
			err = os.WriteFile(copied+end, data, fileMode)
		}
		if err != nil {
			return "", "", errors.Join(cannotOpen(b.path, err), os.RemoveAll(dir))
		}
	}
	return dir, copied, nil
}

// serialized are the bytes of a data source's database.
func serialized(ctx context.Context, db *sql.DB) (data []byte, err error) {
	c, err := db.Conn(ctx)
	if err != nil {
		return nil, err
	}
	defer c.Close() //nolint:errcheck // it goes back to its pool
	var form int
	if err := c.QueryRowContext(ctx, "PRAGMA user_version").Scan(&form); err != nil { // says what is wrong better
		return nil, err
	}
	err = c.Raw(func(conn any) error {
		data, err = conn.(interface{ Serialize() ([]byte, error) }).Serialize()
		return err
	})
	return data, err
}

// image is a database in memory: each connection gets a copy of its own, so that no two of them share a change.
type image []byte

// Connect makes one connection.
func (i image) Connect(context.Context) (driver.Conn, error) {
	c, err := i.Driver().Open(":memory:?_txlock=immediate&_pragma=foreign_keys(1)&_pragma=trusted_schema(0)")
	if err != nil {
		return nil, err
	}
	const writeVersion, readVersion, rollback = 18, 19, 1 // in the file's header: a database in memory has no WAL
	data := append([]byte(nil), i...)
	if len(data) > readVersion {
		data[writeVersion], data[readVersion] = rollback, rollback
	}
	if err := c.(interface{ Deserialize([]byte) error }).Deserialize(data); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	return c, nil
}

// Driver is the one that makes the connections.
func (image) Driver() driver.Driver { return &sqlite.Driver{} }
