package pieces_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/flatten"
	"fettle/engine/flatten/pieces"
	"fettle/geom"
	"fettle/geom/mesh"
)

// roll is a sheet of 10 by 4 cells, 100 by 40 mm, rolled about its short side.
func roll() mesh.Mesh {
	var m mesh.Mesh
	for j := range 5 {
		for i := range 11 {
			s, c := math.Sincos(float64(i) / 10)
			m.Points = append(m.Points, mesh.Vec{X: 100 * s, Y: 10 * float64(j), Z: 100 * c})
		}
	}
	for j := range int32(4) {
		for i := range int32(10) {
			a := j*11 + i
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, a + 12}, mesh.Face{a, a + 12, a + 11})
		}
	}
	return m
}

// TestLay: what a cut parts lies beside each other, each piece true to the
// surface; without one it lies whole.
func TestLay(t *testing.T) {
	m := roll()
	across := []int32{4, 15, 26, 37, 48}
	for _, c := range []struct {
		cuts [][]int32
		want int
	}{{nil, 1}, {[][]int32{across[:3]}, 1}, {[][]int32{across}, 2}} {
		l, err := pieces.Lay(t.Context(), flatten.Problem{Surface: m, Cuts: c.cuts}, flatten.Options{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		flat := l.Result.Flat
		solid := mesh.Mesh{Points: make([]mesh.Vec, len(flat.Points)), Faces: flat.Faces}
		for i, p := range flat.Points {
			solid.Points[i] = mesh.Vec{X: p.X, Y: p.Y}
		}
		if n := len(solid.Parts()); n != c.want || math.Abs(solid.Area()-m.Area()) > 1e-4*m.Area() {
			t.Errorf("%d cuts: %d pieces of %.3f, want %d of %.3f", len(c.cuts), n, solid.Area(), c.want, m.Area())
		}
		for i, f := range flat.Faces {
			for k, v := range f {
				if flat.Source[v] != m.Faces[i][k] {
					t.Fatalf("face %d of the flat has vertex %d for %d", i, flat.Source[v], m.Faces[i][k])
				}
			}
		}
	}
}

func TestLay_NamesThePieceAtFault(t *testing.T) {
	m := roll()
	ring := roll()
	for _, p := range ring.Points {
		m.Points = append(m.Points, p.Add(mesh.Vec{Y: 500}))
	}
	for _, f := range ring.Faces {
		m.Faces = append(m.Faces, mesh.Face{f[0] + 55, f[1] + 55, f[2] + 55})
	}
	m.Points[60] = mesh.Vec{X: math.NaN()}
	if _, err := pieces.Lay(t.Context(), flatten.Problem{Surface: m}, flatten.Options{Seed: 1}); err == nil || !strings.Contains(err.Error(), "piece 2") {
		t.Errorf("said of a vertex that is nowhere: %v", err)
	}
}

// TestSidesOf: both sides of a cut across a rolled sheet are as long as the cut
// and begin where it begins.
func TestSidesOf(t *testing.T) {
	m := roll()
	l, err := pieces.Lay(t.Context(), flatten.Problem{Surface: m, Cuts: [][]int32{{4, 15, 26, 37, 48}}}, flatten.Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	list := pieces.SidesOf(m, l.Result)
	if len(list) != 1 || math.Abs(list[0].On-40) > 1e-9 {
		t.Fatalf("%+v", list)
	}
	for i, side := range list[0].Edges {
		if len(side) != 5 || math.Abs(side[0].Distance(side[4])-40) > 0.01 {
			t.Errorf("side %d: %v", i, side)
		}
	}
}

// TestLoops: of two pieces with a window in one, each has its own outline, the
// larger first, and the window is that of its piece.
func TestLoops(t *testing.T) {
	m := roll()
	var faces []mesh.Face
	for i, f := range m.Faces {
		if i/2 != 10+7 && i/2 != 10+8 { // two cells of the second row are left out
			faces = append(faces, f)
		}
	}
	m.Faces = faces
	across := []int32{4, 15, 26, 37, 48}
	opened, source, err := m.Cut([][]int32{across})
	if err != nil {
		t.Fatal(err)
	}
	flat := flatten.Flat{Faces: opened.Faces, Source: source}
	for _, v := range source {
		flat.Points = append(flat.Points, geom.Point{X: float64(v % 11), Y: float64(v / 11)})
	}
	list := pieces.Loops(flat)
	if len(list) != 2 || len(list[0]) != 2 || len(list[1]) != 1 {
		t.Fatalf("%d pieces: %v", len(list), list)
	}
	for i, want := range []float64{24, 16} {
		if a := math.Abs(geom.RingArea(pieces.Ring(flat, list[i][0]))); a != want {
			t.Errorf("outline %d encloses %g, want %g", i, a, want)
		}
	}
	if a := math.Abs(geom.RingArea(pieces.Ring(flat, list[0][1]))); a != 2 {
		t.Errorf("the window has %g, want 2", a)
	}
}
