package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"fettle/fault"
)

// ours is the application_id of 0001_journal.sql, "fttl" in ASCII.
const ours = 0x6674746c

// inspect looks at what lies at path before anything is changed there, and
// makes an empty file when there is nothing.
func inspect(ctx context.Context, path string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := inspectFolder(filepath.Dir(path)); err != nil {
			return err
		}
		return begin(path)
	case err != nil:
		return barred(path, err)
	case !info.Mode().IsRegular():
		return fault.New(fault.Invalid, "this is not a file").At(path).
			WithHint("name the journal's file, not a folder or a device")
	case info.Size() == 0:
		return nil
	}
	return inspectFile(ctx, path)
}

// begin makes the file for the owner's eyes alone, since it holds names, money
// and sign-ins; the files SQLite puts beside it take over its rights.
func begin(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return barred(path, err)
	}
	return f.Close()
}

func inspectFolder(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrPermission):
		return barred(dir, err)
	case err != nil || !info.IsDir():
		return fault.New(fault.NotFound, "there is no such folder").At(dir).
			WithHint("make the folder first, or name another")
	}
	return nil
}

func inspectFile(ctx context.Context, path string) error {
	db, err := pool(path, looking, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	s := &Store{path: path}
	id, tables, err := marks(ctx, db)
	switch {
	case err != nil:
		return s.fault(err, "look at the journal")
	case id == ours:
		return s.inspectSchema(ctx, db)
	case id == 0 && tables == 0:
		return nil // a file that was being made when the machine stopped
	}
	return fault.New(fault.Invalid, "this database belongs to another program").At(path).
		WithHint("name the folder that holds fettle's own journal")
}

func marks(ctx context.Context, db *sql.DB) (id, tables int64, err error) {
	if err := db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id); err != nil {
		return 0, 0, err
	}
	// goose makes its own table in a transaction before the first migration.
	err = db.QueryRowContext(ctx,
		"SELECT COUNT(*) FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' AND name <> $1", versions).Scan(&tables)
	return id, tables, err
}

// inspectSchema refuses a journal that a newer program has changed: this one
// would not know what its tables mean.
func (s *Store) inspectSchema(ctx context.Context, db *sql.DB) error {
	var have int64
	row := db.QueryRowContext(ctx, "SELECT COALESCE(MAX(version_id), 0) FROM "+versions+" WHERE is_applied")
	if err := row.Scan(&have); err != nil {
		return s.fault(err, "look at the journal's version")
	}
	known, err := newest()
	if err != nil || have <= known {
		return err
	}
	return fault.New(fault.Invalid, "a newer fettle made this journal: its tables are version %d, this program knows %d", have, known).
		At(s.path).WithHint("start the newer program, or restore a backup made before it")
}
