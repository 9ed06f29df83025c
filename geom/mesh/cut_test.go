package mesh_test

import (
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

func TestCut(t *testing.T) {
	// vertices of sheet(4, 4) are 5 j + i
	ring := []int32{6, 7, 8, 13, 18, 17, 16, 11, 6}
	for _, c := range []struct {
		name                string
		m                   mesh.Mesh
		paths               [][]int32
		points, loops, chi  int
		components, doubled int
	}{
		{"nothing", sheet(4, 4), nil, 25, 1, 1, 1, 0},
		{"right across", sheet(4, 4), [][]int32{{2, 7, 12, 17, 22}}, 30, 2, 2, 2, 5},
		{"dart from the rim", sheet(4, 4), [][]int32{{2, 7, 12}}, 27, 1, 1, 1, 2},
		{"dart the other way", sheet(4, 4), [][]int32{{12, 7, 2}}, 27, 1, 1, 1, 2},
		{"slit within", sheet(4, 4), [][]int32{{6, 7, 8}}, 26, 2, 0, 1, 1},
		{"one edge within opens nothing", sheet(4, 4), [][]int32{{6, 7}}, 25, 1, 1, 1, 0},
		{"one edge from rim to rim", sheet(2, 1), [][]int32{{1, 4}}, 8, 2, 2, 2, 2},
		{"along the rim", sheet(4, 4), [][]int32{{0, 1, 2}}, 25, 1, 1, 1, 0},
		{"closed loop", sheet(4, 4), [][]int32{ring}, 33, 3, 1, 2, 8},
		{"two that cross", sheet(4, 4), [][]int32{{2, 7, 12, 17, 22}, {10, 11, 12, 13, 14}}, 36, 4, 4, 4, 11},
		{"a fork", sheet(4, 4), [][]int32{{2, 7, 12}, {12, 11}, {12, 13}}, 29, 1, 1, 1, 4},
		{"twice the same", sheet(4, 4), [][]int32{{2, 7, 12}, {2, 7, 12}}, 27, 1, 1, 1, 2},
		{"tube", tube(6), [][]int32{{0, 6}}, 14, 1, 1, 1, 2},
		{"torus along a loop", torus(4, 3, 3, 1), [][]int32{{0, 1, 2, 3, 0}}, 16, 2, 0, 1, 4},
		{"torus to a disc", torus(4, 3, 3, 1), [][]int32{{0, 1, 2, 3, 0}, {0, 4, 8, 0}}, 20, 1, 1, 1, 8},
		{"box", box(mesh.Vec{}), [][]int32{{0, 1, 3, 2}}, 10, 1, 1, 1, 2},
	} {
		got, source, err := c.m.Cut(c.paths)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		a := got.Adjacency()
		_, parts := a.Components()
		doubled := len(got.Points) - len(c.m.Points)
		if len(got.Points) != c.points || len(a.BoundaryLoops()) != c.loops || a.Euler() != c.chi || parts != c.components || doubled != c.doubled {
			t.Errorf("%s: %d points, %d loops, chi %d, %d components; want %d, %d, %d, %d", c.name,
				len(got.Points), len(a.BoundaryLoops()), a.Euler(), parts, c.points, c.loops, c.chi, c.components)
		}
		checkSource(t, c.name, c.m, got, source)
	}
}

func checkSource(t *testing.T, name string, was, got mesh.Mesh, source []int32) {
	t.Helper()
	if len(source) != len(got.Points) || len(got.Faces) != len(was.Faces) {
		t.Fatalf("%s: %d sources of %d points, %d faces of %d", name, len(source), len(got.Points), len(got.Faces), len(was.Faces))
	}
	for v := range was.Points {
		if source[v] != int32(v) {
			t.Errorf("%s: vertex %d comes from %d", name, v, source[v])
		}
	}
	for f, face := range got.Faces {
		for k, v := range face {
			if source[v] != was.Faces[f][k] || got.Points[v] != was.Points[source[v]] {
				t.Errorf("%s: corner %d of face %d has source %d, was %d", name, k, f, source[v], was.Faces[f][k])
			}
		}
	}
}

func TestCut_Refuses(t *testing.T) {
	for _, c := range []struct {
		paths [][]int32
		says  string
	}{
		{[][]int32{{0, 1}, {0, 1, 12}}, "cut 2, step 2: no edge runs from vertex 1 to vertex 12"},
		{[][]int32{{0}}, "cut 1: "},
		{[][]int32{{0, 25}}, "no vertex 25"},
		{[][]int32{{-1, 0}}, "no vertex -1"},
		{[][]int32{{0, 0}}, "no edge"},
	} {
		_, _, err := sheet(4, 4).Cut(c.paths)
		if kind(t, err, fault.Invalid); err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %q does not say %q", c.paths, err, c.says)
		}
	}
}

func TestCut_PartsTips(t *testing.T) {
	// two boxes that share one corner
	m := both(box(mesh.Vec{}), box(mesh.Vec{X: 1, Y: 1, Z: 1}))
	for f, face := range m.Faces {
		for k, v := range face {
			if v == 8 {
				m.Faces[f][k] = 7
			}
		}
	}
	got, source, err := m.Cut(nil)
	if err != nil || len(got.Points) != 17 || source[16] != 7 {
		t.Errorf("%d points, last from %v, %v; want 17, the last from 7", len(got.Points), source[16:], err)
	}
}
