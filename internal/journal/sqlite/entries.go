package sqlite

import (
	"context"
	"database/sql"
	"math"
	"time"

	"fettle/internal/journal"
)

// columns are those of an entry in the order scanSealed reads them.
const columns = "build, seq, id, at, kept, person, device, kind, version, change, note, undoes, hash"

// Entries returns the entries with after < Seq <= upTo in order; upTo 0 is all.
func (s *Store) Entries(ctx context.Context, build string, after, upTo int64) ([]journal.Entry, error) {
	if upTo == 0 {
		upTo = math.MaxInt64
	}
	rows, err := s.read.QueryContext(ctx,
		"SELECT "+columns+" FROM entry WHERE build = $1 AND seq > $2 AND seq <= $3 ORDER BY seq", build, after, upTo)
	list, err := collect(rows, err, func(scan scanner) (journal.Entry, error) {
		e, err := scanSealed(scan)
		return e.Entry, err
	})
	if err != nil {
		return nil, s.fault(err, "read the journal")
	}
	if len(list) == 0 {
		return nil, s.known(ctx, build)
	}
	return list, nil
}

// Builds lists all builds by ID. It steps from build to build through the
// index, so its cost grows with the builds and not with their entries.
func (s *Store) Builds(ctx context.Context) ([]journal.Build, error) {
	rows, err := s.read.QueryContext(ctx, `WITH RECURSIVE name(build) AS (
			SELECT MIN(build) FROM entry
			UNION ALL
			SELECT (SELECT MIN(build) FROM entry WHERE build > name.build) FROM name WHERE name.build IS NOT NULL)
		SELECT e.build, e.seq, e.kept FROM name JOIN entry e
		ON e.build = name.build AND e.seq = (SELECT MAX(seq) FROM entry WHERE build = name.build)
		ORDER BY e.build`)
	list, err := collect(rows, err, func(scan scanner) (b journal.Build, err error) {
		var kept int64
		err = scan(&b.ID, &b.Seq, &kept)
		b.Last = fromMilli(kept)
		return b, err
	})
	return list, s.fault(err, "list the builds")
}

// known returns NotFound for a build without entries.
func (s *Store) known(ctx context.Context, build string) error {
	last, err := lastSeq(ctx, s.read, build)
	if err != nil {
		return s.fault(err, "read the journal")
	}
	if last == 0 {
		return journal.NoBuild(build)
	}
	return nil
}

// querier is a pool or a transaction.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func lastSeq(ctx context.Context, q querier, build string) (seq int64, err error) {
	err = q.QueryRowContext(ctx, "SELECT COALESCE(MAX(seq), 0) FROM entry WHERE build = $1", build).Scan(&seq)
	return seq, err
}

// scanner fills the columns of the present row.
type scanner func(into ...any) error

func scanSealed(scan scanner) (e journal.Sealed, err error) {
	var at, kept int64
	var hash []byte
	var change string
	err = scan(&e.Build, &e.Seq, &e.ID, &at, &kept, &e.Person, &e.Device, &e.Kind, &e.Version, &change, &e.Note, &e.Undoes, &hash)
	e.At, e.Kept = fromMilli(at), fromMilli(kept)
	e.Change = []byte(change)
	copy(e.Digest[:], hash)
	return e, err
}

func fromMilli(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// collect reads all rows and closes them.
func collect[T any](rows *sql.Rows, err error, read func(scanner) (T, error)) ([]T, error) {
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []T
	for rows.Next() {
		v, err := read(rows.Scan)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, rows.Err()
}
