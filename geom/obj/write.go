package obj

import (
	"bufio"
	"io"
	"strconv"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Write writes a surface with the fewest digits that read back the same, and the
// flat places of its corners, equal ones once where they follow one point. The
// error is what w says.
func Write(w io.Writer, m mesh.Model) error {
	out := bufio.NewWriter(w)
	var line []byte
	put := func(what string, numbers ...float64) {
		line = append(line[:0], what...)
		for _, x := range numbers {
			line = strconv.AppendFloat(append(line, ' '), x, 'g', -1, 64)
		}
		out.Write(append(line, '\n')) // the last Flush says what went wrong
	}
	for _, p := range m.Mesh.Points {
		put("v", p.X, p.Y, p.Z)
	}
	flat := flatPlaces(m)
	for _, p := range flat.list {
		put("vt", p.X, p.Y)
	}
	for f, face := range m.Mesh.Faces {
		line = append(line[:0], 'f')
		for k, v := range face {
			line = strconv.AppendInt(append(line, ' '), int64(v)+1, 10)
			if flat.of != nil {
				line = strconv.AppendInt(append(line, '/'), int64(flat.of[3*f+k])+1, 10)
			}
		}
		out.Write(append(line, '\n'))
	}
	return out.Flush()
}

// places are the flat places that differ, and by corner which it is.
type places struct {
	list []geom.Point
	of   []int
}

func flatPlaces(m mesh.Model) places {
	if len(m.UV) != 3*len(m.Mesh.Faces) || len(m.UV) == 0 {
		return places{}
	}
	type key struct {
		v  int32
		at geom.Point
	}
	p, known := places{of: make([]int, len(m.UV))}, map[key]int{}
	for c, at := range m.UV {
		k := key{m.Mesh.Faces[c/3][c%3], at}
		i, old := known[k]
		if !old {
			i = len(p.list)
			known[k], p.list = i, append(p.list, at)
		}
		p.of[c] = i
	}
	return p
}
