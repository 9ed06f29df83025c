package mesh_test

import (
	"slices"
	"testing"

	"fettle/geom/mesh"
)

func TestMesh_Shape(t *testing.T) {
	holed := sheet(4, 4)
	holed.Faces = slices.Delete(holed.Faces, 10, 12)
	for _, c := range []struct {
		name                     string
		m                        mesh.Mesh
		loops, euler, components int
	}{
		{"empty", mesh.Mesh{}, 0, 0, 0},
		{"a face", mesh.Mesh{Points: make([]mesh.Vec, 3), Faces: []mesh.Face{{0, 1, 2}}}, 1, 1, 1},
		{"sheet", sheet(4, 3), 1, 1, 1},
		{"sheet with a hole", holed, 2, 0, 1},
		{"tube", tube(9), 2, 0, 1},
		{"torus", torus(8, 6, 3, 1), 0, 0, 1},
		{"box", box(mesh.Vec{}), 0, 2, 1},
		{"two boxes", both(box(mesh.Vec{}), box(mesh.Vec{X: 3})), 0, 4, 2},
	} {
		a := c.m.Adjacency()
		_, parts := a.Components()
		if got := len(a.BoundaryLoops()); got != c.loops || a.Euler() != c.euler || parts != c.components || len(a.Tangled) > 0 {
			t.Errorf("%s: %d loops, chi %d, %d components, tangled %v; want %d, %d, %d, none",
				c.name, got, a.Euler(), parts, a.Tangled, c.loops, c.euler, c.components)
		}
		for h, g := range a.Twin {
			if g != mesh.None && (a.Twin[g] != int32(h) || a.Tail[g] != a.Head(int32(h))) {
				t.Errorf("%s: half-edge %d has twin %d, which has twin %d", c.name, h, g, a.Twin[g])
			}
		}
	}
}

func TestBoundaryLoops_Direction(t *testing.T) {
	loops := sheet(2, 1).BoundaryLoops()
	if want := [][]int32{{0, 1, 2, 5, 4, 3}}; len(loops) != 1 || !slices.Equal(loops[0], want[0]) {
		t.Errorf("loops %v, want %v", loops, want)
	}
	// two sheets that touch in one corner have two rims
	two := sheet(1, 1)
	n := int32(len(two.Points))
	two.Points = append(two.Points, mesh.Vec{X: 2, Y: 1}, mesh.Vec{X: 1, Y: 2})
	two.Faces = append(two.Faces, mesh.Face{3, n, n + 1})
	if loops := two.BoundaryLoops(); len(loops) != 2 {
		t.Errorf("sheets that touch in a corner: loops %v, want two", loops)
	}
}

func TestAdjacency_Tangled(t *testing.T) {
	m := sheet(1, 1) // the diagonal lies between vertices 0 and 3
	m.Points = append(m.Points, mesh.Vec{Z: 1})
	m.Faces = append(m.Faces, mesh.Face{0, 3, 4})
	a := m.Adjacency()
	if len(a.Tangled) != 3 || a.Edges() != 9 {
		t.Errorf("three faces at an edge: tangled %v, %d edges; want three, 9", a.Tangled, a.Edges())
	}
	m = sheet(1, 1)
	m.Faces[1][0], m.Faces[1][1] = m.Faces[1][1], m.Faces[1][0]
	if a := m.Adjacency(); len(a.Tangled) != 2 {
		t.Errorf("two faces that turn against each other: tangled %v, want two", a.Tangled)
	}
}

func BenchmarkAdjacency(b *testing.B) {
	m := sheet(316, 316)
	b.ReportMetric(float64(len(m.Faces)), "faces")
	for b.Loop() {
		m.Adjacency()
	}
}
