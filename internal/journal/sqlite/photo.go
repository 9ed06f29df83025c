package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"fettle/internal/journal"
)

// SavePhoto keeps a photo's record; one that is there stays.
func (s *Store) SavePhoto(ctx context.Context, p journal.Photo) error {
	if err := p.Validate(); err != nil {
		return err
	}
	p = p.KeptAt(s.now())
	return s.tx(ctx, "keep a photo's record", func(ctx context.Context, tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO photo (hash, size, media, kept, person) VALUES ($1, $2, $3, $4, $5)
			ON CONFLICT (hash) DO NOTHING`, p.Hash, p.Size, p.Media, p.Kept.UnixMilli(), p.Person)
		return err
	})
}

// Photo returns a photo's record.
func (s *Store) Photo(ctx context.Context, hash string) (journal.Photo, error) {
	row := s.read.QueryRowContext(ctx, "SELECT hash, size, media, kept, person FROM photo WHERE hash = $1", hash)
	p, err := scanPhoto(row.Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return journal.Photo{}, journal.NoPhoto(hash)
	}
	return p, s.fault(err, "read a photo's record")
}

// Photos lists all records by hash.
func (s *Store) Photos(ctx context.Context) ([]journal.Photo, error) {
	rows, err := s.read.QueryContext(ctx, "SELECT hash, size, media, kept, person FROM photo ORDER BY hash")
	list, err := collect(rows, err, scanPhoto)
	return list, s.fault(err, "list the photos")
}

func scanPhoto(scan scanner) (p journal.Photo, err error) {
	var kept int64
	err = scan(&p.Hash, &p.Size, &p.Media, &kept, &p.Person)
	p.Kept = fromMilli(kept)
	return p, err
}
