package geom

import "math"

// Polygon is an area with straight edges: a ring and the rings cut out of it.
// No ring repeats its first point at its end, and either direction will do.
type Polygon struct {
	Outer []Point
	Holes [][]Point
}

// Rings returns the outer ring and then the holes.
func (p Polygon) Rings() [][]Point {
	return append([][]Point{p.Outer}, p.Holes...)
}

// Area returns the area inside the outer ring less that of the holes.
func (p Polygon) Area() float64 {
	a := math.Abs(RingArea(p.Outer))
	for _, h := range p.Holes {
		a -= math.Abs(RingArea(h))
	}
	return a
}

// Bounds returns the smallest upright box around the outer ring, the zero box
// where there is none.
func (p Polygon) Bounds() Box {
	if len(p.Outer) == 0 {
		return Box{}
	}
	box := Box{p.Outer[0], p.Outer[0]}
	for _, q := range p.Outer[1:] {
		box = box.with(q)
	}
	return box
}

// RingArea returns the signed area of a closed ring: positive when it runs
// anticlockwise in axes with y up.
func RingArea(ring []Point) float64 {
	if len(ring) < 3 {
		return 0
	}
	var sum float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += a.Sub(ring[0]).Cross(b.Sub(ring[0]))
	}
	return sum / 2
}

// Contains says whether q lies in the polygon, by the even-odd rule over all
// rings. On an edge either answer may come.
func (p Polygon) Contains(q Point) bool {
	in := crossings(p.Outer, q)
	for _, h := range p.Holes {
		in = in != crossings(h, q)
	}
	return in
}

// crossings says whether the ray from q towards +x meets the closed ring an
// odd number of times.
func crossings(ring []Point, q Point) bool {
	odd := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > q.Y) != (b.Y > q.Y) && (b.Sub(a).Cross(q.Sub(a)) > 0) == (b.Y > a.Y) {
			odd = !odd
		}
	}
	return odd
}

// Depth returns how far inside the polygon q lies: the distance to the
// nearest edge, negative outside.
func (p Polygon) Depth(q Point) float64 {
	d := toRing(q, p.Outer)
	for _, h := range p.Holes {
		d = min(d, toRing(q, h))
	}
	if p.Contains(q) {
		return d
	}
	return -d
}

func toRing(q Point, ring []Point) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		best = min(best, toSegment(q, a, ring[(i+1)%len(ring)]))
	}
	return best
}
