package flatten

import (
	"math"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// rest is a face as it lies on the surface, laid in its own plane with its
// first corner at the origin and its second on the x axis: the inverse of the
// matrix whose columns are its two edges from there, [[A, B], [0, C]], and its
// area.
type rest struct{ A, B, C, Area float64 }

// sheet is a disc of faces that is to be laid flat: who the corners are and
// what shape each face has on the surface. Flat positions are kept apart, as a
// slice by vertex.
type sheet struct {
	vertices int
	faces    []mesh.Face
	rest     []rest
	area     float64
	fence    *fence // nil: the outline may cross itself
}

// thin is the height of a face over its longest side at which its shape drowns
// in rounding.
const thin = 1e-9

// newSheet measures the faces of a surface; one without area is a fault.
func newSheet(m mesh.Mesh) (*sheet, error) {
	s := &sheet{vertices: len(m.Points), faces: m.Faces, rest: make([]rest, len(m.Faces))}
	for i, f := range m.Faces {
		u, v := m.Points[f[1]].Sub(m.Points[f[0]]), m.Points[f[2]].Sub(m.Points[f[0]])
		long, twice := u.Length(), u.Cross(v).Length()
		r := rest{A: 1 / long, B: -u.Dot(v) / float64(long*twice), C: long / twice, Area: twice / 2}
		longest := max(u.Dot(u), v.Dot(v), u.Sub(v).Dot(u.Sub(v)))
		if !(twice > thin*longest) || math.IsInf(longest, 0) || math.IsInf(r.B, 0) || math.IsInf(r.C, 0) {
			return nil, fault.New(fault.Invalid, "face %d has no area that can be measured", i).WithHint("repair the surface first")
		}
		s.rest[i] = r
		s.area += r.Area
	}
	return s, nil
}

// jacobian returns how face i is mapped to the flat pattern. It is linear in
// the positions, so a step of all positions has a jacobian of its own.
func (s *sheet) jacobian(i int, at []geom.Point) jacobian {
	f, r := &s.faces[i], &s.rest[i]
	o, u, v := at[f[0]], at[f[1]], at[f[2]]
	ux, uy, vx, vy := u.X-o.X, u.Y-o.Y, v.X-o.X, v.Y-o.Y
	return jacobian{
		XX: float64(ux * r.A), XY: float64(ux*r.B) + float64(vx*r.C),
		YX: float64(uy * r.A), YY: float64(uy*r.B) + float64(vy*r.C),
	}
}

// total sums an energy over all faces, and the fence; +Inf where a face is
// turned over.
func (s *sheet) total(e energy, at []geom.Point) float64 {
	var sum float64
	for i := range s.faces {
		sum += float64(s.rest[i].Area * e.value(i, s.jacobian(i, at)))
	}
	if s.fence != nil && !math.IsInf(sum, 1) {
		sum += s.fence.value(at)
	}
	return sum
}

// flipped counts the faces that the flat positions turn over or flatten away.
func (s *sheet) flipped(at []geom.Point) int {
	var n int
	for i := range s.faces {
		if !(s.jacobian(i, at).det() > 0) {
			n++
		}
	}
	return n
}
