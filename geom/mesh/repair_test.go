package mesh_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/geom/mesh"
)

// soup gives every face points of its own.
func soup(m mesh.Mesh) mesh.Mesh {
	var out mesh.Mesh
	for _, f := range m.Faces {
		n := int32(len(out.Points))
		out.Points = append(out.Points, m.Points[f[0]], m.Points[f[1]], m.Points[f[2]])
		out.Faces = append(out.Faces, mesh.Face{n, n + 1, n + 2})
	}
	return out
}

// add puts faces to a mesh.
func add(m mesh.Mesh, p []mesh.Vec, f ...mesh.Face) mesh.Mesh {
	return mesh.Mesh{Points: slices.Concat(m.Points, p), Faces: slices.Concat(m.Faces, f)}
}

// turned turns single faces over.
func turned(m mesh.Mesh, which ...int) mesh.Mesh {
	m.Faces = slices.Clone(m.Faces)
	for _, f := range which {
		m.Faces[f] = m.Faces[f].Flip()
	}
	return m
}

// moebius is a band of n squares with one side.
func moebius(n int) mesh.Mesh {
	m := sheet(n, 1)
	for i := range m.Points {
		s, c := math.Sincos(2 * math.Pi * m.Points[i].X / float64(n))
		t, k := math.Sincos(math.Pi * m.Points[i].X / float64(n))
		w := m.Points[i].Y - 0.5
		m.Points[i] = mesh.Vec{X: (3 + w*k) * c, Y: (3 + w*k) * s, Z: w * t}
	}
	welded, _ := m.Weld(1e-9)
	return welded
}

// pinch is two boxes that share one corner.
func pinch() mesh.Mesh {
	m, _ := both(box(mesh.Vec{}), box(mesh.Vec{X: 1, Y: 1, Z: 1})).Weld(0)
	return m
}

// fin is a sheet with a third face on the edge between 12 and 13.
func fin() mesh.Mesh {
	return add(sheet(4, 4), []mesh.Vec{{X: 2.5, Y: 2, Z: 1}}, mesh.Face{12, 13, 25})
}

// tee is a sheet with another standing on it from rim to rim.
func tee() mesh.Mesh {
	up := sheet(4, 2)
	for i, p := range up.Points {
		up.Points[i] = mesh.Vec{X: p.X, Y: 2, Z: p.Y}
	}
	m, _ := both(sheet(4, 4), up).Weld(0)
	return m
}

func holed() mesh.Mesh {
	m := sheet(6, 6)
	m.Faces = slices.Delete(m.Faces, 2*(6*2+2), 2*(6*2+3))
	return m
}

func TestRepair(t *testing.T) {
	weld := mesh.RepairOptions{Weld: true}
	for _, c := range []struct {
		name     string
		m        mesh.Mesh
		o        mesh.RepairOptions
		did      string
		v, f     int
		loops    int
		euler    int
		areaLess float64
	}{
		{"empty", mesh.Mesh{}, weld, "", 0, 0, 0, 0, 0},
		{"sound", sheet(4, 4), weld, "", 25, 32, 1, 1, 0},
		{"soup", soup(sheet(4, 4)), weld, "Welded 71", 25, 32, 1, 1, 0},
		{"soup left", soup(sheet(1, 1)), mesh.RepairOptions{}, "", 6, 2, 2, 2, 0},
		{"unused", add(sheet(4, 4), make([]mesh.Vec, 3)), mesh.RepairOptions{}, "Unused 3", 25, 32, 1, 1, 0},
		{"degenerate", add(sheet(4, 4), nil, mesh.Face{3, 3, 4}, mesh.Face{1, 2, 1}), mesh.RepairOptions{}, "Degenerate 2", 25, 32, 1, 1, 0},
		{"twice", add(sheet(4, 4), nil, sheet(4, 4).Faces[0].Flip(), sheet(4, 4).Faces[7]), mesh.RepairOptions{}, "Duplicate 2", 25, 32, 1, 1, 1},
		{"against", turned(sheet(4, 4), 3, 8, 30), mesh.RepairOptions{}, "TurnedOver 3", 25, 32, 1, 1, 0},
		{"inside out", flipped(box(mesh.Vec{})), mesh.RepairOptions{}, "InsideOut 1", 8, 12, 0, 2, 0},
		{"inside out and against", turned(flipped(box(mesh.Vec{})), 5), mesh.RepairOptions{}, "TurnedOver 1, InsideOut 1", 8, 12, 0, 2, 0},
		{"fin", fin(), mesh.RepairOptions{}, "SheetsParted 2", 28, 33, 2, 2, 0},
		{"tee", tee(), mesh.RepairOptions{}, "SheetsParted 5", 40, 48, 2, 2, 0},
		{"pinch", pinch(), mesh.RepairOptions{}, "SheetsParted 1", 16, 24, 0, 4, 0},
		{"one side", moebius(12), mesh.RepairOptions{}, "TurnedOver 10, SheetsParted 2", 26, 24, 1, 1, 0},
		{"hole left", holed(), mesh.RepairOptions{Longest: 3.9}, "HoleLeft 1", 49, 70, 2, 0, 0},
		{"hole filled", holed(), mesh.RepairOptions{Longest: 4.1}, "HoleFilled 1", 49, 72, 1, 1, -1},
	} {
		got, source, did := c.m.Repair(c.o)
		a := got.Adjacency()
		if len(got.Points) != c.v || len(got.Faces) != c.f || len(a.BoundaryLoops()) != c.loops || a.Euler() != c.euler || len(a.Tangled) > 0 {
			t.Errorf("%s: %d points, %d faces, %d loops, chi %d, %d tangled; want %d, %d, %d, %d, 0", c.name,
				len(got.Points), len(got.Faces), len(a.BoundaryLoops()), a.Euler(), len(a.Tangled), c.v, c.f, c.loops, c.euler)
		}
		if s := names(did); s != c.did {
			t.Errorf("%s: did %q, want %q", c.name, s, c.did)
		}
		near(t, c.name+": area lost", c.m.Area()-got.Area(), c.areaLess, 1e-9)
		for v, p := range got.Points {
			if c.m.Points[source[v]] != p {
				t.Errorf("%s: point %d is not at its source %d", c.name, v, source[v])
			}
		}
		if _, _, again := got.Repair(c.o); strings.TrimPrefix(names(again), "HoleLeft 1") != "" {
			t.Errorf("%s: repaired once more: %s", c.name, names(again))
		}
	}
}

