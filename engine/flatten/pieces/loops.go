package pieces

import (
	"cmp"
	"math"
	"slices"

	"fettle/engine/flatten"
	"fettle/geom"
	"fettle/geom/mesh"
)

// Loops returns the boundary loops of every piece of a flat shape, by vertex:
// the piece of the largest outline first, and its outline before its holes.
func Loops(flat flatten.Flat) [][][]int32 {
	near := mesh.Mesh{Points: make([]mesh.Vec, len(flat.Points)), Faces: flat.Faces}.Adjacency()
	label, count := near.Components() // by face
	list := make([][][]int32, count)
	for _, loop := range near.BoundaryLoops() {
		n := label[near.Leaving(loop[0])[0]/3]
		list[n] = append(list[n], loop)
	}
	larger := func(a, b []int32) int { return cmp.Compare(within(flat, b), within(flat, a)) }
	for _, loops := range list {
		slices.SortStableFunc(loops, larger)
	}
	list = slices.DeleteFunc(list, func(loops [][]int32) bool { return len(loops) == 0 })
	slices.SortStableFunc(list, func(a, b [][]int32) int { return larger(a[0], b[0]) })
	return list
}

// Ring is a loop of a flat shape as points.
func Ring(flat flatten.Flat, loop []int32) geom.Ring {
	ring := make(geom.Ring, len(loop))
	for i, v := range loop {
		ring[i] = flat.Points[v]
	}
	return ring
}

// within is the area within a loop.
func within(flat flatten.Flat, loop []int32) float64 {
	return math.Abs(geom.RingArea(Ring(flat, loop)))
}
