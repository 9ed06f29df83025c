package folder

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"path"

	"fettle/fault"
	"fettle/internal/vault"
)

// Walk reads every photo again, by hash. A file that has no business in the
// vault is a problem too, with its path in place of the hash.
func (f *Folder) Walk(ctx context.Context, visit func(p vault.Photo, problem error) error) error {
	err := fs.WalkDir(f.root.FS(), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil:
			return visited{visit(vault.Photo{Hash: name}, explain(f.dir, err))}.orNil()
		case e.IsDir() && name == parts:
			return fs.SkipDir
		case e.IsDir():
			return nil
		}
		return visited{visit(f.reread(ctx, name, e))}.orNil()
	})
	if v, ok := errors.AsType[visited](err); ok {
		return v.error
	}
	if err != nil {
		return explain(f.dir, err)
	}
	return nil
}

// visited carries an error of the visitor past explain.
type visited struct{ error }

func (v visited) orNil() error {
	if v.error == nil {
		return nil
	}
	return v
}

func (f *Folder) reread(ctx context.Context, name string, e fs.DirEntry) (vault.Photo, error) {
	hash := path.Base(name)
	if vault.ValidHash(hash) != nil || name != place(hash) || !e.Type().IsRegular() {
		return vault.Photo{Hash: name}, fault.New(fault.Invalid, "this is not a photo of the vault").At(name)
	}
	r, p, err := f.Open(ctx, hash)
	if err != nil {
		return vault.Photo{Hash: hash}, err
	}
	defer r.Close()
	h := sha256.New()
	if _, err := io.Copy(h, source{ctx, r}); err != nil {
		return p, explain(f.dir, err)
	}
	if got := hex.EncodeToString(h.Sum(nil)); got != hash {
		return p, fault.New(fault.Internal, "the photo's content does not match its hash").At(name).
			WithHint("restore it from a backup")
	}
	return p, nil
}
