package ply

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"strconv"

	"fettle/geom/mesh"
)

// Form is how the numbers of a file are written.
type Form string

// The forms.
const (
	Text         Form = "ascii"
	LittleEndian Form = "binary_little_endian"
	BigEndian    Form = "binary_big_endian"
)

// Write writes a surface in 64-bit floats, with the flat places of its corners
// if it has any. The error is what w says.
func Write(w io.Writer, m mesh.Model, form Form) error {
	out := bufio.NewWriter(w)
	flat := len(m.UV) == 3*len(m.Mesh.Faces) && len(m.UV) > 0
	fmt.Fprintf(out, "ply\nformat %s 1.0\nelement vertex %d\nproperty double x\nproperty double y\nproperty double z\n", form, len(m.Mesh.Points))
	fmt.Fprintf(out, "element face %d\nproperty list uchar int vertex_indices\n", len(m.Mesh.Faces))
	if flat {
		fmt.Fprintln(out, "property list uchar double texcoord")
	}
	fmt.Fprintln(out, "end_header")
	row := encoder(form)
	var line []byte
	end := func() {
		if form == Text {
			line = append(line, '\n')
		}
		out.Write(line) // the last Flush says what went wrong
		line = line[:0]
	}
	for _, p := range m.Mesh.Points {
		line = row(line, float64s, p.X, p.Y, p.Z)
		end()
	}
	for f, face := range m.Mesh.Faces {
		line = row(row(line, uint8s, 3), int32s, float64(face[0]), float64(face[1]), float64(face[2]))
		if flat {
			line = row(line, uint8s, 6)
			for _, p := range m.UV[3*f : 3*f+3] {
				line = row(line, float64s, p.X, p.Y)
			}
		}
		end()
	}
	return out.Flush()
}

// encoder returns what adds numbers of a kind to a row.
func encoder(form Form) func(to []byte, k kind, numbers ...float64) []byte {
	if form == Text {
		return func(to []byte, _ kind, numbers ...float64) []byte {
			for _, x := range numbers {
				to = append(strconv.AppendFloat(to, x, 'g', -1, 64), ' ')
			}
			return to
		}
	}
	var order binary.AppendByteOrder = binary.LittleEndian
	if form == BigEndian {
		order = binary.BigEndian
	}
	return func(to []byte, k kind, numbers ...float64) []byte {
		for _, x := range numbers {
			switch k {
			case uint8s:
				to = append(to, uint8(x))
			case int32s:
				to = order.AppendUint32(to, uint32(int32(x)))
			default:
				to = order.AppendUint64(to, math.Float64bits(x))
			}
		}
		return to
	}
}
