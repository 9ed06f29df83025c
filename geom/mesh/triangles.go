package mesh

import (
	"math"
	"slices"
)

// through reports whether two faces that share no edge have more in common than
// touching.
func (m Mesh) through(f, g int32) bool {
	a, b := m.Faces[f], m.Faces[g]
	shared := 0
	for _, v := range a {
		if slices.Contains(b[:], v) {
			shared++
		}
	}
	if shared > 1 {
		return false
	}
	var p, q [3]Vec
	for k := range 3 {
		p[k], q[k] = m.Points[a[k]], m.Points[b[k]]
	}
	var s, t [3]int // sides of the corners of each on the plane of the other
	for k := range 3 {
		s[k], t[k] = side(q[0], q[1], q[2], p[k]), side(p[0], p[1], p[2], q[k])
	}
	if s == [3]int{} && t == [3]int{} {
		return lieOn(p, q)
	}
	for k := range 3 {
		if l := (k + 1) % 3; s[k]*s[l] < 0 && pierces(p[k], p[l], q) || t[k]*t[l] < 0 && pierces(q[k], q[l], p) {
			return true
		}
	}
	return false
}

// pierces reports whether the line from a to b, whose ends lie on either side of
// a triangle's plane, runs through the inside of the triangle.
func pierces(a, b Vec, t [3]Vec) bool {
	u, v, w := side(a, b, t[0], t[1]), side(a, b, t[1], t[2]), side(a, b, t[2], t[0])
	return u != 0 && u == v && v == w
}

// side reports on which side of the plane of a, b, c place d lies: 1, -1, or 0 on
// it as far as can be told. The bound is that of the rounding of this determinant
// [Shewchuk1997].
func side(a, b, c, d Vec) int {
	a, b, c = a.Sub(d), b.Sub(d), c.Sub(d)
	bc, cb := float64(b.X*c.Y), float64(c.X*b.Y)
	ca, ac := float64(c.X*a.Y), float64(a.X*c.Y)
	ab, ba := float64(a.X*b.Y), float64(b.X*a.Y)
	det := float64(a.Z*(bc-cb)) + float64(b.Z*(ca-ac)) + float64(c.Z*(ab-ba))
	size := (math.Abs(bc)+math.Abs(cb))*math.Abs(a.Z) + (math.Abs(ca)+math.Abs(ac))*math.Abs(b.Z) + (math.Abs(ab)+math.Abs(ba))*math.Abs(c.Z)
	switch bound := 8e-16 * size; {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	return 0
}

// lieOn reports whether two triangles in one plane have an area in common: their
// shadows along the axis that is nearest to upright on them do.
func lieOn(p, q [3]Vec) bool {
	n := p[1].Sub(p[0]).Cross(p[2].Sub(p[0]))
	drop := func(v Vec) [2]float64 { return [2]float64{v.X, v.Y} }
	if x, y, z := math.Abs(n.X), math.Abs(n.Y), math.Abs(n.Z); x >= y && x >= z {
		drop = func(v Vec) [2]float64 { return [2]float64{v.Y, v.Z} }
	} else if y >= z {
		drop = func(v Vec) [2]float64 { return [2]float64{v.Z, v.X} }
	}
	var a, b [3][2]float64
	for k := range 3 {
		a[k], b[k] = drop(p[k]), drop(q[k])
	}
	return !apart(a, b) && !apart(b, a)
}

// apart reports whether a side of a, or its whole, has all of b behind it, but
// for a rounding.
func apart(a, b [3][2]float64) bool {
	turn := func(u, v, w [2]float64) float64 {
		return float64((v[0]-u[0])*(w[1]-u[1])) - float64((v[1]-u[1])*(w[0]-u[0]))
	}
	area := turn(a[0], a[1], a[2])
	for k := range 3 {
		most := math.Inf(-1)
		for _, w := range b {
			most = max(most, turn(a[k], a[(k+1)%3], w)*math.Copysign(1, area))
		}
		if most <= 1e-9*math.Abs(area) {
			return true
		}
	}
	return area == 0
}
