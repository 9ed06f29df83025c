package geom

import "math"

// Point is a place in the plane, or a step between two places.
type Point struct{ X, Y float64 }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the step from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Scale returns p with both coordinates multiplied by k.
func (p Point) Scale(k float64) Point { return Point{p.X * k, p.Y * k} }

// Distance returns how far apart p and q are.
func (p Point) Distance(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Cross returns the z part of the cross product of two steps: positive when
// q turns anticlockwise from p in axes with y up.
func (p Point) Cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// lerp returns the point a share t of the way from p to q.
func (p Point) lerp(q Point, t float64) Point {
	return Point{p.X + float64(t*(q.X-p.X)), p.Y + float64(t*(q.Y-p.Y))}
}

// Box is an upright rectangle with Min at or below Max on both axes. The
// zero value is the single point at the origin.
type Box struct{ Min, Max Point }

// Width returns the extent along x.
func (b Box) Width() float64 { return b.Max.X - b.Min.X }

// Height returns the extent along y.
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Union returns the smallest box around both.
func (b Box) Union(c Box) Box {
	return Box{
		Point{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)},
		Point{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)},
	}
}

// Grow returns the box with every side moved outwards by d.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Contains says whether p lies in the box or on its edge.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

func (b Box) with(p Point) Box { return b.Union(Box{p, p}) }
