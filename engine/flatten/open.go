package flatten

import (
	"slices"

	"fettle/fault"
	"fettle/geom/mesh"
)

// disc is a surface opened to a disc: one piece, one boundary, no handle.
type disc struct {
	mesh     mesh.Mesh
	source   []int32 // by vertex: the vertex of the surface it came from
	cuts     [][]int32
	near     mesh.Adjacency
	boundary []int32 // anticlockwise
}

// open cuts a surface along the paths asked for, then along what more it takes
// to make it a disc, and drops vertices without faces.
func open(p Problem) (*disc, error) {
	if len(p.Surface.Faces) == 0 {
		return nil, fault.New(fault.Invalid, "the surface has no faces")
	}
	if err := sound(p.Surface); err != nil {
		return nil, err
	}
	m, source, err := p.Surface.Cut(p.Cuts)
	if err != nil {
		return nil, err
	}
	a := m.Adjacency()
	if len(a.Tangled) > 0 {
		h := a.Tangled[0]
		return nil, fault.New(fault.Invalid, "at the edge from vertex %d to %d more than two faces meet, or two that face opposite ways", source[a.Tail[h]], source[a.Head(h)]).
			WithHint("repair the surface first")
	}
	if label, n := a.Components(); n > 1 {
		other := slices.Index(label, 1)
		return nil, fault.New(fault.Invalid, "the surface is in %d pieces; face %d does not hang together with face 0", n, other).
			WithHint("lay each piece flat by itself")
	}
	cuts := slices.Clone(p.Cuts)
	if more := toDisc(m, a); len(more) > 0 {
		next, by, err := m.Cut(more)
		if err != nil {
			return nil, fault.Wrap(fault.Internal, err, "cutting the surface to a disc")
		}
		for _, path := range more {
			cuts = append(cuts, through(path, source))
		}
		m, source, a = next, through(by, source), next.Adjacency()
	}
	if loops := a.BoundaryLoops(); len(loops) != 1 || a.Euler() != 1 {
		return nil, fault.New(fault.Internal, "the cuts leave %d boundaries and Euler's number %d instead of a disc", len(loops), a.Euler())
	}
	d := &disc{mesh: m, source: source, cuts: cuts, near: a}
	d.drop()
	d.boundary = d.near.BoundaryLoops()[0]
	return d, nil
}

// sound refuses indices and places that are none.
func sound(m mesh.Mesh) error {
	for i, f := range m.Faces {
		for _, v := range f {
			if v < 0 || int(v) >= len(m.Points) {
				return fault.New(fault.Invalid, "face %d names vertex %d of %d", i, v, len(m.Points))
			}
		}
	}
	for v, p := range m.Points {
		if d := p.Sub(p); d != (mesh.Vec{}) {
			return fault.New(fault.Invalid, "vertex %d lies nowhere", v)
		}
	}
	return nil
}

// through looks up each vertex of a path.
func through(path, source []int32) []int32 {
	out := make([]int32, len(path))
	for i, v := range path {
		out[i] = source[v]
	}
	return out
}

// drop leaves out vertices that no face holds.
func (d *disc) drop() {
	used := make([]bool, len(d.mesh.Points))
	for _, f := range d.mesh.Faces {
		used[f[0]], used[f[1]], used[f[2]] = true, true, true
	}
	if !slices.Contains(used, false) {
		return
	}
	name := make([]int32, len(used))
	var points []mesh.Vec
	var source []int32
	for v, u := range used {
		if u {
			name[v] = int32(len(points))
			points, source = append(points, d.mesh.Points[v]), append(source, d.source[v])
		}
	}
	faces := make([]mesh.Face, len(d.mesh.Faces))
	for i, f := range d.mesh.Faces {
		faces[i] = mesh.Face{name[f[0]], name[f[1]], name[f[2]]}
	}
	d.mesh, d.source = mesh.Mesh{Points: points, Faces: faces}, source
	d.near = d.mesh.Adjacency()
}
