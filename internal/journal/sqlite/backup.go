package sqlite

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"fettle/fault"
)

// Backup writes a copy of the store as it is at this moment to a new file at
// path, while others go on reading and writing. The copy is complete, tested
// and on the disk when Backup returns; a file of that name is never replaced
// (Conflict).
func (s *Store) Backup(ctx context.Context, path string) error {
	b := backup{store: s, path: path}
	if err := b.reserve(); err != nil {
		return err
	}
	defer b.remove()
	if err := b.copy(ctx); err != nil {
		return s.fault(err, "make a backup")
	}
	if err := b.test(ctx); err != nil {
		return err
	}
	if err := b.settle(); err != nil {
		return barred(b.path, err)
	}
	return nil
}

// backup is a copy in the making: first under a name of its own, then renamed,
// so that a file with the backup's name is always whole.
type backup struct {
	store *Store
	path  string // the name it shall have
	part  string // the name it has until it is whole
}

func (b *backup) reserve() error {
	if _, err := os.Lstat(b.path); err == nil {
		return fault.New(fault.Conflict, "there is a file of this name already").At(b.path).
			WithHint("give the backup a new name, such as one with the date")
	}
	if err := inspectFolder(filepath.Dir(b.path)); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(b.path), filepath.Base(b.path)+".*.part")
	if err != nil {
		return barred(filepath.Dir(b.path), err)
	}
	b.part = f.Name()
	return f.Close()
}

// copy uses a connection of its own, so that neither readers nor the writer
// wait for it.
func (b *backup) copy(ctx context.Context) error {
	db, err := pool(b.store.path, looking, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	part, err := filepath.Abs(b.part)
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, "VACUUM INTO $1", part)
	return err
}

func (b *backup) test(ctx context.Context) error {
	db, err := pool(b.part, reading, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	var answer string
	if err := db.QueryRowContext(ctx, "PRAGMA quick_check").Scan(&answer); err != nil {
		return b.store.fault(err, "test the backup")
	}
	if answer != "ok" {
		return fault.New(fault.Internal, "the copy is not sound: %s", answer).At(b.path).
			WithHint("run fettle check on the journal itself")
	}
	return nil
}

// settle brings the copy and its name to the disk.
func (b *backup) settle() error {
	if err := syncFile(b.part); err != nil {
		return err
	}
	if err := os.Rename(b.part, b.path); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(b.path))
}

func (b *backup) remove() { os.Remove(b.part) } // does nothing after settle

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// syncFolder makes a rename last; a system that cannot synchronise a folder
// (Windows) does it by itself.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrPermission) {
		return err
	}
	return nil
}
