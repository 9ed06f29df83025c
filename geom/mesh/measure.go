package mesh

import "math"

// Area returns the surface of all faces.
func (m Mesh) Area() float64 {
	var sum float64
	for f := range m.Faces {
		sum += m.FaceArea(f)
	}
	return sum
}

// FaceArea returns the surface of one face.
func (m Mesh) FaceArea(f int) float64 { return m.cross(f).Length() / 2 }

// FaceAreas returns the surface of each face.
func (m Mesh) FaceAreas() []float64 {
	list := make([]float64, len(m.Faces))
	for f := range list {
		list[f] = m.FaceArea(f)
	}
	return list
}

// FaceNormal returns the unit step out of a face, nothing for one without area.
func (m Mesh) FaceNormal(f int) Vec { return m.cross(f).unit() }

// cross is twice the area of a face, along its normal.
func (m Mesh) cross(f int) Vec {
	a, b, c := m.corners(f)
	return b.Sub(a).Cross(c.Sub(a))
}

func (m Mesh) corners(f int) (a, b, c Vec) {
	face := m.Faces[f]
	return m.Points[face[0]], m.Points[face[1]], m.Points[face[2]]
}

func (v Vec) unit() Vec {
	if n := v.Length(); n > 0 {
		return v.Scale(1 / n)
	}
	return Vec{}
}

// Angles returns the angle at each corner 3f+k in radians, 0 where a side has no
// length.
func (m Mesh) Angles() []float64 {
	list := make([]float64, 3*len(m.Faces))
	for f := range m.Faces {
		a, b, c := m.corners(f)
		p := [3]Vec{a, b, c}
		for k := range 3 {
			u, w := p[(k+1)%3].Sub(p[k]), p[(k+2)%3].Sub(p[k])
			list[3*f+k] = math.Atan2(u.Cross(w).Length(), u.Dot(w))
		}
	}
	return list
}

// VertexNormals returns unit steps out of the surface: the normals of the faces
// around, weighted by their angle there [Thuermer1998], so that
// how a surface is cut into triangles does not tilt them. Vertices out of use
// have none.
func (m Mesh) VertexNormals() []Vec {
	list, angles := make([]Vec, len(m.Points)), m.Angles()
	for f, face := range m.Faces {
		n := m.FaceNormal(f)
		for k, v := range face {
			list[v] = list[v].Add(n.Scale(angles[3*f+k]))
		}
	}
	for v := range list {
		list[v] = list[v].unit()
	}
	return list
}

// Volume returns what a closed mesh holds, negative where it is inside out.
func (m Mesh) Volume() float64 {
	if len(m.Faces) == 0 {
		return 0
	}
	var sum float64
	o := m.Points[m.Faces[0][0]]
	for f := range m.Faces {
		a, b, c := m.corners(f)
		sum += a.Sub(o).Dot(b.Sub(o).Cross(c.Sub(o)))
	}
	return sum / 6
}

// Box returns the corners of the smallest upright box around the faces; both
// are the origin for a mesh without any.
func (m Mesh) Box() (lo, hi Vec) {
	if len(m.Faces) == 0 {
		return Vec{}, Vec{}
	}
	lo = Vec{math.Inf(1), math.Inf(1), math.Inf(1)}
	hi = lo.Scale(-1)
	for _, f := range m.Faces {
		for _, v := range f {
			p := m.Points[v]
			lo, hi = lo.least(p), hi.most(p)
		}
	}
	return lo, hi
}

func (v Vec) least(w Vec) Vec { return Vec{min(v.X, w.X), min(v.Y, w.Y), min(v.Z, w.Z)} }
func (v Vec) most(w Vec) Vec  { return Vec{max(v.X, w.X), max(v.Y, w.Y), max(v.Z, w.Z)} }
