package mesh_test

import (
	"math"
	"slices"
	"testing"

	"fettle/geom/mesh"
)

func TestShortestPath(t *testing.T) {
	m := sheet(4, 4) // diagonals run from 0 to 24
	a := m.Adjacency()
	path, cost := a.ShortestPath([]int32{0}, []int32{24}, m.EdgeLength)
	if want := []int32{0, 6, 12, 18, 24}; !slices.Equal(path, want) {
		t.Errorf("path %v, want %v", path, want)
	}
	near(t, "its length", cost, 4*math.Sqrt2, 1e-12)
	path, cost = a.ShortestPath([]int32{12}, a.BoundaryLoops()[0], m.EdgeLength)
	if len(path) != 3 || cost != 2 {
		t.Errorf("to the rim by %v at %g, want two steps", path, cost)
	}
	path, _ = a.ShortestPath([]int32{20}, []int32{4}, m.EdgeLength)
	for i, v := range path[1:] {
		if a.Find(path[i], v) == mesh.None && a.Find(v, path[i]) == mesh.None {
			t.Errorf("no edge from %d to %d", path[i], v)
		}
	}
	// a wall with one gap
	walled := func(u, v int32) float64 {
		if on := func(v int32) bool { return v%5 == 2 && v != 22 }; on(u) || on(v) {
			return math.Inf(1)
		}
		return m.EdgeLength(u, v)
	}
	if path, _ := a.ShortestPath([]int32{0}, []int32{4}, walled); !slices.Contains(path, 22) {
		t.Errorf("path %v does not take the gap", path)
	}
}

func TestReach(t *testing.T) {
	m := both(sheet(4, 4), sheet(1, 1))
	a := m.Adjacency()
	r := a.Reach([]int32{0, 4}, m.EdgeLength)
	near(t, "cost of the nearer", r.Cost[3], 1, 0)
	if !math.IsInf(r.Cost[26], 1) || r.Path(26) != nil {
		t.Errorf("a way leads to another component: %v", r.Path(26))
	}
	if p := r.Path(4); !slices.Equal(p, []int32{4}) {
		t.Errorf("path to a beginning %v, want itself", p)
	}
	if p, c := a.ShortestPath([]int32{0}, []int32{26}, m.EdgeLength); p != nil || !math.IsInf(c, 1) {
		t.Errorf("path %v at %g where none leads", p, c)
	}
	if p, _ := a.ShortestPath([]int32{0}, nil, m.EdgeLength); p != nil {
		t.Errorf("path %v to nowhere", p)
	}
	// rims may be followed either way
	if p, c := a.ShortestPath([]int32{20}, []int32{0}, m.EdgeLength); c != 4 {
		t.Errorf("up the rim by %v at %g, want 4", p, c)
	}
}

func BenchmarkReach(b *testing.B) {
	m := sheet(140, 140)
	a := m.Adjacency()
	for b.Loop() {
		a.Reach([]int32{0}, m.EdgeLength)
	}
}
