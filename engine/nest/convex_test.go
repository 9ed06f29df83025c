package nest

import (
	"math"
	"testing"

	"fettle/geom"
)

func ringXY(xy ...float64) []geom.Point {
	var r []geom.Point
	for i := 0; i < len(xy); i += 2 {
		r = append(r, geom.Point{X: xy[i], Y: xy[i+1]})
	}
	return r
}

func TestConvexParts(t *testing.T) {
	square := ringXY(0, 0, 9, 0, 9, 9, 0, 9)
	for _, c := range []struct {
		name string
		p    geom.Polygon
		most int
	}{
		{"a square", geom.Polygon{Outer: square}, 1},
		{"an ell, clockwise", geom.Polygon{Outer: ringXY(0, 2, 1, 2, 1, 1, 2, 1, 2, 0, 0, 0)}, 2},
		{"a frame", geom.Polygon{Outer: square, Holes: [][]geom.Point{ringXY(3, 3, 6, 3, 6, 6, 3, 6)}}, 6},
		{"two holes", geom.Polygon{Outer: square, Holes: [][]geom.Point{ringXY(1, 1, 2, 1, 2, 8), ringXY(4, 4, 7, 5, 6, 8)}}, 12},
		{"a comb", geom.Polygon{Outer: ringXY(0, 0, 9, 0, 9, 5, 8, 1, 7, 5, 6, 1, 5, 5, 4, 1, 3, 5, 2, 1, 1, 5)}, 12},
	} {
		parts := convexParts(c.p)
		sum := 0.0
		for _, q := range parts {
			sum += geom.RingArea(q)
			if !convex(q) {
				t.Errorf("%s: a part is not convex: %v", c.name, q)
			}
		}
		if math.Abs(sum-c.p.Area()) > 1e-9 || len(parts) > c.most {
			t.Errorf("%s: %d parts of area %g, want at most %d of %g", c.name, len(parts), sum, c.most, c.p.Area())
		}
	}
}
