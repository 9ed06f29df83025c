package flatten

import (
	"math"
	"slices"

	"fettle/geom"
)

// touching is how near the line of a side a corner may lie, over the size of
// the pattern, and still only touch it: the two sides of a slit that lies
// closed do.
const touching = 1e-8

// crossings returns the pairs of sides of a closed outline that cross; side i
// runs from corner i to the next. Sides are sorted into the squares of a grid.
func crossings(outline []geom.Point) [][2]int32 {
	n := len(outline)
	box := geom.Box{Min: outline[0], Max: outline[0]}
	var long float64
	for i, p := range outline {
		box = box.Union(geom.Box{Min: p, Max: p})
		long += p.Distance(outline[(i+1)%n])
	}
	size := max(box.Width(), box.Height())
	cell := max(long/float64(n), size/4096)
	if !(cell > 0) || math.IsInf(size, 0) {
		return nil
	}
	type lodger struct{ room, side int32 }
	wide := int32(box.Width()/cell) + 1
	var rooms []lodger
	column := func(x float64) int32 { return int32((x - box.Min.X) / cell) }
	row := func(y float64) int32 { return int32((y - box.Min.Y) / cell) }
	for i, p := range outline {
		q := outline[(i+1)%n]
		for y := row(min(p.Y, q.Y)); y <= row(max(p.Y, q.Y)); y++ {
			for x := column(min(p.X, q.X)); x <= column(max(p.X, q.X)); x++ {
				rooms = append(rooms, lodger{y*(wide+1) + x, int32(i)})
			}
		}
	}
	slices.SortFunc(rooms, func(a, b lodger) int {
		if a.room != b.room {
			return int(a.room - b.room)
		}
		return int(a.side - b.side)
	})
	var found [][2]int32
	for i, a := range rooms {
		for _, b := range rooms[i+1:] {
			if b.room != a.room {
				break
			}
			if cross(outline, int(a.side), int(b.side), touching*size) {
				found = append(found, [2]int32{a.side, b.side})
			}
		}
	}
	slices.SortFunc(found, func(a, b [2]int32) int {
		if a[0] != b[0] {
			return int(a[0] - b[0])
		}
		return int(a[1] - b[1])
	})
	return slices.Compact(found)
}

// cross says whether sides i and j of an outline cross, each corner lying
// farther than near from the line of the other side.
func cross(outline []geom.Point, i, j int, near float64) bool {
	n := len(outline)
	if (i+1)%n == j || (j+1)%n == i || i == j {
		return false
	}
	p, q, r, s := outline[i], outline[(i+1)%n], outline[j], outline[(j+1)%n]
	return apart(p, q, r, s, near) && apart(r, s, p, q, near)
}

// apart says whether r and s lie on either side of the line through p and q.
func apart(p, q, r, s geom.Point, near float64) bool {
	way := q.Sub(p)
	least := near * math.Hypot(way.X, way.Y)
	a, b := way.Cross(r.Sub(p)), way.Cross(s.Sub(p))
	return a > least && b < -least || a < -least && b > least
}
