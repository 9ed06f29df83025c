package flatten

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

// areaOf sums up the areas of faces, and by their way round z.
func areaOf(m mesh.Mesh, faces []mesh.Face) (whole, up float64) {
	for _, f := range faces {
		n := m.Points[f[1]].Sub(m.Points[f[0]]).Cross(m.Points[f[2]].Sub(m.Points[f[0]]))
		whole, up = whole+n.Length()/2, up+n.Z/2
	}
	return whole, up
}

// A hole in a level piece is spanned without a fold, however crooked it is; the
// faces lie the other way round than the hole runs.
func TestSpan_OfLevelHoles(t *testing.T) {
	comb := [][2]float64{{0, 0}, {0, 1}}
	for i := range 6 {
		x := float64(2 * i)
		comb = append(comb, [2]float64{x, 9}, [2]float64{x + 1, 9}, [2]float64{x + 1, 1})
	}
	comb = append(comb, [2]float64{11, 0})
	var spiral [][2]float64
	for i := range 40 {
		s, c := math.Sincos(float64(i) / 4)
		spiral = append(spiral, [2]float64{(2 + float64(i)/8) * c, -(2 + float64(i)/8) * s})
	}
	for i := 39; i >= 0; i-- {
		s, c := math.Sincos(float64(i) / 4)
		spiral = append(spiral, [2]float64{(1.5 + float64(i)/8) * c, -(1.5 + float64(i)/8) * s})
	}
	for name, corners := range map[string][][2]float64{
		"three":            {{0, 0}, {0, 1}, {1, 0}},
		"a square":         {{0, 0}, {0, 2}, {2, 2}, {2, 0}},
		"corners in lines": {{0, 0}, {0, 1}, {0, 2}, {1, 2}, {2, 2}, {2, 1}, {2, 0}, {1, 0}},
		"a U":              {{0, 0}, {0, 4}, {1, 4}, {1, 1}, {2, 1}, {2, 4}, {3, 4}, {3, 0}},
		"a comb":           comb,
		"a spiral":         spiral,
	} {
		m, ring := loop(corners...)
		faces := span(m, mesh.Mesh{Points: m.Points}.Adjacency(), ring)
		var want float64
		for i, a := range corners {
			b := corners[(i+1)%len(corners)]
			want -= (a[0]*b[1] - a[1]*b[0]) / 2
		}
		whole, up := areaOf(m, faces)
		if len(faces) != len(corners)-2 || math.Abs(whole-math.Abs(want)) > 1e-9 || math.Abs(up-want) > 1e-9 {
			t.Errorf("%s: %d faces of %d corners, area %g, upwards %g, want %g", name, len(faces), len(corners), whole, up, want)
		}
	}
}

func TestSpan_UsesNoEdgeThatIsThere(t *testing.T) {
	// A square hole whose two opposite corners are joined by an edge that goes
	// round outside it: over the other diagonal it is spanned.
	m, ring := loop([2]float64{0, 0}, [2]float64{0, 1}, [2]float64{1, 1}, [2]float64{1, 0})
	m.Points = append(m.Points, mesh.Vec{X: 2, Y: 2, Z: 1})
	m.Faces = []mesh.Face{{0, 2, 4}}
	faces := span(m, m.Adjacency(), ring)
	if len(faces) != 2 {
		t.Fatalf("%v", faces)
	}
	for _, f := range faces {
		if has := func(v int32) bool { return f[0] == v || f[1] == v || f[2] == v }; has(0) && has(2) {
			t.Errorf("%v uses the edge from 0 to 2", f)
		}
	}
	m.Faces = append(m.Faces, mesh.Face{1, 4, 3})
	if faces := span(m, m.Adjacency(), ring); faces != nil {
		t.Errorf("%v where both diagonals are there", faces)
	}
}

func TestSpan_Refuses(t *testing.T) {
	two, ring := loop([2]float64{0, 0}, [2]float64{1, 0})
	if faces := span(two, mesh.Mesh{Points: two.Points}.Adjacency(), ring); faces != nil {
		t.Errorf("two corners: %v", faces)
	}
	var corners [][2]float64
	for i := range mostSpan + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / (mostSpan + 1))
		corners = append(corners, [2]float64{c, s})
	}
	many, ring := loop(corners...)
	if faces := span(many, mesh.Mesh{Points: many.Points}.Adjacency(), ring); faces != nil {
		t.Errorf("%d corners: %d faces", len(ring), len(faces))
	}
}

// Corners at one place, as where a hole touches itself, are not joined.
func TestSpan_CornersAtOnePlace(t *testing.T) {
	m, ring := loop([2]float64{0, 0}, [2]float64{-1, 1}, [2]float64{-2, 0}, [2]float64{-1, -1}, [2]float64{0, 0}, [2]float64{1, -1}, [2]float64{2, 0}, [2]float64{1, 1})
	faces := span(m, mesh.Mesh{Points: m.Points}.Adjacency(), ring)
	for _, f := range faces {
		for c := range 3 {
			if m.EdgeLength(f[c], f[(c+1)%3]) == 0 {
				t.Errorf("%v has an edge without length", f)
			}
		}
	}
	if len(faces) != 6 {
		t.Errorf("%v", faces)
	}
}
