package mesh_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/geom/mesh"
)

var troubleNames = []string{"Empty", "NoArea", "Tangled", "Against", "Tips", "FacesIn", "Apart", "Closed", "Holed", "Handled", "Crossed", "Small", "Large"}

func found(list []mesh.Finding) string {
	var names []string
	for _, f := range list {
		names = append(names, fmt.Sprintf("%s %d", troubleNames[f.What], f.Count))
		if strings.Contains(f.String(), "%") {
			names = append(names, f.String())
		}
	}
	return strings.Join(names, ", ")
}

// crossing is two sheets that run through each other.
func crossing() mesh.Mesh {
	up := sheet(2, 2)
	for i, p := range up.Points {
		up.Points[i] = mesh.Vec{X: p.X + 0.9, Y: 1.3 + p.Y/10, Z: p.Y - 1.1}
	}
	return both(sheet(4, 4), up)
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name string
		m    mesh.Mesh
		want string
	}{
		{"empty", mesh.Mesh{Points: make([]mesh.Vec, 3)}, "Empty 0"},
		{"sound", sheet(4, 4), ""},
		{"no area", add(sheet(4, 4), []mesh.Vec{{X: 5}}, mesh.Face{4, 3, 25}), "NoArea 1"},
		{"fin", fin(), "Tangled 1, Apart 2, Holed 1"},
		{"against", turned(sheet(4, 4), 9), "Against 2, Apart 2"},
		{"pinch", pinch(), "Tips 1, Apart 2, Closed 2"},
		{"inside out", flipped(box(mesh.Vec{})), "FacesIn 1, Closed 1"},
		{"two parts", both(sheet(1, 1), box(mesh.Vec{Z: 1})), "Apart 2, Closed 1"},
		{"hole", holed(), "Holed 1"},
		{"tube", tube(9), "Holed 1"},
		{"torus", torus(12, 8, 3, 1), "Closed 1, Handled 1"},
		{"crossing", crossing(), "Apart 2, Crossed"},
	} {
		big := c.m.Scale(100)
		if got := found(big.Check()); got != c.want && !(strings.HasSuffix(c.want, "Crossed") && strings.HasPrefix(got, c.want)) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	if got := found(sheet(4, 4).Scale(1. / 8).Check()); got != "Small 0" {
		t.Errorf("half a millimetre: %q", got)
	}
	if got := found(sheet(4, 4).Scale(4000).Check()); got != "Large 0" {
		t.Errorf("16 m: %q", got)
	}
	if got := sheet(4, 4).Scale(4000).Check()[0].String(); got != "Its longest side is 1.6e+04 mm: is the unit right?" {
		t.Error(got)
	}
	if got := holed().Scale(9).Check()[0].String(); got != "It has a hole." {
		t.Error(got)
	}
	if mesh.Holed.Stops() || !mesh.Tips.Stops() {
		t.Error("a hole stops the work, or a tip does not")
	}
}

func TestParts(t *testing.T) {
	m := both(both(sheet(3, 3), box(mesh.Vec{Z: 5})), torus(6, 5, 3, 1))
	list := m.Parts()
	if len(list) != 3 || list[0].Loops != 1 || list[0].Euler != 1 || list[1].Euler != 2 || list[2].Handles() != 1 {
		t.Fatalf("parts %+v", list)
	}
	near(t, "area of the box", list[1].Area, 6, 1e-12)
	only, source := m.Only(list[1].Faces)
	if len(only.Points) != 8 || len(only.Faces) != 12 || source[0] != 16 || only.Volume() <= 0 {
		t.Errorf("the box alone: %d points, %d faces, from %v", len(only.Points), len(only.Faces), source)
	}
}

func TestCrossings(t *testing.T) {
	tri := func(p ...mesh.Vec) mesh.Mesh { return mesh.Mesh{Points: p, Faces: []mesh.Face{{0, 1, 2}}} }
	floor := tri(mesh.Vec{}, mesh.Vec{X: 4}, mesh.Vec{Y: 4})
	for _, c := range []struct {
		name  string
		other mesh.Mesh
		want  int
	}{
		{"through", tri(mesh.Vec{X: 1, Y: 1, Z: -1}, mesh.Vec{X: 1, Y: 1, Z: 1}, mesh.Vec{X: 9, Y: 9, Z: 1}), 1},
		{"through with a side", tri(mesh.Vec{X: 1, Y: -1, Z: -1}, mesh.Vec{X: 1, Y: -1, Z: 1}, mesh.Vec{X: 1, Y: 9}), 1},
		{"above", tri(mesh.Vec{X: 1, Y: 1, Z: 1e-9}, mesh.Vec{X: 1, Y: 1, Z: 1}, mesh.Vec{X: 9, Y: 9, Z: 1}), 0},
		{"standing on it", tri(mesh.Vec{X: 1, Y: 1}, mesh.Vec{X: 1, Y: 1, Z: 1}, mesh.Vec{X: 2, Y: 1}), 0},
		{"along its side", tri(mesh.Vec{}, mesh.Vec{X: 4}, mesh.Vec{X: 1, Z: 1}), 0},
		{"beside", tri(mesh.Vec{X: 3, Y: 3, Z: -1}, mesh.Vec{X: 3, Y: 3, Z: 1}, mesh.Vec{X: 9, Y: 9, Z: 1}), 0},
		{"on it", tri(mesh.Vec{X: 1, Y: 1}, mesh.Vec{X: 9, Y: 1}, mesh.Vec{X: 1, Y: 9}), 1},
		{"the same", floor, 1},
		{"the same, turned", flipped(floor), 1},
		{"in its plane beside", tri(mesh.Vec{X: 4}, mesh.Vec{X: 4, Y: 4}, mesh.Vec{Y: 4}), 0},
	} {
		for _, move := range []mesh.Affine{mesh.Identity, {{0.6, -0.8, 0, 50}, {0.48, 0.36, 0.8, 7}, {-0.64, -0.48, 0.6, -90}}} {
			m := both(floor, c.other).Transform(move)
			// where faces touch, a turn leaves rounding that may tip the scale
			if got := m.Crossings(9); len(got) != c.want && (move == mesh.Identity || !strings.Contains("standing on it along its side", c.name)) {
				t.Errorf("%s: %v, want %d", c.name, got, c.want)
			}
		}
	}
}

// TestCrossings_All compares the tree with all pairs one by one.
func TestCrossings_All(t *testing.T) {
	m := both(torus(30, 20, 3, 1), torus(30, 20, 3, 1).Transform(mesh.Affine{{0, 0, 1, 2.9}, {1, 0, 0, 0.1}, {0, 1, 0, 0.2}}))
	got := m.Crossings(1 << 20)
	var want [][2]int32
	for f := range int32(len(m.Faces)) {
		for g := f + 1; g < int32(len(m.Faces)); g++ {
			pair := mesh.Mesh{Points: m.Points, Faces: []mesh.Face{m.Faces[f], m.Faces[g]}}
			if len(pair.Crossings(1)) > 0 {
				want = append(want, [2]int32{f, g})
			}
		}
	}
	if len(got) < 100 || !slices.Equal(got, want) {
		t.Errorf("%d crossings, one by one %d", len(got), len(want))
	}
	if got := m.Crossings(7); len(got) != 7 {
		t.Errorf("%d crossings, asked for 7", len(got))
	}
	if got := torus(60, 40, 3, 1).Crossings(9); got != nil {
		t.Errorf("a torus crosses itself: %v", got)
	}
}

func BenchmarkCheck(b *testing.B) {
	m := torus(400, 250, 300, 100)
	for b.Loop() {
		m.Check()
	}
}
