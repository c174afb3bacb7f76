package book

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

// Once makes a change one that is carried out the first time it is asked for and never again, like a form whose answer
// was lost on its way. The key is kept in the same transaction as the change.
type Once struct {
	Key    string            // tells what is asked for from all else; "" = nothing is kept, and it is carried out each time
	Answer func(Done) string // the answer to whoever asks, now and each time the key comes again; nil = ""
}

// How many keys are kept, and how long. A form is sent again within days; a key takes about 150 bytes.
const (
	mostKeys = 1000
	keysLast = 60 * 24 * time.Hour
)

// Answered is the answer that was given when the key was used; false when it was not, or too long ago.
func (b *Book) Answered(ctx context.Context, key string) (answer string, ok bool, err error) {
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		answer, ok, err = answered(ctx, tx, key)
		return err
	})
	return answer, ok, err
}

func answered(ctx context.Context, tx *sql.Tx, key string) (answer string, ok bool, err error) {
	if key == "" {
		return "", false, nil
	}
	err = tx.QueryRowContext(ctx, "SELECT answer FROM used_keys WHERE key = ?", key).Scan(&answer)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	return answer, err == nil, err
}

// again is what was done when the key was used; false when it was not.
func (o Once) again(ctx context.Context, tx *sql.Tx) (done Done, ok bool, err error) {
	if done.Answer, ok, err = answered(ctx, tx, o.Key); err != nil || !ok {
		return done, false, err
	}
	done.Again = true
	done.Version, err = lastChange(ctx, tx)
	return done, true, err
}

// answer says what was done, keeps the key with the answer, and lets old keys go.
func (b *Book) answer(ctx context.Context, tx *sql.Tx, o Once, done *Done) error {
	if o.Answer != nil {
		done.Answer = o.Answer(*done)
	}
	if o.Key == "" {
		return nil
	}
	now := b.opt.Now().UTC()
	if _, err := tx.ExecContext(ctx, "INSERT INTO used_keys (key, at, change, answer) VALUES (?, ?, ?, ?)",
		o.Key, now.Format(time.RFC3339), done.Version, done.Answer); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, "DELETE FROM used_keys WHERE at < ? OR id <= (SELECT max(id) FROM used_keys) - ?",
		now.Add(-keysLast).Format(time.RFC3339), mostKeys)
	return err
}
