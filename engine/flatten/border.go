package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
	"fettle/geom/mesh"
)

// border is the open edges of a piece: rings of corners, one after the other,
// the surface to the left of the side from each corner to the next of its ring.
// The first ring is the rim, which reaches farthest on the surface; the others
// are holes.
type border struct {
	rings        [][]int32
	corners      []int32 // of all rings, by the vertex that each is
	ring         []int32 // by corner: the number of its ring
	next, before []int32 // by corner: its neighbours in the ring, by their places in corners
}

// sameReach is the share by which rings that reach equally far may differ: the
// first counts.
const sameReach = 1e-9

// newBorder takes rings of vertices as they come.
func newBorder(rings ...[]int32) border {
	b := border{rings: rings}
	for k, ring := range rings {
		first, n := int32(len(b.corners)), int32(len(ring))
		b.corners = append(b.corners, ring...)
		for i := range n {
			b.ring = append(b.ring, int32(k))
			b.next = append(b.next, first+(i+1)%n)
			b.before = append(b.before, first+(i+n-1)%n)
		}
	}
	return b
}

// borderOf finds the border of a mesh.
func borderOf(m mesh.Mesh, a mesh.Adjacency) border {
	rings := a.BoundaryLoops()
	var rim int
	var farthest float64
	for i, ring := range rings {
		if far := reachOf(m, ring); far > farthest*(1+sameReach) {
			rim, farthest = i, far
		}
	}
	if rim > 0 {
		rings = slices.Concat(rings[rim:rim+1], rings[:rim], rings[rim+1:])
	}
	return newBorder(rings...)
}

// reachOf returns how far a ring reaches from its middle.
func reachOf(m mesh.Mesh, ring []int32) (far float64) {
	middle := middleOf(m, ring)
	for _, v := range ring {
		far = max(far, m.Points[v].Sub(middle).Length())
	}
	return far
}

// rim returns the vertices of the first ring.
func (b border) rim() []int32 { return b.rings[0] }

// holes returns the other rings.
func (b border) holes() [][]int32 { return b.rings[1:] }

// at returns the border where its corners lie.
func (b border) at(places []geom.Point) contour {
	o := contour{points: make([]geom.Point, len(b.corners)), next: b.next}
	for i, v := range b.corners {
		o.points[i] = places[v]
	}
	return o
}

// contour is where the corners of a border lie; side i runs from corner i to
// corner next[i].
type contour struct {
	points []geom.Point
	next   []int32
}

// side returns the ends of a side.
func (o contour) side(i int) (from, to geom.Point) { return o.points[i], o.points[o.next[i]] }

// Outline returns the edges of the pattern: the ring around all of it, and the
// holes that stayed open, the largest first.
func (f Flat) Outline() geom.Polygon {
	m := mesh.Mesh{Points: make([]mesh.Vec, len(f.Points)), Faces: f.Faces}
	var rings [][]geom.Point
	for _, loop := range m.BoundaryLoops() {
		rings = append(rings, along(f.Points, loop))
	}
	if len(rings) == 0 {
		return geom.Polygon{}
	}
	size := func(ring []geom.Point) float64 { return math.Abs(geom.RingArea(ring)) }
	slices.SortStableFunc(rings, func(a, b []geom.Point) int { return cmp.Compare(size(b), size(a)) })
	return geom.Polygon{Outer: rings[0], Holes: rings[1:]}
}
