package stl

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"

	"fettle/fault"
	"fettle/geom/lines"
	"fettle/geom/mesh"
)

const (
	header = 84 // bytes before the faces: any text, then their number
	record = 50 // bytes of a face: normal, three points, two bytes of anything
)

// Is reports whether data may be such a file: a binary one has exactly the length
// that its number of faces asks for, one of text says solid.
func Is(data []byte) bool { return binaryFaces(data) == promised(data) || isText(data) }

// promised is the number of faces that a binary file says it has, -1 of one too
// short to say.
func promised(data []byte) int {
	if len(data) < header {
		return -1
	}
	return int(binary.LittleEndian.Uint32(data[header-4:]))
}

// binaryFaces is how many faces there is room for, -2 where the room is not that
// of whole faces.
func binaryFaces(data []byte) int {
	if len(data) < header || (len(data)-header)%record != 0 {
		return -2
	}
	return (len(data) - header) / record
}

func isText(data []byte) bool {
	start := bytes.TrimLeft(data[:min(len(data), 1000)], " \t\r\n")
	return len(start) >= 5 && strings.EqualFold(string(start[:5]), "solid") && !bytes.Contains(start, []byte{0})
}

// Read reads a surface. The normals in the file do not count: outside is where
// the corners run anticlockwise. Errors are faults of kind Invalid or TooLarge
// that name the line, or the byte from 0 in a binary file.
func Read(data []byte, limits mesh.Limits) (mesh.Model, error) {
	if err := limits.Size(len(data)); err != nil {
		return mesh.Model{}, err
	}
	b := mesh.Builder{Limits: limits}
	read := readBinary
	if binaryFaces(data) != promised(data) && isText(data) {
		read = readText
	}
	if err := read(data, &b); err != nil {
		return mesh.Model{}, err
	}
	return b.Model(), nil
}

func readBinary(data []byte, b *mesh.Builder) error {
	n := promised(data)
	if n < 0 {
		return fault.New(fault.Invalid, "the file has %d bytes: too few for a surface", len(data))
	}
	if room := (len(data) - header) / record; room < n {
		return fault.New(fault.Invalid, "the file says it has %d faces and ends within face %d", n, room+1).
			At(at(len(data))).WithHint("Was it copied to its end?")
	}
	if err := b.Expect(n/2, n); err != nil {
		return err
	}
	for f := range n {
		from := header + f*record + 12
		var corners [3]int64
		for k := range corners {
			v, err := b.Shared(point(data[from+12*k:]))
			if err != nil {
				return fault.Within(err, at(from+12*k))
			}
			corners[k] = v
		}
		if err := b.Face(corners, nil); err != nil {
			return fault.Within(err, at(from))
		}
	}
	if header+n*record < len(data) {
		b.Leave("bytes behind the last face")
	}
	return nil
}

func at(offset int) string { return fmt.Sprintf("byte %d", offset) }

func point(data []byte) mesh.Vec {
	float := func(i int) float64 { return float64(math.Float32frombits(binary.LittleEndian.Uint32(data[i:]))) }
	return mesh.Vec{X: float(0), Y: float(4), Z: float(8)}
}

// order is how the lines of a face follow each other.
var order = []string{"facet", "outer", "vertex", "vertex", "vertex", "endloop", "endfacet"}

func readText(data []byte, b *mesh.Builder) error {
	l := lines.Of(string(data))
	var corners [3]int64
	word := ""
	for step := 0; l.Next(); {
		word = strings.ToLower(l.Words[0])
		if step == 0 && (word == "solid" || word == "endsolid" || word == "color") {
			continue
		}
		if word != order[step] {
			return l.Within(fault.New(fault.Invalid, "%.40q stands where %q is due", l.Words[0], order[step]))
		}
		switch word {
		case "vertex":
			var p [3]float64
			err := l.Floats(1, p[:])
			if err == nil {
				corners[step-2], err = b.Shared(mesh.Vec{X: p[0], Y: p[1], Z: p[2]})
			}
			if err != nil {
				return l.Within(err)
			}
		case "endfacet":
			if err := b.Face(corners, nil); err != nil {
				return l.Within(err)
			}
		}
		if step = (step + 1) % len(order); step > 0 && strings.TrimLeft(l.Rest, " \t\r\n") == "" {
			return l.Within(fault.New(fault.Invalid, "the file ends where %q is due", order[step]))
		}
	}
	if word != "endsolid" {
		b.Leave("what may be missing behind the last face, for no endsolid says that the file is whole")
	}
	return nil
}
