package threemf

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"fettle/fault"
)

const (
	usual       = "3D/3dmodel.model"
	startPart   = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
	mostEntries = 10_000
	mostRels    = 1 << 20 // bytes
)

// Is reports whether data may be such a file: a zip archive.
func Is(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// model returns the XML of the model, of at most limit bytes.
func model(data []byte, limit int) ([]byte, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fault.New(fault.Invalid, "the file is not a whole zip archive").WithHint("Was it copied to its end?")
	}
	if len(z.File) > mostEntries {
		return nil, fault.New(fault.TooLarge, "the archive has more than %d entries", mostEntries)
	}
	entry := func(name string) *zip.File {
		for _, f := range z.File {
			if strings.EqualFold(strings.TrimPrefix(f.Name, "/"), strings.TrimPrefix(name, "/")) {
				return f
			}
		}
		return nil
	}
	name := usual
	if rels := entry("_rels/.rels"); rels != nil {
		text, err := unzip(rels, mostRels)
		if err != nil {
			return nil, err
		}
		if target := start(text); target != "" {
			name = target
		}
	}
	part := entry(name)
	if part == nil {
		return nil, fault.New(fault.Invalid, "the archive holds no model: %.60q is not in it", name)
	}
	return unzip(part, limit)
}

// start returns where the relations say that the model is.
func start(text []byte) string {
	var rels struct {
		List []struct {
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	if xml.Unmarshal(text, &rels) != nil {
		return ""
	}
	for _, r := range rels.List {
		if r.Type == startPart {
			return r.Target
		}
	}
	return ""
}

// unzip believes no size that the archive states: it stops when too much comes.
func unzip(f *zip.File, limit int) ([]byte, error) {
	in, err := f.Open()
	if err != nil {
		return nil, broken(f)
	}
	defer in.Close() // read only: nothing can be lost
	data, err := io.ReadAll(io.LimitReader(in, int64(limit)+1))
	if len(data) > limit {
		return nil, fault.New(fault.TooLarge, "unpacked, it has more than %d bytes", limit).At(f.Name)
	}
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, broken(f)
	}
	return data, nil
}

func broken(f *zip.File) error {
	return fault.New(fault.Invalid, "this entry of the archive is broken, or packed in an unknown way").At(f.Name)
}
