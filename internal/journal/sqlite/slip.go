package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"fettle/internal/journal"
)

// SaveSlip keeps a person's slip; an empty one clears it.
func (s *Store) SaveSlip(ctx context.Context, build, person string, slip []byte) error {
	if err := journal.ValidateSlip(build, person, slip); err != nil {
		return err
	}
	return s.tx(ctx, "keep the slip", func(ctx context.Context, tx *sql.Tx) error {
		last, err := lastSeq(ctx, tx, build)
		if err != nil {
			return err
		}
		if last == 0 {
			return journal.NoBuild(build)
		}
		if len(slip) == 0 {
			_, err = tx.ExecContext(ctx, "DELETE FROM slip WHERE build = $1 AND person = $2", build, person)
			return err
		}
		_, err = tx.ExecContext(ctx, `INSERT INTO slip (build, person, slip) VALUES ($1, $2, $3)
			ON CONFLICT (build, person) DO UPDATE SET slip = excluded.slip`, build, person, slip)
		return err
	})
}

// Slip returns a person's slip, or nothing.
func (s *Store) Slip(ctx context.Context, build, person string) (slip []byte, err error) {
	err = s.read.QueryRowContext(ctx, "SELECT slip FROM slip WHERE build = $1 AND person = $2", build, person).Scan(&slip)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, s.known(ctx, build)
	}
	return slip, s.fault(err, "read the slip")
}
