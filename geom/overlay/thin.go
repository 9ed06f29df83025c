package overlay

import (
	"math"

	"fettle/geom"
)

// thinned leaves out points of a ring that lie within slack of the way between
// those that stay (Ramer 1972; Douglas and Peucker 1973), at least three.
func thinned(r geom.Ring, slack float64) geom.Ring {
	far := 0
	for i, q := range r {
		if q.Distance(r[0]) > r[far].Distance(r[0]) {
			far = i
		}
	}
	keep := make([]bool, len(r)+1)
	keep[0], keep[far] = true, true
	closed := append(r[:len(r):len(r)], r[0])
	type span struct{ from, to int }
	for todo := []span{{0, far}, {far, len(r)}}; len(todo) > 0; {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		worst, away := -1, slack
		for i := s.from + 1; i < s.to; i++ {
			if d := geom.SegmentDistance(closed[i], closed[i], closed[s.from], closed[s.to]); d > away {
				worst, away = i, d
			}
		}
		if worst >= 0 {
			keep[worst] = true
			todo = append(todo, span{s.from, worst}, span{worst, s.to})
		}
	}
	out := make(geom.Ring, 0, len(r))
	for i, q := range r {
		if keep[i] {
			out = append(out, q)
		}
	}
	return out
}

// fence finds how far a point is from edges, on a grid of a million millionth
// of the size of all.
type fence struct {
	edges   *geom.GridEdges
	perUnit float64
}

func newFence(list []geom.Polygon) fence {
	size := 0.0
	for _, p := range list {
		b := p.Bounds()
		size = max(size, math.Abs(b.Min.X), math.Abs(b.Min.Y), math.Abs(b.Max.X), math.Abs(b.Max.Y))
	}
	_, exp := math.Frexp(size)
	f := fence{perUnit: math.Ldexp(1, 40-max(exp, -900))}
	var edges []geom.GridEdge
	for _, p := range list {
		for _, r := range p.Rings() {
			edges = append(edges, geom.Ring(r).Edges(f.perUnit)...)
		}
	}
	f.edges = geom.NewGridEdges(edges)
	return f
}

func (f fence) distance(q geom.Point) float64 {
	at := q.Snap(f.perUnit)
	d, _, _ := f.edges.Distance(geom.NewGridEdges([]geom.GridEdge{{A: at, B: at}}), math.Inf(1))
	return d / f.perUnit
}
