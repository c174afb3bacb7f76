package book

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"

	"tuckup/kennel"
)

// PlanInUse is the plan that every sheet, page and phone shows until the next one is taken; zero when none ever was.
type PlanInUse struct {
	On     kennel.Date // the day that was planned from
	Change int64       // the change that the book was at when it was planned
	Result []byte      // the plan's record; nil where only its sessions are known, because the book did not keep plans yet
}

// Plan is a plan that can be taken: its sessions of the coming days, and itself as a record.
type Plan interface {
	SessionsAhead() []kennel.Session
	Pack() ([]byte, error)
}

// Take makes a plan the one in use: its sessions take the place of those from the day on that were agreed and are neither done nor
// pinned. version is the change that the book was at when it was planned.
func (s *State) Take(p Plan, on kennel.Date, version int64) error {
	record, err := p.Pack()
	if err != nil {
		return err
	}
	s.agree(p.SessionsAhead(), on)
	s.Plan = PlanInUse{On: on, Change: version, Result: record}
	return nil
}

// Unplanned is the state as if the plan in use had not been taken: without it, and without its sessions from the day on that are neither done nor
// pinned.
func (s State) Unplanned(on kennel.Date) State {
	s.agree(nil, on)
	s.Plan = PlanInUse{}
	return s
}

// recordName is the name of a record: its SHA-256 in hexadecimal; "" for none.
func recordName(record []byte) string {
	if record == nil {
		return ""
	}
	sum := sha256.Sum256(record)
	return hex.EncodeToString(sum[:])
}

// named is a record that its row names. What it names is read where it lies, by recordOf.
type named struct{ record *[]byte }

func (named) kind() kind        { return words }
func (n named) value() any      { return told(recordName(*n.record)) }
func (named) set(*decoder, any) {}

// mostRecords is how many plans that were taken are kept, for undo. One that was taken earlier than these can come back as the sessions
// that were agreed on, not as a plan.
const mostRecords = 40

// recordOf is the record that the content names; nil where it names none, or it is not kept any more.
func recordOf(ctx context.Context, tx *sql.Tx, c content) (record []byte, err error) {
	for _, r := range c[tPlan] {
		name := r[tables[tPlan].column("record")]
		if name == nil {
			continue
		}
		err = tx.QueryRowContext(ctx, "SELECT plan FROM plan_records WHERE record = ?", name).Scan(&record)
		if errors.Is(err, sql.ErrNoRows) {
			return nil, nil
		}
	}
	return record, err
}

// keepRecord keeps a plan's record, and lets go of those that were taken longest ago.
func keepRecord(ctx context.Context, tx *sql.Tx, record []byte) error {
	if record == nil {
		return nil
	}
	if _, err := tx.ExecContext(ctx, "INSERT INTO plan_records (record, plan) VALUES (?, ?) ON CONFLICT (record) DO NOTHING", recordName(record), record); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, "DELETE FROM plan_records WHERE id <= (SELECT max(id) FROM plan_records) - ? AND record <> ?", mostRecords, recordName(record))
	return err
}

// recordWrongs says which kept records are not what their names say.
func recordWrongs(ctx context.Context, tx *sql.Tx) (wrong []string, err error) {
	rows, err := tx.QueryContext(ctx, "SELECT id, record, plan FROM plan_records ORDER BY id")
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // rows.Err tells it
	for rows.Next() {
		var (
			id     int64
			name   string
			record []byte
		)
		if err := rows.Scan(&id, &name, &record); err != nil {
			return nil, err
		}
		if recordName(record) != name {
			wrong = append(wrong, fmt.Sprintf("the record of plan %d is not as it was written", id))
		}
	}
	return wrong, rows.Err()
}
