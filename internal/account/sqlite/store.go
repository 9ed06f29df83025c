// Package sqlite keeps accounts and sessions in the tables account and session
// of the shop's one SQLite file, whose migrations package
// internal/journal/sqlite owns.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"fettle/fault"
	"fettle/internal/account"
)

var _ account.Store = (*Store)(nil)

// Store keeps accounts. It is safe for use by many at once.
type Store struct{ write, read *sql.DB }

// New returns a store over the file's writing connection, whose transactions
// begin immediate, and its reading pool.
func New(write, read *sql.DB) *Store { return &Store{write: write, read: read} }

const columns = "id, code, name, role, pin, hash, changed"

// People lists everybody who may sign in, by name.
func (s *Store) People(ctx context.Context) ([]account.Person, error) {
	rows, err := s.read.QueryContext(ctx, "SELECT "+columns+" FROM account ORDER BY name, id")
	if err != nil {
		return nil, wrap(err, "list the people")
	}
	defer rows.Close()
	var people []account.Person
	for rows.Next() {
		a, err := scan(rows.Scan)
		if err != nil {
			return nil, wrap(err, "list the people")
		}
		people = append(people, a.Person)
	}
	return people, wrap(rows.Err(), "list the people")
}

// Account returns one person with the hash to compare against.
func (s *Store) Account(ctx context.Context, id string) (account.Account, error) {
	a, err := scan(s.read.QueryRowContext(ctx, "SELECT "+columns+" FROM account WHERE id = $1", id).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return a, unknown(id)
	}
	return a, wrap(err, "find the person")
}

func scan(read func(...any) error) (a account.Account, err error) {
	var changed int64
	err = read(&a.ID, &a.Code, &a.Name, &a.Role, &a.PIN, &a.Hash, &changed)
	a.Changed = time.UnixMilli(changed).UTC()
	return a, err
}

// First keeps the owner's account only while there is no account at all.
func (s *Store) First(ctx context.Context, a account.Account) error {
	return s.tx(ctx, "keep the owner's account", func(tx *sql.Tx) error {
		var n int
		if err := tx.QueryRowContext(ctx, "SELECT count(*) FROM account").Scan(&n); err != nil {
			return err
		}
		if n > 0 {
			return fault.New(fault.Conflict, "this shop has an owner already").WithHint("Sign in, or ask the owner to add you.")
		}
		return add(ctx, tx, a)
	})
}

// Add keeps a new account.
func (s *Store) Add(ctx context.Context, a account.Account) error {
	return s.tx(ctx, "add the person", func(tx *sql.Tx) error { return add(ctx, tx, a) })
}

func add(ctx context.Context, tx *sql.Tx, a account.Account) error {
	if err := a.Validate(); err != nil {
		return err
	}
	var n int
	err := tx.QueryRowContext(ctx, "SELECT count(*) FROM account WHERE id = $1 OR code = $2", a.ID, a.Code).Scan(&n)
	if err != nil {
		return err
	}
	if n > 0 {
		return fault.New(fault.Conflict, "somebody has these initials already").At("code").WithHint("Choose others.")
	}
	_, err = tx.ExecContext(ctx, "INSERT INTO account ("+columns+") VALUES ($1, $2, $3, $4, $5, $6, $7)",
		a.ID, a.Code, a.Name, int64(a.Role), a.PIN, a.Hash, a.Changed.UnixMilli())
	return err
}

// SetHash replaces the hash of a person's PIN or password.
func (s *Store) SetHash(ctx context.Context, id, hash string, pin bool, at time.Time) error {
	return s.tx(ctx, "change the PIN", func(tx *sql.Tx) error {
		res, err := tx.ExecContext(ctx, "UPDATE account SET hash = $1, pin = $2, changed = $3 WHERE id = $4",
			hash, pin, at.UnixMilli(), id)
		return touched(res, err, id)
	})
}

// Remove ends a person's account; the last owner stays.
func (s *Store) Remove(ctx context.Context, id string) error {
	return s.tx(ctx, "remove the person", func(tx *sql.Tx) error {
		var others int
		err := tx.QueryRowContext(ctx, "SELECT count(*) FROM account WHERE role = $1 AND id <> $2", int64(account.Owner), id).Scan(&others)
		if err != nil {
			return err
		}
		if others == 0 {
			return fault.New(fault.Conflict, "the last owner cannot be removed").WithHint("Add another owner first.")
		}
		res, err := tx.ExecContext(ctx, "DELETE FROM account WHERE id = $1", id)
		return touched(res, err, id)
	})
}

func touched(res sql.Result, err error, id string) error {
	if err != nil {
		return err
	}
	if n, err := res.RowsAffected(); err != nil || n > 0 {
		return err
	}
	return unknown(id)
}

func (s *Store) tx(ctx context.Context, attempted string, act func(*sql.Tx) error) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return wrap(err, attempted)
	}
	defer tx.Rollback() // does nothing after a commit
	if err := act(tx); err != nil {
		return wrap(err, attempted)
	}
	return wrap(tx.Commit(), attempted)
}

// wrap leaves a fault as it is: its message is written for a person.
func wrap(err error, attempted string) error {
	if _, ok := errors.AsType[*fault.Fault](err); ok {
		return err
	}
	return fault.Wrap(fault.Internal, err, attempted)
}

func unknown(id string) error {
	return fault.New(fault.NotFound, "there is no person %s here", id)
}
