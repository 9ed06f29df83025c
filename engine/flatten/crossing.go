package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// touching is how near the line of a side a corner may lie, over the size of
// the pattern, and still only touch it: the two sides of a slit that lies
// closed do.
const touching = 1e-8

// lodging sorts the sides of an outline into the squares of a grid: each lodges
// in all squares that its box, grown by a margin, reaches.
type lodging struct {
	box   geom.Box
	cell  float64
	wide  int64
	rooms []lodger // by room, then by side
}

type lodger struct {
	room int64
	side int32
}

// mostSquares bounds the squares of a grid along its longer side.
const mostSquares = 4096

func lodge(outline contour, margin float64) lodging {
	n := len(outline.points)
	g := lodging{box: geom.Box{Min: outline.points[0], Max: outline.points[0]}}
	var long float64
	for i := range n {
		p, q := outline.side(i)
		g.box = g.box.Union(geom.Box{Min: p, Max: p})
		long += p.Distance(q)
	}
	size := max(g.box.Width(), g.box.Height())
	g.box = g.box.Grow(margin)
	g.cell = max(long/float64(n), size/mostSquares, margin)
	if !(g.cell > 0) || math.IsInf(size, 0) || math.IsNaN(size) {
		return g
	}
	g.wide = int64(g.box.Width()/g.cell) + 1
	for i := range n {
		p, q := outline.side(i)
		side := geom.Box{Min: p, Max: p}.Union(geom.Box{Min: q, Max: q}).Grow(margin)
		x1, y1 := g.square(side.Min)
		x2, y2 := g.square(side.Max)
		for y := y1; y <= y2; y++ {
			for x := x1; x <= x2; x++ {
				g.rooms = append(g.rooms, lodger{y*g.wide + x, int32(i)})
			}
		}
	}
	slices.SortFunc(g.rooms, func(a, b lodger) int {
		return cmp.Or(cmp.Compare(a.room, b.room), cmp.Compare(a.side, b.side))
	})
	return g
}

func (g lodging) square(p geom.Point) (x, y int64) {
	return min(int64((p.X-g.box.Min.X)/g.cell), g.wide-1), int64((p.Y - g.box.Min.Y) / g.cell)
}

// at returns the lodgers of the square of a point.
func (g lodging) at(p geom.Point) []lodger {
	x, y := g.square(p)
	room := y*g.wide + x
	first, _ := slices.BinarySearchFunc(g.rooms, room, func(l lodger, room int64) int { return cmp.Compare(l.room, room) })
	last := first
	for last < len(g.rooms) && g.rooms[last].room == room {
		last++
	}
	return g.rooms[first:last]
}

// crossings returns the pairs of sides of an outline that cross.
func crossings(outline contour) [][2]int32 { return crossingsBy(outline, touching) }

// crossingsBy returns those that cross by more than a share of its size.
func crossingsBy(outline contour, touching float64) [][2]int32 {
	g := lodge(outline, 0)
	near := touching * max(g.box.Width(), g.box.Height())
	var found [][2]int32
	for i, a := range g.rooms {
		for _, b := range g.rooms[i+1:] {
			if b.room != a.room {
				break
			}
			if cross(outline, int(a.side), int(b.side), near) {
				found = append(found, [2]int32{a.side, b.side})
			}
		}
	}
	slices.SortFunc(found, func(a, b [2]int32) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	return slices.Compact(found)
}

// cross says whether sides i and j of an outline cross, each corner lying
// farther than near from the line of the other side.
func cross(outline contour, i, j int, near float64) bool {
	if outline.next[i] == int32(j) || outline.next[j] == int32(i) || i == j {
		return false
	}
	p, q := outline.side(i)
	r, s := outline.side(j)
	return apart(p, q, r, s, near) && apart(r, s, p, q, near)
}

// apart says whether r and s lie on either side of the line through p and q.
func apart(p, q, r, s geom.Point, near float64) bool {
	way := q.Sub(p)
	least := near * math.Hypot(way.X, way.Y)
	a, b := way.Cross(r.Sub(p)), way.Cross(s.Sub(p))
	return a > least && b < -least || a < -least && b > least
}
