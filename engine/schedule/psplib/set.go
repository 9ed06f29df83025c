package psplib

import (
	"archive/tar"
	"cmp"
	"compress/gzip"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"fettle/engine/schedule/project"
	"fettle/fault"
)

// Instance is one project of a set, named after its file without extension.
type Instance struct {
	Name    string
	Problem project.Problem
}

// Open reads every .sm file of a set: of the folder name, or of the archive
// when name ends in .tar.gz. Instances come in the order of their numbers.
func Open(fsys fs.FS, name string) ([]Instance, error) {
	var set []Instance
	var err error
	if strings.HasSuffix(name, ".tar.gz") {
		set, err = archive(fsys, name)
	} else {
		set, err = folder(fsys, name)
	}
	if err != nil {
		return nil, err
	}
	if len(set) == 0 {
		return nil, fault.New(fault.NotFound, "there is no .sm file").At(name)
	}
	slices.SortFunc(set, func(a, b Instance) int { return natural(a.Name, b.Name) })
	return set, nil
}

// natural orders j301_2 before j301_10: shorter stretches of digits first.
func natural(a, b string) int {
	return cmp.Or(cmp.Compare(stem(a), stem(b)), cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

// stem is the name up to its last underscore, its length first.
func stem(name string) string {
	i := max(0, strings.LastIndexByte(name, '_'))
	return string(rune(i)) + name[:i]
}

func folder(fsys fs.FS, name string) ([]Instance, error) {
	entries, err := fs.ReadDir(fsys, name)
	if err != nil {
		return nil, missing(err, name)
	}
	var set []Instance
	for _, e := range entries {
		if path.Ext(e.Name()) != ".sm" {
			continue
		}
		f, err := fsys.Open(path.Join(name, e.Name()))
		if err != nil {
			return nil, missing(err, e.Name())
		}
		in, err := read(f, e.Name())
		f.Close()
		if err != nil {
			return nil, err
		}
		set = append(set, in)
	}
	return set, nil
}

func archive(fsys fs.FS, name string) ([]Instance, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, missing(err, name)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "unpack "+name)
	}
	var set []Instance
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return set, nil
		}
		if err != nil {
			return nil, fault.Wrap(fault.Invalid, err, "unpack "+name)
		}
		if h.Typeflag != tar.TypeReg || path.Ext(h.Name) != ".sm" {
			continue
		}
		in, err := read(r, path.Base(h.Name))
		if err != nil {
			return nil, err
		}
		set = append(set, in)
	}
}

func read(r io.Reader, file string) (Instance, error) {
	p, err := ReadSM(r)
	if err != nil {
		return Instance{}, fault.Wrap(fault.Invalid, err, "read "+file)
	}
	return Instance{Name: strings.TrimSuffix(file, ".sm"), Problem: p}, nil
}

func missing(err error, name string) error {
	kind := fault.Internal
	if errors.Is(err, fs.ErrNotExist) {
		kind = fault.NotFound
	}
	return fault.Wrap(kind, err, "read "+name)
}
