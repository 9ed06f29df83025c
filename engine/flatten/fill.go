package flatten

import "fettle/geom/mesh"

// leastFill is the least height of a face that fills a hole, over its side on
// the hole's edge.
const leastFill = 0.05

// filling is a sheet whose holes are closed for the time of finding a start: each
// by a fan of faces around a vertex of its own, behind all others, in the middle
// of the hole's edge. Its faces only have to keep the hole open, so where the
// middle lies beside a side they are made higher than they are.
type filling struct {
	sheet *sheet
	near  mesh.Adjacency
	rim   []int32
}

// filled closes the holes of a disc whose sheet is s.
func (d *disc) filled(s *sheet) filling {
	holes := d.border.holes()
	if len(holes) == 0 {
		return filling{s, d.near, d.border.rim()}
	}
	full := sheet{vertices: s.vertices + len(holes), area: s.area}
	full.faces = append(full.faces, s.faces...)
	full.rest = append(full.rest, s.rest...)
	points := append([]mesh.Vec(nil), d.mesh.Points...)
	for i, hole := range holes {
		var middle mesh.Vec
		long := d.mesh.LoopLength(hole)
		for k, v := range hole {
			next := hole[(k+1)%len(hole)]
			a, b := points[v], points[next]
			middle = middle.Add(a.Add(b).Scale(d.mesh.EdgeLength(v, next) / (2 * long)))
		}
		points = append(points, middle)
		for k, v := range hole {
			r := fan(points[v], points[hole[(k+1)%len(hole)]], middle)
			full.faces = append(full.faces, mesh.Face{hole[(k+1)%len(hole)], v, int32(s.vertices + i)})
			full.rest = append(full.rest, r)
			full.area += r.Area
		}
	}
	return filling{&full, mesh.Mesh{Points: points, Faces: full.faces}.Adjacency(), d.border.rim()}
}

// fan returns the shape of a face from a side of a hole, from a to b, to its
// middle, the side taken from b to a.
func fan(a, b, middle mesh.Vec) rest {
	u, v := a.Sub(b), middle.Sub(b)
	long := u.Length()
	x, y := u.Dot(v)/long, max(u.Cross(v).Length()/long, leastFill*long)
	return rest{A: 1 / long, B: -x / float64(long*y), C: 1 / y, Area: float64(long*y) / 2}
}
