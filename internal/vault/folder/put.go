package folder

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"math"
	"net/http"
	"os"
	"path"
	"time"

	"fettle/fault"
	"fettle/internal/vault"
)

// Put streams a photo to a file of its own, then gives it its name. Room for
// one photo of limit bytes is all it ever takes beyond what is kept.
func (f *Folder) Put(ctx context.Context, r io.Reader, limit int64) (vault.Photo, error) {
	src := source{ctx, r}
	head, err := readHead(src)
	if err != nil {
		return vault.Photo{}, err
	}
	media, err := vault.Sniff(head)
	if err != nil {
		return vault.Photo{}, err
	}
	part, err := f.newPart()
	if err != nil {
		return vault.Photo{}, explain(f.dir, err)
	}
	defer f.root.Remove(part.Name()) // does nothing once it has its place
	p, err := fill(part, io.MultiReader(bytes.NewReader(head), src), limit)
	if err = errors.Join(err, part.Close()); err != nil {
		return vault.Photo{}, explain(f.dir, err)
	}
	p.Media = media
	if err := f.settle(part.Name(), p.Hash); err != nil {
		return vault.Photo{}, explain(f.dir, err)
	}
	return p, nil
}

// source is a reader that ends with its context and marks its own errors, to
// tell a broken line from a broken disk.
type source struct {
	ctx context.Context
	r   io.Reader
}

func (s source) Read(b []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, received(err)
	}
	n, err := s.r.Read(b)
	if err != nil && err != io.EOF {
		err = received(err)
	}
	return n, err
}

func received(err error) error {
	kind := fault.Interrupted
	if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
		kind = fault.TooLarge // the server's own limit on a request
	}
	return fault.Wrap(kind, err, "receive the photo")
}

// newPart makes a file beside the photos, on the same disk; its Name is the
// path within the root.
func (f *Folder) newPart() (*part, error) {
	if err := f.root.MkdirAll(parts, 0o700); err != nil {
		return nil, err
	}
	name := path.Join(parts, rand.Text())
	file, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	return &part{file, name}, err
}

type part struct {
	*os.File
	name string
}

func (p *part) Name() string { return p.name }

// fill copies at most limit bytes, to the disk itself, and tells their hash.
func fill(to *part, r io.Reader, limit int64) (vault.Photo, error) {
	h := sha256.New()
	limit = min(limit, math.MaxInt64-1)
	n, err := io.Copy(io.MultiWriter(to, h), io.LimitReader(r, limit+1))
	if err != nil {
		return vault.Photo{}, err
	}
	if n > limit {
		return vault.Photo{}, fault.New(fault.TooLarge, "the photo has more than %d bytes", limit).
			WithHint("send it in a smaller size")
	}
	return vault.Photo{Hash: hex.EncodeToString(h.Sum(nil)), Size: n}, to.Sync()
}

// settle gives a whole photo its name. One that is there already is replaced
// by the same bytes, which also mends it if it was damaged.
func (f *Folder) settle(name, hash string) error {
	to := place(hash)
	if err := f.root.MkdirAll(path.Dir(to), 0o700); err != nil {
		return err
	}
	if err := f.root.Rename(name, to); err != nil {
		return err
	}
	for _, dir := range []string{path.Dir(to), hash[:2], "."} {
		if err := f.syncFolder(dir); err != nil {
			return err
		}
	}
	return nil
}

// syncFolder makes a new name last; a system that cannot synchronise a folder
// (Windows) does it by itself.
func (f *Folder) syncFolder(dir string) error {
	d, err := f.root.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrPermission) {
		return err
	}
	return nil
}

// stale is the age at which a part can only be what a crash left behind.
const stale = 24 * time.Hour

// sweep removes such parts.
func (f *Folder) sweep() error {
	entries, err := fs.ReadDir(f.root.FS(), parts)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, e := range entries {
		info, err := e.Info()
		if err == nil && time.Since(info.ModTime()) > stale {
			err = f.root.Remove(path.Join(parts, e.Name()))
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return err
}
