package book

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"strconv"
)

// link is one line of history as it is in the file, with its checksum.
type link struct {
	id                           int64
	at, who, what, before, after string
	undoes                       int64 // 0 = none
	sum                          string
}

const linkColumns = "SELECT id, at, who, what, before, after, coalesce(undoes, 0), sum FROM history "

// sumAfter is the checksum of a line behind one with the checksum prev: SHA-256 in hexadecimal over prev and all that
// the line says, each part behind its length in bytes and a colon. Books out there hold it, so it is never changed.
func (l link) sumAfter(prev string) string {
	h := sha256.New()
	for _, part := range []string{
		prev, strconv.FormatInt(l.id, 10), l.at, l.who, l.what, l.before, l.after, strconv.FormatInt(l.undoes, 10),
	} {
		fmt.Fprintf(h, "%d:%s", len(part), part)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// links goes through the history, the oldest line first.
func links(ctx context.Context, tx *sql.Tx, each func(link) error) error {
	rows, err := tx.QueryContext(ctx, linkColumns+"ORDER BY id")
	if err != nil {
		return err
	}
	defer rows.Close() //nolint:errcheck // rows.Err tells it
	for rows.Next() {
		var l link
		if err := rows.Scan(&l.id, &l.at, &l.who, &l.what, &l.before, &l.after, &l.undoes, &l.sum); err != nil {
			return err
		}
		if err := each(l); err != nil {
			return err
		}
	}
	return rows.Err()
}

// lastSum is the checksum of the newest line, "" where there is none.
func lastSum(ctx context.Context, tx *sql.Tx) (sum string, err error) {
	err = tx.QueryRowContext(ctx, "SELECT sum FROM history ORDER BY id DESC LIMIT 1").Scan(&sum)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return sum, err
}

// sealAll gives every line of a history without checksums its own.
func sealAll(ctx context.Context, tx *sql.Tx) error {
	prev := ""
	var sums []link
	if err := links(ctx, tx, func(l link) error {
		prev = l.sumAfter(prev)
		sums = append(sums, link{id: l.id, sum: prev})
		return nil
	}); err != nil {
		return err
	}
	for _, l := range sums {
		if _, err := tx.ExecContext(ctx, "UPDATE history SET sum = ? WHERE id = ?", l.sum, l.id); err != nil {
			return err
		}
	}
	return nil
}

// historyWrongs holds the history against its checksums and the rows of the book against the history: carried out from
// the first line on, it must come to what the tables hold.
func historyWrongs(ctx context.Context, tx *sql.Tx, c content) (wrong []string, err error) {
	r := newReplay()
	prev, last := "", int64(0)
	if err := links(ctx, tx, func(l link) error {
		if l.id != last+1 {
			wrong = append(wrong, fmt.Sprintf("the history has no line between change %d and change %d", last, l.id))
		}
		if l.sum != l.sumAfter(prev) {
			wrong = append(wrong, fmt.Sprintf("change %d of the history is not as it was written", l.id))
		}
		prev, last = l.sum, l.id
		wrong = append(wrong, r.carry(l)...)
		return nil
	}); err != nil {
		return nil, err
	}
	var given int64
	err = tx.QueryRowContext(ctx, "SELECT seq FROM sqlite_sequence WHERE name = 'history'").Scan(&given)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		given = 0
	case err != nil:
		return nil, err
	}
	if given != last {
		wrong = append(wrong, fmt.Sprintf("the history ends with change %d, the last that was written is %d", last, given))
	}
	return append(wrong, r.against(c)...), nil
}
