package cli

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fettle/fault"
)

// backupCmd writes the whole store into one file.
type backupCmd struct {
	storeFlags
	File string `arg:"" help:"File to write, such as fettle-2026-10-06.zip." type:"path"`
}

// Run writes the journal and all photos into a zip file. The shop may go on
// working meanwhile.
func (c *backupCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	part := c.File + ".part"
	copied := part + ".db"
	defer os.Remove(copied)
	defer os.Remove(part)
	if _, err := os.Stat(c.File); err == nil {
		return fault.New(fault.Conflict, "%s is there already", c.File).WithHint("name a file that is not there yet")
	}
	if err := shop.store.Backup(ctx, copied); err != nil {
		return err
	}
	if err := writeZip(part, copied, filepath.Join(shop.dir, "photos")); err != nil {
		return fault.Wrap(fault.Internal, err, "write the backup")
	}
	if err := os.Rename(part, c.File); err != nil {
		return fault.Wrap(fault.Internal, err, "name the backup")
	}
	fmt.Fprintln(s.err, "fettle: backup in", c.File)
	return nil
}

func writeZip(path, db, photos string) error {
	out, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	defer out.Close()
	z := zip.NewWriter(out)
	if err := addFile(z, "fettle.db", db); err != nil {
		return err
	}
	err = filepath.WalkDir(photos, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !d.Type().IsRegular() {
			return err
		}
		name, err := filepath.Rel(photos, path)
		if err != nil {
			return err
		}
		return addFile(z, "photos/"+filepath.ToSlash(name), path)
	})
	if err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	return out.Sync()
}

func addFile(z *zip.Writer, name, path string) error {
	in, err := os.Open(path)
	if err != nil {
		return err
	}
	defer in.Close()
	w, err := z.Create(name)
	if err == nil {
		_, err = io.Copy(w, in)
	}
	return err
}

// restoreCmd lays a backup out as a new data folder.
type restoreCmd struct {
	storeFlags
	File string `arg:"" help:"A file that backup wrote." type:"path"`
}

// Run unpacks the backup into an empty folder and checks it.
func (c *restoreCmd) Run(ctx context.Context, s streams) error {
	if files, err := os.ReadDir(c.Data); err == nil && len(files) > 0 {
		return fault.New(fault.Conflict, "%s is not empty", c.Data).WithHint("name a new folder with --data; nothing was touched")
	}
	z, err := zip.OpenReader(c.File)
	if errors.Is(err, fs.ErrNotExist) {
		return fault.New(fault.NotFound, "%s cannot be opened: %v", c.File, err)
	}
	if err != nil {
		return fault.New(fault.Invalid, "this is not a backup: %v", err).At(c.File)
	}
	defer z.Close()
	for _, f := range z.File {
		if err := unpack(c.Data, f); err != nil {
			return within(err, c.File)
		}
	}
	return (&checkCmd{storeFlags: c.storeFlags}).Run(ctx, s)
}

// unpack writes one file of a backup; only the journal and photos are taken.
func unpack(dir string, f *zip.File) error {
	if f.Name != "fettle.db" && !strings.HasPrefix(f.Name, "photos/") || !filepath.IsLocal(f.Name) {
		return fault.New(fault.Invalid, "a backup does not hold %q", f.Name)
	}
	path := filepath.Join(dir, filepath.FromSlash(f.Name))
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fault.Wrap(fault.Denied, err, "make a folder")
	}
	in, err := f.Open()
	if err != nil {
		return fault.New(fault.Invalid, "%s is damaged: %v", f.Name, err)
	}
	defer in.Close()
	out, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fault.Wrap(fault.Denied, err, "write "+f.Name)
	}
	if _, err := io.Copy(out, in); err != nil {
		out.Close()
		return fault.New(fault.Invalid, "%s is damaged: %v", f.Name, err)
	}
	return out.Close()
}
