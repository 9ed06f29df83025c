package surface

import (
	"strings"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// tent is a square of 10 mm with its middle 5 mm up.
func tent() Solid {
	return Solid{Points: []mesh.Vec{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}, {X: 5, Y: 5, Z: 5}},
		Faces: []mesh.Face{{0, 1, 4}, {1, 2, 4}, {2, 3, 4}, {3, 0, 4}}, Class: []Class{Lies, Pulled, Wrinkles, Past}, Cuts: [][]int32{{0, 4}}, Spots: []Spot{{1, "1"}}, Marks: []int32{2}}
}

func TestView_Eye(t *testing.T) {
	p := mesh.Vec{X: 1, Y: 2, Z: 3}
	for _, c := range []struct {
		side string
		want mesh.Vec
	}{{"front", mesh.Vec{X: 1, Y: 3, Z: -2}}, {"above", mesh.Vec{X: 1, Y: 2, Z: 3}}, {"back", mesh.Vec{X: -1, Y: 3, Z: 2}}, {"below", mesh.Vec{X: 1, Y: -2, Z: -3}}, {"right", mesh.Vec{X: 2, Y: 3, Z: 1}}} {
		if got := Side(c.side).eye()(p); got.Sub(c.want).Length() > 1e-9 {
			t.Errorf("from %s: %v, want %v", c.side, got, c.want)
		}
	}
	if Side("nowhere").Key != "corner" {
		t.Error("a side that is none is not the first")
	}
}

func TestSee_FarFacesFirst(t *testing.T) {
	got := see(tent(), Side("front").View)
	if len(got.Runs) != 4 {
		t.Fatalf("%d runs", len(got.Runs))
	}
	if first, last := got.Runs[0].Class, got.Runs[3].Class; first != Wrinkles || last != Lies {
		t.Errorf("the far face is %s, the near one %s", first, last)
	}
	if n := strings.Count(got.Edges, "M"); n != 4 {
		t.Errorf("%d edges on the rim", n)
	}
	if len(got.Cuts) != 1 || len(got.Spots) != 1 || got.Marks[0].Text != "2" {
		t.Errorf("%+v", got)
	}
}

func TestFit_WithinTheFrame(t *testing.T) {
	list := []mesh.Vec{{X: -3, Y: 900}, {X: 4000, Y: 1000}, {X: 7, Y: -20}}
	high := fit(list)
	for _, p := range list {
		if p.X < room-1e-9 || p.X > frame-room+1e-9 || p.Y < room-1e-9 || p.Y > high-room+1e-9 {
			t.Errorf("%v lies outside of %.0f × %.0f", p, frame, high)
		}
	}
}

func TestLaid_OnePathAClass(t *testing.T) {
	s := tent()
	f := Flat{Faces: s.Faces, Class: []Class{Lies, Lies, Past, Lies}}
	for _, p := range s.Points {
		f.Points = append(f.Points, geom.Point{X: p.X, Y: p.Y})
	}
	got := laid(f)
	if len(got.Runs) != 2 || got.Runs[1].Class != Past || strings.Count(got.Runs[0].D, "Z") != 3 {
		t.Errorf("%+v", got.Runs)
	}
}

func TestDraw_NeverByColourAlone(t *testing.T) {
	var b strings.Builder
	if err := Draw(tent(), Side("above"), "tent").Render(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`aria-label="tent, seen from: Above"`, "url(#sf-h-1)", "url(#sf-h-3)", "url(#sf-h-5)", "sf-cut", ">1</text>"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("the picture lacks %q", want)
		}
	}
	b.Reset()
	bands := []Band{{Pulled, "1 to 2", "2 to 3", 0.25}}
	if err := Legend(bands).Render(t.Context(), &b); err != nil || !strings.Contains(b.String(), "pull by hand") || !strings.Contains(b.String(), "25.0 %") {
		t.Errorf("the legend: %v", err)
	}
}

func TestShade_BothSides(t *testing.T) {
	at := []mesh.Vec{{}, {X: 1}, {Y: 1}}
	if a, b := shade(at, mesh.Face{0, 1, 2}), shade(at, mesh.Face{0, 2, 1}); a != b || a < 0 || a >= Lights {
		t.Errorf("tones %d and %d", a, b)
	}
}
