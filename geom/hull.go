package geom

import (
	"cmp"
	"slices"
)

// ConvexHull returns the corners of the smallest convex area around the
// points, anticlockwise in axes with y up, without points along its edges
// (Andrew's monotone chain). The points are left as they are.
func ConvexHull(points []Point) []Point {
	sorted := slices.Clone(points)
	slices.SortFunc(sorted, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	sorted = slices.Compact(sorted)
	if len(sorted) < 3 {
		return sorted
	}
	lower := leftTurns(sorted)
	slices.Reverse(sorted)
	upper := leftTurns(sorted)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

// leftTurns returns the points from first to last that turn left at each.
func leftTurns(points []Point) []Point {
	var line []Point
	for _, q := range points {
		for n := len(line); n > 1 && line[n-1].Sub(line[n-2]).Cross(q.Sub(line[n-1])) <= 0; n = len(line) {
			line = line[:n-1]
		}
		line = append(line, q)
	}
	return line
}
