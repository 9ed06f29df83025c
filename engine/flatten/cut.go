package flatten

import (
	"math"
	"slices"

	"fettle/geom/mesh"
)

// slits are edges that are to be cut, by the lower of their two half-edges,
// and the vertices they must not be pruned from.
type slits struct {
	mesh  mesh.Mesh
	near  mesh.Adjacency
	edges map[int32]bool
	trunk []int32 // open from the beginning, or joined to it
}

func newSlits(m mesh.Mesh, a mesh.Adjacency) *slits {
	return &slits{mesh: m, near: a, edges: map[int32]bool{}}
}

// edge returns the lower half-edge between two vertices.
func (s *slits) edge(u, v int32) int32 {
	h := s.near.Find(u, v)
	if h == mesh.None {
		return s.near.Find(v, u)
	}
	if t := s.near.Twin[h]; t != mesh.None {
		return min(h, t)
	}
	return h
}

// add takes the edges of a path in.
func (s *slits) add(path []int32) {
	for i := 1; i < len(path); i++ {
		if e := s.edge(path[i-1], path[i]); s.near.Twin[e] != mesh.None {
			s.edges[e] = true
		}
	}
}

// sorted returns the edges in order.
func (s *slits) sorted() []int32 {
	list := make([]int32, 0, len(s.edges))
	for e := range s.edges {
		list = append(list, e)
	}
	slices.Sort(list)
	return list
}

func (s *slits) length() float64 {
	var sum float64
	for _, e := range s.sorted() {
		sum += s.mesh.EdgeLength(s.near.Tail[e], s.near.Head(e))
	}
	return sum
}

// join connects holes to the rim one after the other, each by the shortest way
// from what is joined already. Ways go round the other holes that are kept; where
// none does, all are joined.
func (s *slits) join(rim []int32, holes, kept [][]int32) {
	const none = int32(-1)
	of := slices.Repeat([]int32{none}, len(s.mesh.Points)) // by vertex: the hole it is on
	mark := func(loops [][]int32, number func(i int) int32) {
		for i, loop := range loops {
			for _, v := range loop {
				of[v] = number(i)
			}
		}
	}
	shut := int32(len(holes) + len(kept))
	mark(kept, func(int) int32 { return shut })
	mark(holes, func(i int) int32 { return int32(i) })
	cost := func(u, v int32) float64 {
		if of[u] == shut || of[v] == shut {
			return math.Inf(1)
		}
		return s.mesh.EdgeLength(u, v)
	}
	s.trunk = slices.Clone(rim)
	left := slices.Clone(holes)
	for len(left) > 0 {
		path, _ := s.near.ShortestPath(s.trunk, slices.Concat(left...), cost)
		if path == nil {
			all := slices.DeleteFunc(slices.Clone(kept), func(loop []int32) bool { return of[loop[0]] != shut })
			mark(all, func(i int) int32 { return int32(len(holes) + i) })
			left = append(left, all...)
			continue
		}
		s.add(path)
		s.trunk = append(s.trunk, path...)
		hit := of[path[len(path)-1]]
		s.trunk = append(s.trunk, left[slices.IndexFunc(left, func(loop []int32) bool { return of[loop[0]] == hit })]...)
		left = slices.DeleteFunc(left, func(loop []int32) bool { return of[loop[0]] == hit })
	}
}

// prune takes off ends that open nothing.
func (s *slits) prune() {
	on := s.near.OnBoundary()
	for gone := true; gone; {
		gone = false
		count := map[int32]int{}
		for e := range s.edges {
			count[s.near.Tail[e]]++
			count[s.near.Head(e)]++
		}
		for _, e := range s.sorted() {
			u, v := s.near.Tail[e], s.near.Head(e)
			if count[u] == 1 && !on[u] || count[v] == 1 && !on[v] {
				delete(s.edges, e)
				gone = true
			}
		}
	}
}

// paths strings the edges into paths that end at the boundary or where three
// or more meet; what is left are closed loops.
func (s *slits) paths() [][]int32 {
	on := s.near.OnBoundary()
	beside := map[int32][]int32{}
	for _, e := range s.sorted() {
		u, v := s.near.Tail[e], s.near.Head(e)
		beside[u], beside[v] = append(beside[u], e), append(beside[v], e)
	}
	var paths [][]int32
	done := map[int32]bool{}
	knot := func(v int32) bool { return on[v] || len(beside[v]) != 2 }
	walk := func(v int32, e int32) {
		path := []int32{v}
		for e != mesh.None && !done[e] {
			done[e] = true
			v = s.near.Tail[e] + s.near.Head(e) - v
			path = append(path, v)
			next := mesh.None
			for _, o := range beside[v] {
				if !knot(v) && !done[o] {
					next = o
				}
			}
			e = next
		}
		paths = append(paths, path)
	}
	for _, knots := range []bool{true, false} {
		for _, e := range s.sorted() {
			for _, v := range [2]int32{s.near.Tail[e], s.near.Head(e)} {
				if !done[e] && knot(v) == knots {
					walk(v, e)
				}
			}
		}
	}
	return paths
}
