package book

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"sync"
)

// ours marks the file as a book (SQLite's application id): "tuck".
const ours = 0x7475636b

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migrations are the steps from an empty file to the form of today, in their order. The form of a book is the number
// of steps that it went.
var migrations = sync.OnceValue(func() (all []string) {
	for n := 1; ; n++ {
		data, err := migrationFiles.ReadFile(fmt.Sprintf("migrations/%04d.sql", n))
		if err != nil {
			return all
		}
		all = append(all, string(data))
	}
})

// afterStep is what the step to a form does besides its SQL.
var afterStep = map[int]func(context.Context, *sql.Tx) error{4: sealAll}

// migrate takes the steps that the book has not gone yet, up to form last, each whole or not at all.
func (b *Book) migrate(ctx context.Context, last int) error {
	version, err := b.form(ctx)
	if err != nil || version >= last {
		return err
	}
	if version > 0 {
		if err := b.keepForm(ctx, version); err != nil {
			return err
		}
	}
	return b.steps(ctx, version, last)
}

// steps takes the steps from one form to another.
func (b *Book) steps(ctx context.Context, version, last int) (err error) {
	for version < last {
		if version, err = b.step(ctx, last); err != nil {
			return err
		}
	}
	return nil
}

func (b *Book) form(ctx context.Context) (version int, err error) {
	err = b.db.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version)
	return version, err
}

// step goes one step on the way to form last and returns the form that the book is of then. Somebody else may have gone it meanwhile.
func (b *Book) step(ctx context.Context, last int) (version int, err error) {
	err = b.inside(ctx, false, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
			return err
		}
		if version >= last {
			return nil
		}
		if _, err := tx.ExecContext(ctx, migrations()[version]); err != nil {
			return err
		}
		version++
		if then := afterStep[version]; then != nil {
			if err := then(ctx, tx); err != nil {
				return err
			}
		}
		_, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", ours, version))
		return err
	})
	return version, err
}

// inside does something in one transaction. A transaction that only reads sees one moment of the book.
func (b *Book) inside(ctx context.Context, reads bool, do func(*sql.Tx) error) error {
	if !reads && b.only != nil {
		return b.only
	}
	tx, err := b.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: reads})
	if err != nil {
		return b.plain(err)
	}
	if !reads {
		b.at(stageLocked)
	}
	if err := do(tx); err != nil {
		_ = tx.Rollback() // what went wrong is told already
		return b.plain(err)
	}
	if !reads {
		b.at(stageCommit)
	}
	return b.plain(tx.Commit())
}

// The stages of a change, for tests that stop in the midst of one.
const (
	stageLocked = "locked" // nobody else can write
	stageCopied = "copied" // the day's copy is made, under another name
	stageRows   = "rows"   // some rows are written
	stageCommit = "commit" // all is written, nothing is acknowledged
)

func (b *Book) at(stage string) {
	if b.opt.stage != nil {
		b.opt.stage(stage)
	}
}
