package meshfile

import (
	"bytes"
	"io"
	"path/filepath"
	"strings"

	"fettle/fault"
	"fettle/geom/gltf"
	"fettle/geom/mesh"
	"fettle/geom/obj"
	"fettle/geom/ply"
	"fettle/geom/stl"
	"fettle/geom/threemf"
)

// Format is a format of files.
type Format string

// The formats.
const (
	STL     Format = "STL"
	OBJ     Format = "OBJ"
	PLY     Format = "PLY"
	GLTF    Format = "glTF"
	ThreeMF Format = "3MF"
)

// Endings are those of the names of files that can be read.
var Endings = []string{".stl", ".obj", ".ply", ".glb", ".gltf", ".3mf"}

var byEnding = map[string]Format{".stl": STL, ".obj": OBJ, ".ply": PLY, ".glb": GLTF, ".gltf": GLTF, ".3mf": ThreeMF}

const hint = "Save it as triangles: STL, OBJ, PLY, GLB or 3MF."

// known begins files that are no triangles.
var known = []struct{ start, what string }{
	{"ISO-10303-21", "This is an exact model (STEP), which has no triangles."},
	{"%PDF", "This is a PDF, not a surface."},
	{"\x89PNG", "This is a picture, not a surface."},
	{"\xff\xd8\xff", "This is a picture, not a surface."},
	{"ASTM-E57", "This is a scan of points (E57), not yet a surface."},
	{"\x1f\x8b", "This is packed. Unpack it first."},
}

// Detect says what format a file has: what its bytes say counts before its name.
// The error is an Invalid fault.
func Detect(name string, data []byte) (Format, error) {
	for _, k := range known {
		if bytes.HasPrefix(data, []byte(k.start)) {
			return "", fault.New(fault.Invalid, "%s", k.what).WithHint(hint)
		}
	}
	named, ok := byEnding[strings.ToLower(filepath.Ext(name))]
	switch {
	case threemf.Is(data):
		return ThreeMF, nil
	case gltf.Is(data):
		return GLTF, nil
	case bytes.HasPrefix(data, []byte("ply\n")) || bytes.HasPrefix(data, []byte("ply\r")):
		return PLY, nil
	case stl.Is(data):
		return STL, nil
	case looksLikeOBJ(data) && named != STL:
		return OBJ, nil
	case len(bytes.TrimSpace(data)) == 0:
		return "", fault.New(fault.Invalid, "the file is empty")
	case ok:
		return named, nil
	}
	return "", fault.New(fault.Invalid, "%.60q is of no known format", filepath.Base(name)).WithHint(hint)
}

// looksLikeOBJ reports whether one of the first lines is a point.
func looksLikeOBJ(data []byte) bool {
	start := data[:min(len(data), 1<<16)]
	return bytes.HasPrefix(start, []byte("v ")) || bytes.Contains(start, []byte("\nv ")) || bytes.Contains(start, []byte("\rv "))
}

func (f Format) read(data []byte, l mesh.Limits) (mesh.Model, error) {
	switch f {
	case STL:
		return stl.Read(data, l)
	case OBJ:
		return obj.Read(data, l)
	case PLY:
		return ply.Read(data, l)
	case GLTF:
		return gltf.Read(data, l)
	}
	return threemf.Read(data, l)
}

// Write writes a surface in the format that the ending of the name says, binary
// where there is a choice. Formats that do not say their unit get millimetres. The
// errors are an Invalid fault for an ending that cannot be written, or what w
// says.
func Write(w io.Writer, name string, m mesh.Model) error {
	if m.Unit != 0 && m.Unit != 1 {
		m.Mesh, m.Unit = m.Mesh.Scale(m.Unit), 1
	}
	switch end := strings.ToLower(filepath.Ext(name)); end {
	case ".stl":
		return stl.Write(w, m.Mesh)
	case ".obj":
		return obj.Write(w, m)
	case ".ply":
		return ply.Write(w, m, ply.LittleEndian)
	case ".glb":
		return gltf.Write(w, m)
	case ".3mf":
		return threemf.Write(w, m)
	default:
		return fault.New(fault.Invalid, "%.20q is not an ending that can be written", end).WithHint("Take .stl, .obj, .ply, .glb or .3mf.")
	}
}