var fixNames = []string{"Welded", "Degenerate", "Duplicate", "Needle", "TurnedOver", "InsideOut", "SheetsParted", "HoleFilled", "HoleLeft", "Unused"}

func names(did []mesh.Repair) string {
	var list []string
	for _, r := range did {
		list = append(list, fmt.Sprintf("%s %d", fixNames[r.What], r.Count))
		if s := r.String(); strings.Contains(s, "%!") {
			list = append(list, s)
		}
	}
	return strings.Join(list, ", ")
}

func TestRepair_Needle(t *testing.T) {
	// the diagonal of a square, from 6 to 12, has a vertex on it that one side knows
	m := add(sheet(4, 4), []mesh.Vec{{X: 1.5, Y: 1.5}})
	at := slices.Index(m.Faces, mesh.Face{6, 7, 12})
	far := m.Faces[at][2] // 12: its diagonal runs from 6
	m.Faces[at] = mesh.Face{6, 7, 25}
	m.Faces = append(m.Faces, mesh.Face{7, far, 25}, mesh.Face{6, 25, far})
	got, _, did := m.Repair(mesh.RepairOptions{})
	if names(did) != "Needle 1" || len(got.Faces) != 34 || got.Euler() != 1 {
		t.Errorf("did %q, %d faces, chi %d", names(did), len(got.Faces), got.Euler())
	}
	near(t, "area", got.Area(), 16, 1e-12)
	for f := range got.Faces {
		if got.FaceArea(f) < 0.1 || got.FaceNormal(f).Z < 0.9 {
			t.Errorf("face %d has area %g, normal %v", f, got.FaceArea(f), got.FaceNormal(f))
		}
	}
}

func TestWeld(t *testing.T) {
	m := soup(sheet(20, 20))
	for i := range m.Points {
		m.Points[i] = m.Points[i].Add(mesh.Vec{X: 0.01 * math.Sin(float64(i)), Y: 0.01 * math.Cos(float64(3*i)), Z: 1e4})
	}
	if got, _ := m.Weld(0); len(got.Points) != len(m.Points) {
		t.Errorf("%d points at the same place, want none", len(m.Points)-len(got.Points))
	}
	got, renamed := m.Weld(0.05)
	if len(got.Points) != 21*21 || got.Euler() != 1 {
		t.Errorf("%d points, chi %d; want %d, 1", len(got.Points), got.Euler(), 21*21)
	}
	for i, to := range renamed {
		if d := got.Points[to].Sub(m.Points[i]).Length(); d > 0.05 {
			t.Errorf("point %d moved by %g", i, d)
		}
	}
	far := mesh.Mesh{Points: []mesh.Vec{{X: 1e9}, {X: -1e9}, {X: 1e9}}}
	if got, _ := far.Weld(1e-12); len(got.Points) != 2 {
		t.Errorf("far out: %d points, want 2", len(got.Points))
	}
}

func BenchmarkRepair(b *testing.B) {
	m := soup(sheet(224, 224))
	for b.Loop() {
		m.Repair(mesh.RepairOptions{Weld: true, Within: 1e-3})
	}
}
