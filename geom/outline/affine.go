package outline

import (
	"math"

	"fettle/geom"
)

// Affine maps (x, y) to (A x + C y + E, B x + D y + F), the order of SVG's
// matrix().
type Affine struct{ A, B, C, D, E, F float64 }

// Identity changes nothing.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Scale multiplies x and y.
func Scale(x, y float64) Affine { return Affine{A: x, D: y} }

// Move shifts by a step.
func Move(by geom.Point) Affine { return Affine{1, 0, 0, 1, by.X, by.Y} }

// Turn rotates anticlockwise (with y up) about the origin; radians.
func Turn(angle float64) Affine {
	s, c := math.Sincos(angle)
	return Affine{A: c, B: s, C: -s, D: c}
}

// After returns the map that does n first, then m.
func (m Affine) After(n Affine) Affine {
	u, v, at := m.Step(geom.Point{X: n.A, Y: n.B}), m.Step(geom.Point{X: n.C, Y: n.D}), m.Point(geom.Point{X: n.E, Y: n.F})
	return Affine{u.X, u.Y, v.X, v.Y, at.X, at.Y}
}

// Point maps a place.
func (m Affine) Point(p geom.Point) geom.Point { return m.Step(p).Add(geom.Point{X: m.E, Y: m.F}) }

// Step maps a step between places: nothing is added.
func (m Affine) Step(p geom.Point) geom.Point {
	return geom.Point{X: float64(m.A*p.X) + float64(m.C*p.Y), Y: float64(m.B*p.X) + float64(m.D*p.Y)}
}
