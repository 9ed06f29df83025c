package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"math"

	"fettle/internal/journal"
)

// keptSnapshots is how many snapshots of a build are kept: the newest state
// and those of some replay days, not a second journal.
const keptSnapshots = 16

// SaveSnapshot keeps a snapshot and drops the build's oldest beyond 16.
func (s *Store) SaveSnapshot(ctx context.Context, n journal.Snapshot) error {
	if err := n.Validate(); err != nil {
		return err
	}
	return s.tx(ctx, "keep a snapshot", func(ctx context.Context, tx *sql.Tx) error {
		last, err := lastSeq(ctx, tx, n.Build)
		if err != nil {
			return err
		}
		if last == 0 {
			return journal.NoBuild(n.Build)
		}
		if err := journal.WithinBuild(n, last); err != nil {
			return err
		}
		return saveSnapshot(ctx, tx, n)
	})
}

func saveSnapshot(ctx context.Context, tx *sql.Tx, n journal.Snapshot) error {
	if n.State == nil {
		n.State = []byte{}
	}
	_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO snapshot (build, form, seq, state) VALUES ($1, $2, $3, $4)",
		n.Build, n.Form, n.Seq, n.State)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `DELETE FROM snapshot WHERE build = $1 AND saved NOT IN
		(SELECT saved FROM snapshot WHERE build = $1 ORDER BY saved DESC LIMIT $2)`, n.Build, keptSnapshots)
	return err
}

// Snapshot returns the newest snapshot of a form with Seq <= upTo; 0 is any.
func (s *Store) Snapshot(ctx context.Context, build, form string, upTo int64) (journal.Snapshot, bool, error) {
	if upTo == 0 {
		upTo = math.MaxInt64
	}
	n := journal.Snapshot{Build: build, Form: form}
	err := s.read.QueryRowContext(ctx,
		"SELECT seq, state FROM snapshot WHERE build = $1 AND form = $2 AND seq <= $3 ORDER BY seq DESC LIMIT 1",
		build, form, upTo).Scan(&n.Seq, &n.State)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return journal.Snapshot{}, false, s.known(ctx, build)
	case err != nil:
		return journal.Snapshot{}, false, s.fault(err, "read a snapshot")
	}
	return n, true, nil
}
