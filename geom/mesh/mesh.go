package mesh

import "math"

// Vec is a place in space, or a step between two places.
type Vec struct{ X, Y, Z float64 }

// Add returns v moved by w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns the step from w to v.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Scale returns v times k.
func (v Vec) Scale(k float64) Vec { return Vec{v.X * k, v.Y * k, v.Z * k} }

// Dot returns the scalar product.
func (v Vec) Dot(w Vec) float64 { return float64(v.X*w.X) + float64(v.Y*w.Y) + float64(v.Z*w.Z) }

// Cross returns the vector product.
func (v Vec) Cross(w Vec) Vec {
	return Vec{float64(v.Y*w.Z) - float64(v.Z*w.Y), float64(v.Z*w.X) - float64(v.X*w.Z), float64(v.X*w.Y) - float64(v.Y*w.X)}
}

// Length returns how long v is.
func (v Vec) Length() float64 { return math.Sqrt(v.Dot(v)) }

// Face is a triangle by the indices of its vertices, anticlockwise seen from
// outside.
type Face [3]int32

// Mesh is a surface of triangles.
type Mesh struct {
	Points []Vec
	Faces  []Face
}
