package flatten

import (
	"slices"

	"fettle/fault"
	"fettle/geom/mesh"
)

// disc is a surface opened so that it can be laid flat: one piece without a
// handle, whose rim is one ring; what holes are left in it stay open.
type disc struct {
	surface mesh.Mesh
	mesh    mesh.Mesh
	source  []int32 // by vertex: the vertex of the surface it came from
	cuts    [][]int32
	near    mesh.Adjacency
	border  border
}

// open cuts a surface along the paths asked for, then, where it is closed or has
// handles, along what more it takes to make it a disc, and drops vertices
// without faces. Holes of a surface without handles stay.
func open(p Problem) (*disc, error) {
	if len(p.Surface.Faces) == 0 {
		return nil, fault.New(fault.Invalid, "the surface has no faces")
	}
	if err := sound(p.Surface); err != nil {
		return nil, err
	}
	d, err := cutAlong(p.Surface, p.Cuts)
	if err != nil {
		return nil, err
	}
	if len(d.near.Tangled) > 0 {
		h := d.near.Tangled[0]
		return nil, fault.New(fault.Invalid, "at the edge from vertex %d to %d more than two faces meet, or two that face opposite ways", d.source[d.near.Tail[h]], d.source[d.near.Head(h)]).
			WithHint("repair the surface first")
	}
	if label, n := d.near.Components(); n > 1 {
		other := slices.Index(label, 1)
		return nil, fault.New(fault.Invalid, "the surface is in %d pieces; face %d does not hang together with face 0", n, other).
			WithHint("lay each piece flat by itself")
	}
	return d.cutMore(toDisc(d.mesh, d.near))
}

// cutAlong opens a surface along paths, all at once, so that the same cuts
// always number its vertices alike.
func cutAlong(surface mesh.Mesh, cuts [][]int32) (*disc, error) {
	m, source, err := surface.Cut(cuts)
	if err != nil {
		return nil, err
	}
	d := &disc{surface: surface, mesh: m, source: source, cuts: slices.Clone(cuts)}
	d.drop()
	d.near = d.mesh.Adjacency()
	return d, nil
}

// cutMore opens a disc along paths of its own vertices besides, and finds its
// border.
func (d *disc) cutMore(paths [][]int32) (*disc, error) {
	if len(paths) > 0 {
		cuts := slices.Clone(d.cuts)
		for _, path := range paths {
			cuts = append(cuts, through(path, d.source))
		}
		next, err := cutAlong(d.surface, cuts)
		if err != nil {
			return nil, fault.Wrap(fault.Internal, err, "cutting the surface to a disc")
		}
		d = next
	}
	d.border = borderOf(d.mesh, d.near)
	if n := len(d.border.rings); n == 0 || d.near.Euler() != 2-n {
		return nil, fault.New(fault.Internal, "the cuts leave %d open edges and Euler's number %d, which is no disc with holes", n, d.near.Euler())
	}
	return d, nil
}

// join cuts from some of a disc's holes to its rim.
func (d *disc) join(holes [][]int32) (*disc, error) {
	cut := newSlits(d.mesh, d.near)
	cut.join(d.border.rim(), holes, d.border.holes())
	return d.cutMore(cut.paths())
}

// as is the problem whose cuts are all that were made for a result.
func (p Problem) as(r Result) Problem {
	p.Cuts = append(slices.Clone(p.Cuts), r.Cuts...)
	return p
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
	all := make([]int32, len(d.mesh.Faces))
	for i := range all {
		all[i] = int32(i)
	}
	m, of := d.mesh.Only(all)
	d.mesh, d.source = m, through(of, d.source)
}
