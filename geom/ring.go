package geom

import (
	"cmp"
	"math"
	"slices"

	"fettle/fault"
)

// Ring is the edge of a polygon: straight from each point to the next and from
// the last to the first, which is not said twice.
type Ring []Point

// MostPoints is how many points a ring may have.
const MostPoints = 1_000_000

// Tidy returns the ring without points that repeat the one before them, and
// without a last point that repeats the first.
func (r Ring) Tidy() Ring {
	out := make(Ring, 0, len(r))
	for _, p := range r {
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}

// Centroid returns the point at which the area balances; the first point for
// a ring without area.
func (r Ring) Centroid() Point {
	if len(r) == 0 {
		return Point{}
	}
	area := RingArea(r)
	if area == 0 {
		return r[0]
	}
	var m Point // area times the way from the first point to the centroid, triangle by triangle
	for i := 2; i < len(r); i++ {
		a, b := r[i-1].Sub(r[0]), r[i].Sub(r[0])
		m = m.Add(a.Add(b).Scale(a.Cross(b) / 6))
	}
	return r[0].Add(m.Scale(1 / area))
}

// Contains says whether q lies inside, by the non-zero rule; on the edge the
// answer may be either.
func (r Ring) Contains(q Point) bool { return windingOf(r, q) != 0 }

// Reversed returns the ring the other way round.
func (r Ring) Reversed() Ring {
	out := slices.Clone(r)
	slices.Reverse(out)
	return out
}

// Distance returns how far q is from the edge, inside or outside; infinite for
// no ring.
func (r Ring) Distance(q Point) float64 {
	best := math.Inf(1)
	for i, p := range r {
		best = min(best, toSegment(q, p, r[(i+1)%len(r)]))
	}
	return best
}

// Hull returns the convex hull, anticlockwise, without points along its sides
// (Andrew, Inf. Proc. Letters 9, 1979). Fewer than three points come back for
// points on one line.
func Hull(points []Point) Ring {
	p := slices.Clone(points)
	slices.SortFunc(p, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	lower := halfHull(p)
	slices.Reverse(p)
	upper := halfHull(p)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

// halfHull keeps the points at which the way along p turns left.
func halfHull(p []Point) Ring {
	var out Ring
	for _, q := range p {
		for n := len(out); n >= 2 && out[n-1].Sub(out[n-2]).Cross(q.Sub(out[n-1])) <= 0; n = len(out) {
			out = out[:n-1]
		}
		out = append(out, q)
	}
	return out
}

// SegmentDistance returns how far apart the straight pieces from a to b and
// from c to d are; zero where they cross.
func SegmentDistance(a, b, c, d Point) float64 {
	if Crossing(a, b, c, d) {
		return 0
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b))
}

// Crossing says whether the straight pieces from a to b and from c to d cross
// at a point inside both, as far as a float64 tells; GridEdge is exact.
func Crossing(a, b, c, d Point) bool {
	ab, cd := b.Sub(a), d.Sub(c)
	left := ab.Cross(c.Sub(a)) > 0
	right := ab.Cross(d.Sub(a)) > 0
	return left != right && (cd.Cross(a.Sub(c)) > 0) != (cd.Cross(b.Sub(c)) > 0)
}

// wrong is the fault of a ring, of kind Invalid.
func wrong(format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...)
}
