package overlay

import (
	"cmp"
	"math"
	"slices"

	lib "github.com/peterstace/simplefeatures/geom"

	"fettle/fault"
	"fettle/geom"
)

// area is a set of polygons apart from one another, as the library has it.
// The zero value is no area.
type area struct{ lib.Geometry }

func areasOf(list []geom.Polygon) []area {
	out := make([]area, len(list))
	for i, p := range list {
		out[i] = areaOf(p)
	}
	return out
}

func areaOf(p geom.Polygon) area {
	var rings []lib.LineString
	for _, r := range p.Rings() {
		flat := make([]float64, 0, 2*len(r)+2)
		for i := range len(r) + 1 {
			q := r[i%len(r)]
			flat = append(flat, q.X, q.Y)
		}
		rings = append(rings, lib.NewLineString(lib.NewSequence(flat, lib.DimXY)))
	}
	return area{lib.NewPolygon(rings).AsGeometry()}
}

// or unites two areas. The library's way to unite many at once leaves false
// holes; its way for two does not.
func (a area) or(b area) (area, error) {
	if a.IsEmpty() {
		return b, nil
	}
	if b.IsEmpty() {
		return a, nil
	}
	return overlaid(lib.Union(a.Geometry, b.Geometry))
}

func (a area) and(b area) (area, error) { return overlaid(lib.Intersection(a.Geometry, b.Geometry)) }

func (a area) without(b area) (area, error) {
	if b.IsEmpty() {
		return a, nil
	}
	return overlaid(lib.Difference(a.Geometry, b.Geometry))
}

func overlaid(g lib.Geometry, err error) (area, error) {
	if err != nil {
		return area{}, &fault.Fault{Kind: fault.Internal, Msg: "the polygons cannot be overlaid: " + err.Error(), Cause: err}
	}
	return area{g}, nil
}

// polygons returns the parts with an area, in their order.
func (a area) polygons() (out []geom.Polygon) {
	for _, g := range a.Dump() {
		one, ok := g.AsPolygon()
		if !ok {
			continue // where areas touch they have lines and points in common
		}
		p := geom.Polygon{Outer: ring(one.ExteriorRing(), false)}
		for i := range one.NumInteriorRings() {
			p.Holes = append(p.Holes, ring(one.InteriorRingN(i), true))
		}
		slices.SortFunc(p.Holes, order)
		out = append(out, p)
	}
	slices.SortFunc(out, func(a, b geom.Polygon) int { return order(a.Outer, b.Outer) })
	return out
}

// ring returns a ring of the library as it leaves this package.
func ring(line lib.LineString, hole bool) []geom.Point {
	s := line.Coordinates()
	r := make(geom.Ring, s.Length())
	for i := range r {
		at := s.GetXY(i)
		r[i] = geom.Point{X: at.X, Y: at.Y}
	}
	if r = r.Tidy(); (geom.RingArea(r) < 0) != hole {
		slices.Reverse(r)
	}
	first := 0
	for i, q := range r {
		if before(q, r[first]) < 0 {
			first = i
		}
	}
	return slices.Concat(r[first:], r[:first])
}

func before(p, q geom.Point) int { return cmp.Or(cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X)) }

// order is that of the first corners, then of the areas.
func order(a, b []geom.Point) int {
	return cmp.Or(before(a[0], b[0]), cmp.Compare(math.Abs(geom.RingArea(b)), math.Abs(geom.RingArea(a))))
}
