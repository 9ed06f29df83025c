package geom

import (
	"cmp"
	"math"
	"math/bits"
)

// GridPoint is a place on an integer grid. Coordinates of at most 2^60 in size
// keep every test below exact: differences fit an int64 and products 128 bits.
type GridPoint struct{ X, Y int64 }

// Snap returns the nearest point of a grid whose step is one part in perUnit.
func (p Point) Snap(perUnit float64) GridPoint {
	return GridPoint{int64(math.Round(p.X * perUnit)), int64(math.Round(p.Y * perUnit))}
}

// Point returns the place in the unit that a grid of perUnit steps was cut from.
func (p GridPoint) Point(perUnit float64) Point {
	return Point{float64(p.X) / perUnit, float64(p.Y) / perUnit}
}

// Side returns 1 where c lies to the left of the way from a to b, -1 to the
// right of it and 0 on its line, without rounding.
func Side(a, b, c GridPoint) int {
	return compareProducts(b.X-a.X, c.Y-a.Y, b.Y-a.Y, c.X-a.X)
}

// compareProducts returns the sign of p·q − r·s.
func compareProducts(p, q, r, s int64) int {
	hi, lo := product(p, q)
	hi2, lo2 := product(r, s)
	if c := cmp.Compare(hi, hi2); c != 0 {
		return c
	}
	return cmp.Compare(lo, lo2)
}

// product returns a·b as a signed number of 128 bits.
func product(a, b int64) (hi int64, lo uint64) {
	h, lo := bits.Mul64(uint64(a), uint64(b))
	return int64(h) - (a>>63)&b - (b>>63)&a, lo
}

// GridEdge is a straight piece of a polygon's edge, from A to B.
type GridEdge struct{ A, B GridPoint }

// Holds says whether p lies on the edge, its ends included.
func (e GridEdge) Holds(p GridPoint) bool {
	return min(e.A.X, e.B.X) <= p.X && p.X <= max(e.A.X, e.B.X) &&
		min(e.A.Y, e.B.Y) <= p.Y && p.Y <= max(e.A.Y, e.B.Y) && Side(e.A, e.B, p) == 0
}

// Crosses says whether the edges cross at a point inside both: not at an end
// of either, and not along a common line.
func (e GridEdge) Crosses(f GridEdge) bool {
	return Side(e.A, e.B, f.A)*Side(e.A, e.B, f.B) < 0 && Side(f.A, f.B, e.A)*Side(f.A, f.B, e.B) < 0
}

// Meets says whether the edges have any point in common.
func (e GridEdge) Meets(f GridEdge) bool {
	return e.Crosses(f) || e.Holds(f.A) || e.Holds(f.B) || f.Holds(e.A) || f.Holds(e.B)
}

// Along says whether the edges run the same way: 1, or opposite ways: -1, by
// the sign of the product of their directions.
func (e GridEdge) Along(f GridEdge) int {
	return compareProducts(e.B.X-e.A.X, f.B.X-f.A.X, e.A.Y-e.B.Y, f.B.Y-f.A.Y)
}

// Distance returns how far apart the edges are, in steps of the grid, to
// within the rounding of a float64; zero only where they meet.
func (e GridEdge) Distance(f GridEdge) float64 {
	if e.Meets(f) {
		return 0
	}
	return min(e.from(f.A), e.from(f.B), f.from(e.A), f.from(e.B))
}

// from is the distance of a point. Differences are taken before the
// coordinates become floats, so none of their figures are lost.
func (e GridEdge) from(p GridPoint) float64 {
	return toSegment(Point{}, e.A.sub(p), e.B.sub(p))
}

func (p GridPoint) sub(q GridPoint) Point { return Point{float64(p.X - q.X), float64(p.Y - q.Y)} }
