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
