// Package folder is the vault of a single machine: a folder with one file for
// each photo, in two levels of folders by the first bytes of its hash, as in
// ab/cd/abcd…. A file appears under its name only when it is whole and on the
// disk, so a name that is there can be trusted after a power cut.
package folder

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"syscall"

	"fettle/fault"
	"fettle/internal/vault"
)

var _ vault.Vault = (*Folder)(nil)

// parts is where a photo is written until it is whole.
const parts = "part"

// Folder is an open vault, safe for concurrent use, also by several processes.
type Folder struct {
	dir  string
	root *os.Root // no path, however written, leads out of it
}

// Open opens the vault in dir and makes the folder if it is absent. Denied
// when it may not be used.
func Open(dir string) (*Folder, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, explain(dir, err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, explain(dir, err)
	}
	f := &Folder{dir: dir, root: root}
	if err := f.sweep(); err != nil {
		root.Close()
		return nil, explain(dir, err)
	}
	return f, nil
}

// Close closes the folder; photos opened from it stay open.
func (f *Folder) Close() error { return f.root.Close() }

// Has tells whether a photo is there.
func (f *Folder) Has(ctx context.Context, hash string) (bool, error) {
	if err := ready(ctx, hash); err != nil {
		return false, err
	}
	info, err := f.root.Lstat(place(hash))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, explain(f.dir, err)
	}
	return info.Mode().IsRegular(), nil
}

// Open returns the bytes of a photo.
func (f *Folder) Open(ctx context.Context, hash string) (io.ReadSeekCloser, vault.Photo, error) {
	ok, err := f.Has(ctx, hash)
	if err != nil {
		return nil, vault.Photo{}, err
	}
	if !ok {
		return nil, vault.Photo{}, fault.New(fault.NotFound, "the photo %s… is not in the vault", hash[:12])
	}
	file, err := f.root.Open(place(hash))
	if err != nil {
		return nil, vault.Photo{}, explain(f.dir, err)
	}
	p, err := describe(file, hash)
	if err != nil {
		file.Close()
		return nil, vault.Photo{}, explain(f.dir, err)
	}
	return file, p, nil
}

// describe reads size and media and goes back to the beginning.
func describe(file *os.File, hash string) (vault.Photo, error) {
	info, err := file.Stat()
	if err != nil {
		return vault.Photo{}, err
	}
	head, err := readHead(file)
	if err != nil {
		return vault.Photo{}, err
	}
	media, err := vault.Sniff(head)
	if err != nil {
		return vault.Photo{}, fault.New(fault.Internal, "the photo %s… is damaged", hash[:12]).
			WithHint("run fettle check, and restore it from a backup")
	}
	_, err = file.Seek(0, io.SeekStart)
	return vault.Photo{Hash: hash, Size: info.Size(), Media: media}, err
}

func readHead(r io.Reader) ([]byte, error) {
	head := make([]byte, vault.SniffLen)
	n, err := io.ReadFull(r, head)
	if err == io.EOF || err == io.ErrUnexpectedEOF { // not Is: a broken upload is neither
		err = nil
	}
	return head[:n], err
}

// place is the path of a photo; os.Root wants slashes on every system.
func place(hash string) string { return path.Join(hash[:2], hash[2:4], hash) }

func ready(ctx context.Context, hash string) error {
	if err := ctx.Err(); err != nil {
		return fault.Wrap(fault.Interrupted, err, "use the vault")
	}
	return vault.ValidHash(hash)
}

// explain turns an error of the file system into a fault; a fault stays.
func explain(dir string, err error) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f
	}
	out := &fault.Fault{Kind: fault.Internal, Where: dir, Msg: "the vault did not answer: " + err.Error(), Cause: err}
	switch {
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		out.Kind, out.Msg = fault.Interrupted, "stopped before it was done"
	case errors.Is(err, syscall.ENOSPC):
		out.Msg, out.Hint = "the disk is full; the photo was not kept", "make room on the disk, then try again"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		out.Kind, out.Msg = fault.Denied, "the vault's folder may not be written"
		out.Hint = "give the program the right to write it"
	}
	return out
}
