package mesh

import "slices"

// Affine moves places: three rows that give x, y and z of the result, each the
// factors of x, y, z and a step.
type Affine [3][4]float64

// Identity moves nothing.
var Identity = Affine{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}}

// Scaling stretches by k in all directions.
func Scaling(k float64) Affine { return Affine{{k, 0, 0, 0}, {0, k, 0, 0}, {0, 0, k, 0}} }

// Apply moves a place.
func (a Affine) Apply(p Vec) Vec {
	row := func(r [4]float64) float64 {
		return float64(r[0]*p.X) + float64(r[1]*p.Y) + float64(r[2]*p.Z) + r[3]
	}
	return Vec{row(a[0]), row(a[1]), row(a[2])}
}

// After returns the move that does b first, then a.
func (a Affine) After(b Affine) Affine {
	var out Affine
	for i := range 3 {
		for j := range 4 {
			for k := range 3 {
				out[i][j] += float64(a[i][k] * b[k][j])
			}
		}
		out[i][3] += a[i][3]
	}
	return out
}

// Mirrors reports whether left becomes right.
func (a Affine) Mirrors() bool {
	r := func(i int) Vec { return Vec{a[i][0], a[i][1], a[i][2]} }
	return r(0).Dot(r(1).Cross(r(2))) < 0
}

// Transform returns the mesh moved, its faces turned over where the move
// mirrors, so that outside stays outside.
func (m Mesh) Transform(a Affine) Mesh {
	out := Mesh{Points: make([]Vec, len(m.Points)), Faces: slices.Clone(m.Faces)}
	for i, p := range m.Points {
		out.Points[i] = a.Apply(p)
	}
	if a.Mirrors() {
		for f := range out.Faces {
			out.Faces[f] = out.Faces[f].Flip()
		}
	}
	return out
}

// Scale returns the mesh in another unit: k is how many of the new one go into
// the old.
func (m Mesh) Scale(k float64) Mesh { return m.Transform(Scaling(k)) }

// Flip returns the face seen from its other side.
func (f Face) Flip() Face { return Face{f[0], f[2], f[1]} }
