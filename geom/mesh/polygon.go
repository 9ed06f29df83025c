package mesh

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

const (
	mostCorners = 1000        // of one polygon
	mostTests   = 200_000_000 // of corners against ears in one mesh
)

// Polygon adds a face of three corners or more as triangles: four corners along
// the shorter diagonal that folds nothing over, more by clipping ears [Meisters1975]
// on the polygon's own plane. uv are the flat places of the corners, or nil. Errors are
// faults without a place.
func (b *Builder) Polygon(corners []int64, uv []geom.Point) error {
	if n := len(corners); n < 3 || n > mostCorners {
		return fault.New(fault.Invalid, "a face has %d corners: 3 to %d can be read", n, mostCorners)
	}
	for _, v := range corners {
		if v < 0 || v >= int64(b.Points()) {
			return fault.New(fault.Invalid, "a face names point %d, counted from 0, of %d", v, b.Points())
		}
	}
	p := make([]Vec, len(corners))
	for i, v := range corners {
		p[i] = b.model.Mesh.Points[v]
	}
	for _, t := range b.split(p) {
		var flat *[3]geom.Point
		if uv != nil {
			flat = &[3]geom.Point{uv[t[0]], uv[t[1]], uv[t[2]]}
		}
		if err := b.Face([3]int64{corners[t[0]], corners[t[1]], corners[t[2]]}, flat); err != nil {
			return err
		}
	}
	if b.tests > mostTests {
		return fault.New(fault.TooLarge, "the mesh has too many faces of many corners").WithHint("Save it as triangles.")
	}
	return nil
}

// split returns triangles by the numbers of the corners.
func (b *Builder) split(p []Vec) [][3]int {
	switch len(p) {
	case 3:
		return [][3]int{{0, 1, 2}}
	case 4:
		return splitFour(p)
	}
	return b.clipEars(flatten(p))
}

func splitFour(p []Vec) [][3]int {
	bend := func(a, b, c, d Vec) float64 { // of a-b-c and a-c-d
		n, m := b.Sub(a).Cross(c.Sub(a)), c.Sub(a).Cross(d.Sub(a))
		return n.unit().Dot(m.unit())
	}
	first, second := bend(p[0], p[1], p[2], p[3]), bend(p[1], p[2], p[3], p[0])
	shorter := p[0].Sub(p[2]).Length() <= p[1].Sub(p[3]).Length()
	if first > 0 && second > 0 && !shorter || second > 0 && first <= 0 {
		return [][3]int{{0, 1, 3}, {1, 2, 3}}
	}
	return [][3]int{{0, 1, 2}, {0, 2, 3}}
}

// flatten lays a polygon on the plane of its area (Newell), anticlockwise.
func flatten(p []Vec) []geom.Point {
	var n Vec
	for i, a := range p {
		n = n.Add(a.Sub(p[0]).Cross(p[(i+1)%len(p)].Sub(p[0])))
	}
	n = n.unit()
	axis := Vec{X: 1}
	if math.Abs(n.X) > 0.6 {
		axis = Vec{Y: 1}
	}
	u := axis.Sub(n.Scale(axis.Dot(n))).unit()
	v := n.Cross(u)
	flat := make([]geom.Point, len(p))
	for i, a := range p {
		d := a.Sub(p[0])
		flat[i] = geom.Point{X: d.Dot(u), Y: d.Dot(v)}
	}
	return flat
}

// clipEars cuts off corner after corner whose triangle holds no other corner. A
// polygon that crosses itself has a corner cut off all the same.
func (b *Builder) clipEars(p []geom.Point) [][3]int {
	left := make([]int, len(p))
	for i := range left {
		left[i] = i
	}
	var out [][3]int
	for at, tried := 0, 0; len(left) > 3; {
		n := len(left)
		i, j, k := left[(at+n-1)%n], left[at%n], left[(at+1)%n]
		if tried < n && !b.ear(p, left, i, j, k) {
			at, tried = (at+1)%n, tried+1
			continue
		}
		out = append(out, [3]int{i, j, k})
		left = append(left[:at%n], left[at%n+1:]...)
		at, tried = (at+1)%len(left), 0
	}
	return append(out, [3]int{left[0], left[1], left[2]})
}

func (b *Builder) ear(p []geom.Point, left []int, i, j, k int) bool {
	if turn(p[i], p[j], p[k]) <= 0 {
		return false
	}
	b.tests += len(left)
	for _, o := range left {
		if o != i && o != j && o != k &&
			turn(p[i], p[j], p[o]) >= 0 && turn(p[j], p[k], p[o]) >= 0 && turn(p[k], p[i], p[o]) >= 0 {
			return false
		}
	}
	return true
}

// turn is twice the area of a triangle, positive anticlockwise.
func turn(a, b, c geom.Point) float64 {
	return float64((b.X-a.X)*(c.Y-a.Y)) - float64((b.Y-a.Y)*(c.X-a.X))
}
