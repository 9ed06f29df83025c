package nest

import (
	"math"

	"fettle/geom"
)

// convexParts cuts a polygon into convex rings that run anticlockwise: holes
// are joined to the outer ring, ears are cut off, and what stays convex is put
// together again [HertelMehlhorn1983]. It is nil where the parts do not make up
// the whole, as with rings that touch themselves.
func convexParts(p geom.Polygon) [][]geom.Point {
	ring := ringOf(p.Outer, 1)
	holes := make([][]geom.Point, len(p.Holes))
	for i, h := range p.Holes {
		holes[i] = ringOf(h, -1)
	}
	for len(holes) > 0 {
		joined, i := join(ring, holes)
		if i < 0 {
			return nil
		}
		ring = joined
		holes = append(holes[:i:i], holes[i+1:]...)
	}
	parts := merged(ears(ring))
	sum := 0.0
	for _, q := range parts {
		sum += geom.RingArea(q)
	}
	if math.Abs(sum-p.Area()) > 1e-9*p.Area() {
		return nil
	}
	return parts
}

// join opens a hole into the ring over the shortest way that crosses nothing.
func join(ring []geom.Point, holes [][]geom.Point) (joined []geom.Point, hole int) {
	shortest, at, from := math.Inf(1), 0, 0
	hole = -1
	for k, h := range holes {
		for j, q := range h {
			for i, p := range ring {
				if d := p.Distance(q); d < shortest && !blocked(p, q, ring) && !blocked(p, q, holes...) {
					shortest, at, from, hole = d, i, j, k
				}
			}
		}
	}
	if hole < 0 {
		return nil, hole
	}
	joined = append(joined, ring[:at+1]...)
	joined = append(joined, holes[hole][from:]...)
	joined = append(joined, holes[hole][:from+1]...)
	return append(joined, ring[at:]...), hole
}

// blocked says whether the way from p to q meets an edge elsewhere than at its
// ends.
func blocked(p, q geom.Point, rings ...[]geom.Point) bool {
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if a != p && a != q && b != p && b != q && cross(a, b, p, q) {
				return true
			}
		}
	}
	return false
}

// ears cuts a ring into triangles.
func ears(ring []geom.Point) [][]geom.Point {
	var list [][]geom.Point
	r := append([]geom.Point{}, ring...)
	for i, idle := 0, 0; len(r) > 2 && idle < len(r); {
		n := len(r)
		i %= n
		a, b, c := r[(i+n-1)%n], r[i], r[(i+1)%n]
		turn := leftward(a, b, c)
		if turn > 0 && !isEar(r, a, b, c) || turn < 0 {
			i++
			idle++
			continue
		}
		if turn > 0 {
			list = append(list, []geom.Point{a, b, c})
		}
		r = append(r[:i:i], r[i+1:]...)
		idle = 0
	}
	return list
}

// isEar says whether no other corner of the ring lies in the triangle.
func isEar(r []geom.Point, a, b, c geom.Point) bool {
	for _, p := range r {
		if p != a && p != b && p != c && held(p, a, b, c) {
			return false
		}
	}
	return true
}

// merged puts convex parts together along a common edge while they stay convex.
func merged(parts [][]geom.Point) [][]geom.Point {
	for i := 0; i < len(parts); i++ {
		for j := i + 1; j < len(parts); j++ {
			if both := union(parts[i], parts[j]); both != nil {
				parts[i] = both
				parts = append(parts[:j:j], parts[j+1:]...)
				j = i
			}
		}
	}
	return parts
}

// union joins two convex rings along a common edge; nil where there is none or
// the whole would not be convex.
func union(p, q []geom.Point) []geom.Point {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			if c != b || q[(j+1)%len(q)] != a {
				continue
			}
			var r []geom.Point
			for k := range len(p) {
				r = append(r, p[(i+1+k)%len(p)])
			}
			for k := range len(q) - 2 {
				r = append(r, q[(j+2+k)%len(q)])
			}
			if convex(r) {
				return r
			}
			return nil
		}
	}
	return nil
}

func convex(r []geom.Point) bool {
	for i, b := range r {
		if leftward(r[(i+len(r)-1)%len(r)], b, r[(i+1)%len(r)]) < 0 {
			return false
		}
	}
	return true
}
