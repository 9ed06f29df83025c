package ply

import (
	"encoding/binary"
	"fmt"
	"slices"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/lines"
	"fettle/geom/mesh"
)

// Read reads a surface. Errors are faults of kind Invalid or TooLarge that name
// the line, or the byte in a binary body, and the row of the element.
func Read(data []byte, limits mesh.Limits) (mesh.Model, error) {
	if err := limits.Size(len(data)); err != nil {
		return mesh.Model{}, err
	}
	l := lines.Of(string(data))
	h, err := readHead(l)
	if err != nil {
		return mesh.Model{}, l.Within(err)
	}
	r := reader{build: mesh.Builder{Limits: limits}}
	switch h.form {
	case "binary_big_endian":
		r.body = &binaryBody{binary.BigEndian, data[len(data)-len(l.Rest):], len(data)}
	case "binary_little_endian":
		r.body = &binaryBody{binary.LittleEndian, data[len(data)-len(l.Rest):], len(data)}
	default:
		l.Words = l.Words[:0]
		r.body = &textBody{Lines: l}
	}
	for _, e := range h.elements {
		if err := r.element(e); err != nil {
			return mesh.Model{}, r.body.within(err)
		}
	}
	return r.build.Model(), nil
}

// reader is a file under way.
type reader struct {
	body   body
	build  mesh.Builder
	flat   []geom.Point // of the vertices, if they have any
	values [][]float64  // of a row, by property
}

// element reads a table row by row.
func (r *reader) element(e element) error {
	if len(e.properties) == 0 {
		return nil
	}
	if e.count > r.body.room() {
		return fault.New(fault.Invalid, "there is no room for %d rows of %.40q", e.count, e.name).WithHint("Was the file copied to its end?")
	}
	row, err := r.taker(e)
	if err != nil {
		return err
	}
	r.values = make([][]float64, len(e.properties))
	for i := range e.count {
		for k, p := range e.properties {
			if r.values[k], err = r.property(p, r.values[k][:0]); err != nil {
				return fault.Within(err, fmt.Sprintf("%s %d", e.name, i))
			}
		}
		if err := row(); err != nil {
			return fault.Within(err, fmt.Sprintf("%s %d", e.name, i))
		}
	}
	return nil
}

func (r *reader) property(p property, into []float64) ([]float64, error) {
	n := 1
	if p.list {
		length, err := r.body.number(p.length)
		if err != nil {
			return nil, err
		}
		if length < 0 || length > float64(r.body.room()) || length != float64(int(length)) {
			return nil, fault.New(fault.Invalid, "a list of %g numbers has no room", length)
		}
		n = int(length)
	}
	for range n {
		x, err := r.body.number(p.kind)
		if err != nil {
			return nil, err
		}
		into = append(into, x)
	}
	return into, nil
}

// taker returns what is done with a row of an element.
func (r *reader) taker(e element) (func() error, error) {
	column := func(list bool, names ...string) int {
		return slices.IndexFunc(e.properties, func(p property) bool { return p.list == list && slices.Contains(names, p.name) })
	}
	switch e.name {
	case "vertex":
		x, y, z := column(false, "x"), column(false, "y"), column(false, "z")
		if x < 0 || y < 0 || z < 0 {
			return nil, fault.New(fault.Invalid, "the vertices have no x, y and z")
		}
		u, v := column(false, "u", "s", "texture_u"), column(false, "v", "t", "texture_v")
		return func() error { return r.vertex(x, y, z, u, v) }, r.build.Expect(e.count, 0)
	case "face":
		at := column(true, "vertex_indices", "vertex_index")
		if at < 0 {
			return nil, fault.New(fault.Invalid, "the faces have no list of vertices")
		}
		uv := column(true, "texcoord")
		return func() error { return r.face(at, uv) }, r.build.Expect(0, e.count)
	}
	return func() error {
		r.build.Leave("rows of other elements")
		return nil
	}, nil
}

func (r *reader) vertex(x, y, z, u, v int) error {
	if u >= 0 && v >= 0 {
		r.flat = append(r.flat, geom.Point{X: r.values[u][0], Y: r.values[v][0]})
	}
	return r.build.Point(mesh.Vec{X: r.values[x][0], Y: r.values[y][0], Z: r.values[z][0]})
}

func (r *reader) face(at, uv int) error {
	list := r.values[at]
	corners, flat := make([]int64, len(list)), make([]geom.Point, 0, len(list))
	for i, v := range list {
		if !(v >= 0 && v < float64(r.build.Points())) || v != float64(int64(v)) {
			return fault.New(fault.Invalid, "the face names point %g, counted from 0, of %d", v, r.build.Points())
		}
		corners[i] = int64(v)
		switch {
		case uv >= 0 && len(r.values[uv]) == 2*len(list):
			flat = append(flat, geom.Point{X: r.values[uv][2*i], Y: r.values[uv][2*i+1]})
		case int(v) < len(r.flat):
			flat = append(flat, r.flat[int(v)])
		}
	}
	if len(flat) != len(corners) {
		flat = nil
	}
	return r.build.Polygon(corners, flat)
}
