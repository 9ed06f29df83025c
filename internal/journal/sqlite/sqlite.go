// Package sqlite is the journal store of a single machine: one SQLite file in
// write-ahead mode. One connection writes, four read; a commit is synchronised
// with the disk before it is answered, so that an answered entry survives a
// power cut. All tables of the machine live in this file and its one ordered
// set of migrations; other stores share it through Write and Read.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"fettle/internal/journal"
)

var (
	_ journal.Store  = (*Store)(nil)
	_ journal.Photos = (*Store)(nil)
)

// patience bounds every write, so that a writer that never lets go shows as a
// fault and not as a tool that hangs.
const patience = 30 * time.Second

// Store is an open journal. It is safe for concurrent use, also by several
// processes on one machine.
type Store struct {
	path        string
	write, read *sql.DB
	now         func() time.Time
}

// Open opens the journal at path, makes it if it is absent (the folder must
// exist), and brings its tables up to date. Each of these is one fault with a
// hint: no such folder (NotFound); not a database, another program's database
// or one made by a newer fettle (Invalid); a folder or file that may not be
// written (Denied); a damaged file, a full disk (Internal).
func Open(ctx context.Context, path string) (*Store, error) {
	if err := inspect(ctx, path); err != nil {
		return nil, err
	}
	s := &Store{path: path, now: time.Now}
	if err := s.open(ctx); err != nil {
		s.Close()
		return nil, err
	}
	return s, nil
}

func (s *Store) open(ctx context.Context) (err error) {
	if s.write, err = pool(s.path, writing, 1); err != nil {
		return err
	}
	if err := migrate(ctx, s.write); err != nil {
		return s.fault(err, "bring the journal up to date")
	}
	if s.read, err = pool(s.path, reading, 4); err != nil {
		return err
	}
	return s.testPragmas(ctx)
}

// Close waits for running calls and closes the file.
func (s *Store) Close() error {
	var errs []error
	for _, db := range []*sql.DB{s.read, s.write} {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	return s.fault(errors.Join(errs...), "close the journal")
}

// Write is the one writing connection. Its transactions begin immediate, so
// what is read in them stays true until they commit. Do not call the store
// from inside one: it would wait for itself.
func (s *Store) Write() *sql.DB { return s.write }

// Read is the pool of reading connections; a write through it fails.
func (s *Store) Read() *sql.DB { return s.read }

// tx runs f in one writing transaction.
func (s *Store) tx(ctx context.Context, attempted string, f func(context.Context, *sql.Tx) error) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return s.fault(err, attempted)
	}
	defer tx.Rollback() // does nothing after a commit
	if err := f(ctx, tx); err != nil {
		return s.fault(err, attempted)
	}
	return s.fault(tx.Commit(), attempted)
}
