package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom/mesh"
)

// rootsTried is how many vertices of a closed surface with handles are tried
// as the place where its cuts meet.
const rootsTried = 24

// toDisc returns the paths that a closed surface, or one with handles, has to be
// cut along to become a disc; none for any other, whatever its holes. Handles
// are cut by the shortest loops of a tree and the tree of faces beside it, all
// holes joined first; a closed surface without handles is slit along the way
// between two far ends.
func toDisc(m mesh.Mesh, a mesh.Adjacency) [][]int32 {
	loops, euler := a.BoundaryLoops(), a.Euler()
	handles := (2 - len(loops) - euler) / 2
	if len(loops) > 0 && handles == 0 {
		return nil
	}
	cut := newSlits(m, a)
	switch {
	case len(loops) > 0:
		b := borderOf(m, a)
		cut.join(b.rim(), b.holes(), nil)
		cut.handles(cut.trunk)
	case handles == 0:
		cut.slit()
	default:
		cut = cut.rooted()
	}
	return cut.paths()
}

// rooted cuts the handles of a closed surface: of some places where its cuts
// might meet, from where they are shortest.
func (s *slits) rooted() *slits {
	var best *slits
	for i := range min(rootsTried, len(s.mesh.Points)) {
		_, part := math.Modf(float64(i) * math.Phi) // spread evenly over the list, in step with no grid
		root := s.near.Tail[int(part*float64(len(s.near.Tail)))]
		try := newSlits(s.mesh, s.near)
		try.handles([]int32{root})
		if best == nil || try.length() < best.length() {
			best = try
		}
	}
	return best
}

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

// slit takes the way between two vertices that lie far apart.
func (s *slits) slit() {
	farthest := func(r mesh.Reach) int32 {
		var far int32
		for v, c := range r.Cost {
			if !math.IsInf(c, 1) && c > r.Cost[far] {
				far = int32(v)
			}
		}
		return far
	}
	first := s.near.Tail[0]
	one := farthest(s.near.Reach([]int32{first}, s.mesh.EdgeLength))
	ways := s.near.Reach([]int32{one}, s.mesh.EdgeLength)
	s.add(ways.Path(farthest(ways)))
}

// handles cuts along a set of loops that leaves no handle: the shortest ways
// from the trunk are a tree; of the edges outside it, all but a tree of faces,
// longest loops first, close a loop that has to be cut. (Erickson, Whittlesey
// 2005.)
func (s *slits) handles(trunk []int32) {
	a := s.near
	ways := a.Reach(trunk, s.mesh.EdgeLength)
	type closing struct {
		edge int32
		loop float64
	}
	var list []closing
	for h, t := range a.Twin {
		u, v := a.Tail[h], a.Head(int32(h))
		if int(t) < h || ways.From[u] == v || ways.From[v] == u || s.edges[int32(h)] {
			continue // open edges have no twin, which is below every h
		}
		list = append(list, closing{int32(h), ways.Cost[u] + ways.Cost[v] + s.mesh.EdgeLength(u, v)})
	}
	slices.SortStableFunc(list, func(x, y closing) int { return cmp.Compare(y.loop, x.loop) })
	sets := newSets(len(s.mesh.Faces))
	for _, c := range list {
		if sets.unite(c.edge/3, a.Twin[c.edge]/3) {
			continue
		}
		u, v := a.Tail[c.edge], a.Head(c.edge)
		s.edges[c.edge] = true
		s.add(ways.Path(u))
		s.add(ways.Path(v))
	}
	s.prune()
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

// sets are disjoint sets of faces.
type sets []int32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

func (s sets) find(i int32) int32 {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

// unite joins two sets and says whether they were two.
func (s sets) unite(i, j int32) bool {
	i, j = s.find(i), s.find(j)
	s[max(i, j)] = min(i, j)
	return i != j
}
