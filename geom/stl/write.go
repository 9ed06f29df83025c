package stl

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"fettle/geom/mesh"
)

// Write writes a mesh in millimetres as a binary file; places are rounded to 32-bit floats. The error is
// what w says.
func Write(w io.Writer, m mesh.Mesh) error {
	out := bufio.NewWriter(w)
	var head [header]byte
	copy(head[:], "surface in millimetres")
	binary.LittleEndian.PutUint32(head[header-4:], uint32(len(m.Faces)))
	out.Write(head[:]) // the last Flush says what went wrong
	var face []byte
	for f, corners := range m.Faces {
		face = appendVec(face[:0], m.FaceNormal(f))
		for _, v := range corners {
			face = appendVec(face, m.Points[v])
		}
		out.Write(append(face, 0, 0))
	}
	return out.Flush()
}

func appendVec(to []byte, v mesh.Vec) []byte {
	for _, x := range [3]float64{v.X, v.Y, v.Z} {
		to = binary.LittleEndian.AppendUint32(to, math.Float32bits(float32(x)))
	}
	return to
}

// WriteText writes a file of text that reads back the same places. The error is
// what w says.
func WriteText(w io.Writer, m mesh.Mesh) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, "solid surface")
	for f, corners := range m.Faces {
		n := m.FaceNormal(f)
		fmt.Fprintf(out, "facet normal %g %g %g\n outer loop\n", n.X, n.Y, n.Z)
		for _, v := range corners {
			p := m.Points[v]
			fmt.Fprintf(out, "  vertex %g %g %g\n", p.X, p.Y, p.Z)
		}
		fmt.Fprintln(out, " endloop\nendfacet")
	}
	fmt.Fprintln(out, "endsolid surface")
	return out.Flush()
}
