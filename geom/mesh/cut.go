package mesh

import (
	"fmt"
	"slices"

	"fettle/fault"
)

// Cut opens the mesh along paths of vertices, each step of which is an edge. A
// path may end at the rim, on another path, in the middle of the surface (a
// dart, whose tip stays one vertex) or where it began. Source gives the old
// vertex of each new one; vertices keep their index on one side of the cut, and
// those of the other side are added behind. Faces keep their order. Vertices
// that hold two fans of faces together by their tips alone are parted too.
//
// Errors are Invalid faults that name the path and the step, counted from 1.
func (m Mesh) Cut(paths [][]int32) (opened Mesh, source []int32, err error) {
	a := m.Adjacency()
	for i, path := range paths {
		if err := a.open(path); err != nil {
			return Mesh{}, nil, fault.Within(err, fmt.Sprintf("cut %d", i+1))
		}
	}
	opened, source = m.part(a)
	return opened, source, nil
}

// open takes the twins from all edges of a path.
func (a Adjacency) open(path []int32) error {
	if len(path) < 2 {
		return fault.New(fault.Invalid, "a cut runs along one edge or more, this one has %d vertices", len(path))
	}
	for _, v := range path {
		if v < 0 || int(v) >= len(a.first)-1 {
			return fault.New(fault.Invalid, "there is no vertex %d", v)
		}
	}
	for i, v := range path[1:] {
		u := path[i]
		h, g := a.Find(u, v), a.Find(v, u)
		if h == None && g == None {
			return fault.New(fault.Invalid, "no edge runs from vertex %d to vertex %d", u, v).At(fmt.Sprintf("step %d", i+1))
		}
		for _, h := range []int32{h, g} {
			if h != None && a.Twin[h] != None {
				a.Twin[a.Twin[h]], a.Twin[h] = None, None
			}
		}
	}
	return nil
}

// part gives every fan of faces around a vertex, from open edge to open edge, a
// vertex of its own.
func (m Mesh) part(a Adjacency) (Mesh, []int32) {
	out := Mesh{Points: slices.Clone(m.Points), Faces: make([]Face, len(m.Faces))}
	source := make([]int32, len(m.Points))
	for v := range source {
		source[v] = int32(v)
	}
	taken, done := make([]bool, len(m.Points)), make([]bool, len(a.Twin))
	for c, v := range a.Tail {
		if done[c] {
			continue
		}
		name := v
		if taken[v] {
			name = int32(len(source))
			source = append(source, v)
			out.Points = append(out.Points, m.Points[v])
		}
		taken[v] = true
		for h := a.fan(int32(c)); h != None && !done[h]; h = a.Twin[Prev(h)] {
			done[h] = true
			out.Faces[h/3][h%3] = name
		}
	}
	return out, source
}

// fan returns the corner at which the fan of corner c begins, going
// anticlockwise; any of them where the fan is closed.
func (a Adjacency) fan(c int32) int32 {
	for h := c; ; {
		t := a.Twin[h]
		if t == None {
			return h
		}
		if h = Next(t); h == c {
			return c
		}
	}
}
