package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// Shapes with many corners are judged by simpler ones that hold them: notches
// are filled, and edges between two outer corners give way to the meeting
// place of their neighbours, while what is added stays below this share of the
// area [Gardeyn2024]. Layouts are accepted by the shapes as they were given.
const (
	simpleBy      = 0.001
	simpleCorners = 24 // shapes with no more stay as they are
)

// simplified returns a shape with fewer corners that holds the given one and
// lies in the same box.
func simplified(shape geom.Polygon) geom.Polygon {
	corners := 0
	for _, ring := range shape.Rings() {
		corners += len(ring)
	}
	if corners <= simpleCorners {
		return shape
	}
	spare := simpleBy * shape.Area()
	s := geom.Polygon{Outer: grown(shape.Outer, 1, shape.Bounds(), &spare)}
	for _, hole := range shape.Holes {
		s.Holes = append(s.Holes, grown(hole, -1, shape.Bounds(), &spare))
	}
	return s
}

// grown takes corners off a ring, the cheapest first, by adding to the side
// that is material. way is 1 for an outline and -1 for a hole.
func grown(ring []geom.Point, way float64, in geom.Box, spare *float64) []geom.Point {
	r := ringOf(ring, way)
	for len(r) > 4 {
		var list []cut
		for i := range r {
			if c, ok := r.cutAt(i, in); ok && c.area <= *spare {
				list = append(list, c)
			}
		}
		slices.SortStableFunc(list, func(a, b cut) int { return cmp.Compare(a.area, b.area) })
		i := slices.IndexFunc(list, r.free)
		if i < 0 {
			break
		}
		*spare -= list[i].area
		r = r.without(list[i])
	}
	return r
}

// material is a ring with its material to the left.
type material []geom.Point

func ringOf(ring []geom.Point, way float64) material {
	r := slices.Clone(ring)
	twice := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		twice += float64(p.X*q.Y) - float64(q.X*p.Y)
	}
	if twice*way < 0 {
		slices.Reverse(r)
	}
	return r
}

// cut is a way to have one corner less: corner at goes, or the edge from at to
// the next gives way to one new corner.
type cut struct {
	at   int
	edge bool
	to   geom.Point // of an edge
	area float64    // added
}

func (r material) corner(i int) geom.Point { return r[(i+len(r))%len(r)] }

// cutAt returns the way to have one corner less at i; ok is false where there
// is none that only adds.
func (r material) cutAt(i int, in geom.Box) (c cut, ok bool) {
	a, b, next, d := r.corner(i-1), r[i], r.corner(i+1), r.corner(i+2)
	turn := leftward(a, b, next)
	if turn <= 0 {
		return cut{at: i, area: -turn / 2}, true
	}
	if leftward(b, next, d) <= 0 {
		return cut{}, false
	}
	u, v := b.Sub(a), next.Sub(d)
	across := float64(u.X*v.Y) - float64(u.Y*v.X)
	if across <= 0 {
		return cut{}, false
	}
	w := d.Sub(a)
	t := (float64(w.X*v.Y) - float64(w.Y*v.X)) / across
	p := geom.Point{X: a.X + float64(t*u.X), Y: a.Y + float64(t*u.Y)}
	return cut{at: i, edge: true, to: p, area: math.Abs(leftward(b, p, next)) / 2}, t > 1 && in.Contains(p)
}

// leftward is twice the area of the triangle, more than 0 where it turns left.
func leftward(a, b, c geom.Point) float64 {
	return float64((b.X-a.X)*(c.Y-a.Y)) - float64((b.Y-a.Y)*(c.X-a.X))
}

// free says whether nothing else of the ring reaches into what a cut adds.
func (r material) free(c cut) bool {
	a, b, d := r.corner(c.at-1), r[c.at], r.corner(c.at+1)
	first, last := c.at-1, c.at+1 // corners of the triangle
	if c.edge {
		a, b, d = r[c.at], c.to, r.corner(c.at+1)
		first = c.at
	}
	n := len(r)
	for k := range n {
		if (k-first+n)%n <= last-first {
			continue
		}
		if p := r[k]; held(p, a, b, d) {
			return false
		}
		if q := r.corner(k + 1); c.edge && (k+1-first+n)%n > last-first && (cross(r[k], q, a, b) || cross(r[k], q, b, d)) {
			return false
		}
	}
	return true
}

// held says whether a place lies in a triangle or on its edge.
func held(p, a, b, c geom.Point) bool {
	x, y, z := leftward(a, b, p), leftward(b, c, p), leftward(c, a, p)
	return x >= 0 && y >= 0 && z >= 0 || x <= 0 && y <= 0 && z <= 0
}

// cross says whether two segments meet.
func cross(a, b, c, d geom.Point) bool {
	return leftward(a, b, c)*leftward(a, b, d) <= 0 && leftward(c, d, a)*leftward(c, d, b) <= 0
}

func (r material) without(c cut) material {
	r = slices.Clone(r)
	if c.edge {
		r[c.at] = c.to
		return slices.Delete(r, (c.at+1)%len(r), (c.at+1)%len(r)+1)
	}
	return slices.Delete(r, c.at, c.at+1)
}
