package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"fettle/internal/journal"
)

// Append keeps all entries or none, in one transaction.
func (s *Store) Append(ctx context.Context, build string, expect int64, entries []journal.Entry) ([]journal.Entry, error) {
	batch, err := journal.Prepare(build, entries)
	if err != nil || len(batch) == 0 {
		return nil, err
	}
	var out journal.Settled
	err = s.tx(ctx, "append to the journal", func(ctx context.Context, tx *sql.Tx) (err error) {
		out, err = journal.Settle(ledger{ctx, tx, build}, build, expect, batch, s.now())
		if err != nil || len(out.Fresh) == 0 {
			return err
		}
		return insert(ctx, tx, out.Fresh)
	})
	if err != nil {
		return nil, err
	}
	return out.Answer, nil
}

func insert(ctx context.Context, tx *sql.Tx, fresh []journal.Sealed) error {
	stmt, err := tx.PrepareContext(ctx, `INSERT INTO entry
		(build, seq, id, at, kept, person, device, kind, version, change, note, undoes, hash)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`)
	if err != nil {
		return err
	}
	defer stmt.Close()
	for _, e := range fresh {
		_, err := stmt.ExecContext(ctx, e.Build, e.Seq, e.ID, e.At.UnixMilli(), e.Kept.UnixMilli(), e.Person,
			e.Device, e.Kind, e.Version, string(e.Change), e.Note, e.Undoes, e.Digest[:])
		if err != nil {
			return err
		}
	}
	return nil
}

// ledger shows one build to journal.Settle inside a transaction.
type ledger struct {
	ctx   context.Context
	tx    *sql.Tx
	build string
}

func (l ledger) Last() (int64, error) { return lastSeq(l.ctx, l.tx, l.build) }

func (l ledger) ByID(id string) (journal.Sealed, bool, error) {
	e, err := scanSealed(l.tx.QueryRowContext(l.ctx, "SELECT "+columns+" FROM entry WHERE id = $1", id).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return e, false, nil
	}
	return e, err == nil, err
}

func (l ledger) Since(seq int64) ([]journal.Step, error) {
	rows, err := l.tx.QueryContext(l.ctx,
		"SELECT seq, id, at, person, kind FROM entry WHERE build = $1 AND seq > $2 ORDER BY seq", l.build, seq)
	return collect(rows, err, func(scan scanner) (s journal.Step, err error) {
		var at int64
		err = scan(&s.Seq, &s.ID, &at, &s.Person, &s.Kind)
		s.At = fromMilli(at)
		return s, err
	})
}
