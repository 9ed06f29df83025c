package nest

import (
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// area is a polygon on the grid: every edge has the inside to its left.
type area struct {
	edges    *geom.GridEdges
	starts   []int // of the rings in the list of edges, and its length
	min, max geom.GridPoint
	centroid geom.Point // of the outer ring, in the problem's unit
}

// place puts every copy where it lies.
func (c *checker) place() error {
	size := 0.0
	measure := func(b geom.Box) {
		size = max(size, math.Abs(b.Min.X), math.Abs(b.Min.Y), math.Abs(b.Max.X), math.Abs(b.Max.Y))
	}
	for _, m := range c.p.Containers {
		measure(geom.Box{Max: geom.Point{X: m.Height, Y: m.Height}}.Union(m.Outline.Bounds()))
	}
	moved := make([]geom.Polygon, len(c.placements))
	for i, at := range c.placements {
		moved[i] = at.Lay(c.p.Pieces[at.Piece].Shape)
		b := moved[i].Bounds()
		if !(b.Min.X >= -farthest && b.Min.Y >= -farthest && b.Max.X <= farthest && b.Max.Y <= farthest) {
			return c.wrong(i, "it lies at %g, %g: coordinates go to %g", at.X, at.Y, farthest)
		}
		measure(b)
		c.length = max(c.length, b.Max.X+c.p.Containers[at.Container].Margin)
	}
	c.perUnit = 2e6
	for size > 0 && size*c.perUnit < 2e6 && c.perUnit < 1e30 {
		c.perUnit *= 10
	}
	for i := range moved {
		a, err := c.area(moved[i])
		if err != nil {
			return fault.Within(err, c.name(i))
		}
		c.lying = append(c.lying, a)
	}
	return c.grounds()
}

// Lay returns a polygon of the piece where the placement puts it. Quarter
// turns are exact.
func (at Placement) Lay(p geom.Polygon) geom.Polygon {
	sin, cos := direction(at.Rotation)
	ring := func(r []geom.Point) []geom.Point {
		out := make([]geom.Point, len(r))
		for i, q := range r {
			if at.Mirrored {
				q.X = -q.X
			}
			out[i] = geom.Point{X: float64(q.X*cos) - float64(q.Y*sin) + at.X, Y: float64(q.X*sin) + float64(q.Y*cos) + at.Y}
		}
		return out
	}
	out := geom.Polygon{Outer: ring(p.Outer)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, ring(h))
	}
	return out
}

// direction returns sine and cosine of degrees.
func direction(degrees float64) (sin, cos float64) {
	switch math.Mod(math.Mod(degrees, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// area puts a polygon on the grid.
func (c *checker) area(p geom.Polygon) (area, error) {
	a := area{starts: []int{0}, centroid: geom.Ring(p.Outer).Centroid()}
	var list []geom.GridEdge
	for k, ring := range p.Rings() {
		if (geom.RingArea(ring) < 0) != (k > 0) {
			ring = slices.Clone(ring)
			slices.Reverse(ring)
		}
		list = append(list, c.snapped(ring)...)
		if len(list)-a.starts[k] < 3 {
			return a, errThin
		}
		a.starts = append(a.starts, len(list))
	}
	a.min, a.max = list[0].A, list[0].A
	for _, e := range list {
		a.min = geom.GridPoint{X: min(a.min.X, e.A.X), Y: min(a.min.Y, e.A.Y)}
		a.max = geom.GridPoint{X: max(a.max.X, e.A.X), Y: max(a.max.Y, e.A.Y)}
	}
	a.edges = geom.NewGridEdges(list)
	return a, nil
}

// snapped rounds a ring to even coordinates, and drops edges without length.
func (c *checker) snapped(ring []geom.Point) []geom.GridEdge {
	var points []geom.GridPoint
	for _, q := range ring {
		g := q.Snap(c.perUnit / 2)
		g.X, g.Y = 2*g.X, 2*g.Y
		if n := len(points); n == 0 || points[n-1] != g {
			points = append(points, g)
		}
	}
	for len(points) > 1 && points[len(points)-1] == points[0] {
		points = points[:len(points)-1]
	}
	list := make([]geom.GridEdge, len(points))
	for i, g := range points {
		list[i] = geom.GridEdge{A: g, B: points[(i+1)%len(points)]}
	}
	return list
}

// apart says how far the boxes of two areas are apart along the axis where
// that is most; below zero where they overlap.
func (a *area) apart(b *area) int64 {
	return max(a.min.X-b.max.X, b.min.X-a.max.X, a.min.Y-b.max.Y, b.min.Y-a.max.Y)
}
