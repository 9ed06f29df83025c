package geom

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Check says what is wrong with a ring that should bound a polygon: fewer than
// three points or more than MostPoints, a coordinate that is no number or
// larger than 1e7, a point said twice, an edge that crosses, touches or
// doubles back along another, no area. A fault is of kind Invalid (TooLarge for too
// many points, or edges too close) and names the point, counted from 1, and the place. The test of
// edges is exact for
// coordinates within 59 bits of the largest.
func (r Ring) Check() error {
	if len(r) > MostPoints {
		return fault.New(fault.TooLarge, "it has %d points, at most %d", len(r), MostPoints)
	}
	if len(r) < 3 {
		return wrong("it has %d points: a polygon has three or more", len(r))
	}
	for i, p := range r {
		if !(math.Abs(p.X) <= maxCoordinate && math.Abs(p.Y) <= maxCoordinate) {
			return wrong("its coordinates %g, %g are not numbers of at most %g", p.X, p.Y, maxCoordinate).At(pointName(i))
		}
	}
	none := RingArea(r) == 0
	if none && len(Hull(r)) < 3 {
		return wrong("its points lie on one line: it has no area")
	}
	if err := r.simple(); err != nil {
		return err
	}
	if none {
		return wrong("it has no area")
	}
	return nil
}

func pointName(i int) string { return fmt.Sprintf("point %d", i+1) }

// Edges returns the edges of the ring on a grid of perUnit steps, in order.
func (r Ring) Edges(perUnit float64) []GridEdge {
	list := make([]GridEdge, len(r))
	for i, p := range r {
		list[i] = GridEdge{p.Snap(perUnit), r[(i+1)%len(r)].Snap(perUnit)}
	}
	return list
}

// mostLooked bounds the pairs of edges with boxes that meet: about a second. A
// plain outline has some dozens an edge.
const mostLooked = 50_000_000

// MostHoles is how many holes a polygon may have.
const MostHoles = 10_000

// simple looks for edges that meet but do not follow one another.
func (r Ring) simple() error {
	perUnit := gridFor(r)
	list := r.Edges(perUnit)
	for i, e := range list {
		if e.A == e.B {
			return wrong("it is said twice: %g, %g", r[i].X, r[i].Y).At(pointName(i))
		}
	}
	edges := NewGridEdges(list)
	bad, looked := [2]int{-1, -1}, 0
	edges.Near(edges, func() int64 { return 0 }, func(i, j int) bool {
		if looked++; i < j && meets(list, i, j) {
			bad = [2]int{i, j}
		}
		return bad[0] < 0 && looked <= mostLooked
	})
	if bad[0] < 0 {
		if looked > mostLooked {
			return fault.New(fault.TooLarge, "too many of its %d edges run close beside one another to be checked", len(r)).
				WithHint("leave out corners, or cut it into parts")
		}
		return nil
	}
	i, j := bad[0], bad[1]
	at := meeting(list[i], list[j]).Point(perUnit)
	return wrong("the edge from here meets the edge from point %d at %.6g, %.6g", j+1, at.X, at.Y).At(pointName(i)).
		WithHint("an edge may not cross or touch another: mend the points about there")
}

// meets says whether two edges of a ring touch where they should not; edges
// that follow one another have one end in common and no more.
func meets(list []GridEdge, i, j int) bool {
	a, b := list[i], list[j]
	switch {
	case j == i+1:
	case i == 0 && j == len(list)-1:
		a, b = b, a
	default:
		return a.Meets(b)
	}
	return Side(a.A, a.B, b.B) == 0 && a.Along(b) < 0
}

// meeting is a point that two meeting edges have in common, to the nearest
// step.
func meeting(e, f GridEdge) GridPoint {
	for _, p := range []GridPoint{e.A, e.B} {
		if f.Holds(p) {
			return p
		}
	}
	for _, p := range []GridPoint{f.A, f.B} {
		if e.Holds(p) {
			return p
		}
	}
	return Crossroads(e, f)
}

// Crossroads returns where two edges that cross do so, to the nearest point of
// the grid as far as a float64 tells.
func Crossroads(e, f GridEdge) GridPoint {
	d, g, v := e.B.sub(e.A), f.B.sub(f.A), f.A.sub(e.A)
	t := v.Cross(g) / d.Cross(g)
	return GridPoint{e.A.X + int64(math.Round(t*d.X)), e.A.Y + int64(math.Round(t*d.Y))}
}

// Check holds every ring to Ring.Check, and the holes to lying inside the
// outer ring and outside one another without touching. The fault names the
// ring: "outer" or "hole 1". More than MostHoles are TooLarge.
func (p Polygon) Check() error {
	if len(p.Holes) > MostHoles {
		return fault.New(fault.TooLarge, "it has %d holes, at most %d", len(p.Holes), MostHoles)
	}
	if err := Ring(p.Outer).Check(); err != nil {
		return fault.Within(err, "outer")
	}
	for i, h := range p.Holes {
		if err := Ring(h).Check(); err != nil {
			return fault.Within(err, holeName(i))
		}
	}
	if len(p.Holes) == 0 {
		return nil
	}
	return p.apart()
}

func holeName(i int) string { return fmt.Sprintf("hole %d", i+1) }

// apart looks at the rings against one another, on the grid of the largest.
func (p Polygon) apart() error {
	perUnit := gridFor(p.Rings()...)
	done := []*GridEdges{NewGridEdges(Ring(p.Outer).Edges(perUnit))}
	for i, h := range p.Holes {
		edges := NewGridEdges(Ring(h).Edges(perUnit))
		for k, other := range done {
			if k > 0 && edges.boxes[1].gap(other.boxes[1]) > 0 {
				continue
			}
			if d, a, _ := edges.Distance(other, 1); d == 0 {
				at := edges.List()[a].A.Point(perUnit)
				name := "the outer ring"
				if k > 0 {
					name = holeName(k - 1)
				}
				return wrong("it meets %s near %.6g, %.6g", name, at.X, at.Y).At(holeName(i))
			}
			first := edges.List()[0].A
			inside := other.Where(first) > 0
			switch {
			case k == 0 && !inside:
				return wrong("it lies outside the outer ring").At(holeName(i))
			case k > 0 && (inside || edges.Where(other.List()[0].A) > 0):
				at := first.Point(perUnit)
				return wrong("it and %s lie in one another, near %.6g, %.6g", holeName(k-1), at.X, at.Y).At(holeName(i))
			}
		}
		done = append(done, edges)
	}
	return nil
}

// gridFor is the power of two that gives the largest coordinate 59 bits.
func gridFor(rings ...[]Point) float64 {
	size := 0.0
	for _, r := range rings {
		for _, q := range r {
			size = max(size, math.Abs(q.X), math.Abs(q.Y))
		}
	}
	_, exp := math.Frexp(size)
	return math.Ldexp(1, 59-max(exp, -900))
}
