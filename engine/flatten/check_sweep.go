package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// rims returns the sides of the pattern that one face has alone, by their ends.
func rims(flat Flat) [][2]int32 {
	lone := map[[2]int32]bool{}
	for _, f := range flat.Faces {
		for c := range 3 {
			u, v := f[c], f[(c+1)%3]
			if lone[[2]int32{v, u}] {
				delete(lone, [2]int32{v, u})
			} else {
				lone[[2]int32{u, v}] = true
			}
		}
	}
	var sides [][2]int32
	for _, f := range flat.Faces {
		for c := range 3 {
			if u, v := f[c], f[(c+1)%3]; lone[[2]int32{u, v}] {
				sides = append(sides, [2]int32{u, v})
			}
		}
	}
	return sides
}

// sweep counts the pairs of sides of a pattern's outline that cross, going from
// left to right.
func sweep(flat Flat, touch float64) int {
	var sides [][2]geom.Point
	for _, ends := range rims(flat) {
		sides = append(sides, [2]geom.Point{flat.Points[ends[0]], flat.Points[ends[1]]})
	}
	return swept(sides, touch)
}

// swept counts the pairs of sides that cross and share no end.
func swept(sides [][2]geom.Point, touch float64) int {
	left := func(s [2]geom.Point) float64 { return min(s[0].X, s[1].X) }
	slices.SortFunc(sides, func(a, b [2]geom.Point) int { return cmp.Compare(left(a), left(b)) })
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range sides {
		low, high = min(low, s[0].X, s[0].Y, s[1].X, s[1].Y), max(high, s[0].X, s[0].Y, s[1].X, s[1].Y)
	}
	near := touch * (high - low)
	// beyond tells the distance of p from the line of s, positive to its left.
	beyond := func(s [2]geom.Point, p geom.Point) float64 {
		return s[1].Sub(s[0]).Cross(p.Sub(s[0])) / s[0].Distance(s[1])
	}
	parted := func(s, o [2]geom.Point) bool {
		a, b := beyond(s, o[0]), beyond(s, o[1])
		return min(a, b) < -near && max(a, b) > near
	}
	var count int
	for i, s := range sides {
		right := max(s[0].X, s[1].X)
		for _, o := range sides[i+1:] {
			if left(o) > right {
				break
			}
			if s[0] != o[0] && s[0] != o[1] && s[1] != o[0] && s[1] != o[1] && parted(s, o) && parted(o, s) {
				count++
			}
		}
	}
	return count
}
