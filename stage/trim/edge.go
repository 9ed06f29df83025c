package trim

import (
	"math"

	"fettle/build"
	"fettle/geom"
)

// cutInside is the outline of a hide with its edge drawn in where it runs
// through a lesser zone, so that the margin there is SoftMargin. Where that
// would make the line cross itself, the edge is drawn in by less.
func cutInside(h build.Hide) geom.Polygon {
	whole := h.Outline.Polygon()
	for _, by := range []float64{SoftMargin - EdgeMargin, (SoftMargin - EdgeMargin) / 2} {
		if p := drawnIn(h, whole, by); p.Check() == nil {
			return p
		}
	}
	return whole
}

// drawnIn moves the corners that lie in lesser zones into the hide.
func drawnIn(h build.Hide, whole geom.Polygon, by float64) geom.Polygon {
	ring := whole.Outer
	side := 1.0 // the inside is on the left of an anticlockwise ring
	if geom.RingArea(ring) < 0 {
		side = -1
	}
	out := make([]geom.Point, len(ring))
	for i, q := range ring {
		out[i] = q
		if soft(h, q) {
			out[i] = q.Add(inward(ring[(i+len(ring)-1)%len(ring)], q, ring[(i+1)%len(ring)]).Scale(side * by))
		}
	}
	return geom.Polygon{Outer: out, Holes: whole.Holes}
}

func soft(h build.Hide, q geom.Point) bool {
	for _, z := range h.Zones {
		if Quality(z.Grade) < Quality("A") && z.Shape.Polygon().Contains(q) {
			return true
		}
	}
	return false
}

// inward is the unit step to the left at a corner, half way between its edges.
func inward(before, at, after geom.Point) geom.Point {
	n := left(at.Sub(before)).Add(left(after.Sub(at)))
	if length := math.Hypot(n.X, n.Y); length > 0 {
		return n.Scale(1 / length)
	}
	return geom.Point{}
}

func left(step geom.Point) geom.Point {
	length := math.Hypot(step.X, step.Y)
	if length == 0 {
		return geom.Point{}
	}
	return geom.Point{X: -step.Y / length, Y: step.X / length}
}
