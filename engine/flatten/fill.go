package flatten

import (
	"fettle/geom/mesh"
)

// leastFill is the least height of a face that fills a hole, over its first side.
const leastFill = 0.05

// filling is a sheet whose holes are closed for the time of finding a start. A
// hole whose middle sees all of its edge is closed by a fan of faces around a
// vertex there, behind all others; a crooked one by faces between its corners.
// They only have to keep the hole open: where they have all but no height they
// are made higher than they are.
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
	m := mesh.Mesh{Points: append([]mesh.Vec(nil), d.mesh.Points...), Faces: append([]mesh.Face(nil), d.mesh.Faces...)}
	for _, hole := range holes {
		middle := middleOf(d.mesh, hole)
		if !sees(d.mesh, middle, hole) {
			if faces := span(d.mesh, d.near, hole); faces != nil {
				m.Faces = append(m.Faces, faces...)
				continue
			}
		}
		for k, v := range hole {
			m.Faces = append(m.Faces, mesh.Face{hole[(k+1)%len(hole)], v, int32(len(m.Points))})
		}
		m.Points = append(m.Points, middle)
	}
	full := sheet{vertices: len(m.Points), faces: m.Faces, area: s.area, rest: append([]rest(nil), s.rest...)}
	for i := len(s.faces); i < len(m.Faces); i++ {
		r := shape(&m.Faces[i], m)
		full.rest = append(full.rest, r)
		full.area += r.Area
	}
	return filling{&full, m.Adjacency(), d.border.rim()}
}

// middleOf returns the centre of an edge all the way round.
func middleOf(m mesh.Mesh, ring []int32) (middle mesh.Vec) {
	long := m.LoopLength(ring)
	for i, v := range ring {
		next := ring[(i+1)%len(ring)]
		share := m.EdgeLength(v, next) / (2 * long)
		a, b := m.Points[v], m.Points[next]
		middle.X += float64(share * (a.X + b.X))
		middle.Y += float64(share * (a.Y + b.Y))
		middle.Z += float64(share * (a.Z + b.Z))
	}
	return middle
}

// sees says whether all sides of a ring run the same way round its middle.
func sees(m mesh.Mesh, middle mesh.Vec, ring []int32) bool {
	turn := func(i int) mesh.Vec {
		return m.Points[ring[i]].Sub(middle).Cross(m.Points[ring[(i+1)%len(ring)]].Sub(middle))
	}
	var all mesh.Vec
	for i := range ring {
		all = all.Add(turn(i))
	}
	for i := range ring {
		if !(turn(i).Dot(all) > 0) {
			return false
		}
	}
	return true
}

// shape returns the shape of a face that fills a hole, and turns the face so that
// its shortest side is its first.
func shape(f *mesh.Face, m mesh.Mesh) rest {
	for range 2 {
		if m.EdgeLength(f[1], f[2]) < m.EdgeLength(f[0], f[1]) || m.EdgeLength(f[2], f[0]) < m.EdgeLength(f[0], f[1]) {
			*f = mesh.Face{f[1], f[2], f[0]}
		}
	}
	u, v := m.Points[f[1]].Sub(m.Points[f[0]]), m.Points[f[2]].Sub(m.Points[f[0]])
	long := u.Length()
	x, y := u.Dot(v)/long, max(u.Cross(v).Length()/long, leastFill*long)
	return rest{A: 1 / long, B: -x / float64(long*y), C: 1 / y, Area: float64(long*y) / 2}
}
