package metal_test

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/rates"
	"fettle/stage/metal"
)

// plate is a square of 200 mm with a height at each place.
func plate(height func(x, y float64) float64) mesh.Mesh {
	const n = 24
	var m mesh.Mesh
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 200*float64(i)/n-100, 200*float64(j)/n-100
			m.Points = append(m.Points, mesh.Vec{X: x, Y: y, Z: height(x, y)})
		}
	}
	for j := range int32(n) {
		for i := range int32(n) {
			a := j*(n+1) + i
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, a + n + 2}, mesh.Face{a, a + n + 2, a + n + 1})
		}
	}
	return m
}

func crown(high float64) func(x, y float64) float64 {
	return func(x, y float64) float64 {
		return high * math.Cos(x*math.Pi/200) * math.Cos(y*math.Pi/200)
	}
}

func made(t *testing.T, m mesh.Mesh, a metal.PanelAsk) metal.Panel {
	t.Helper()
	p, err := metal.LayPanel(t.Context(), m, a)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestLayPanel: what is bent one way only is neither stretched nor shrunk; a
// crown is, the more the deeper it is; and the thickness follows the area.
func TestLayPanel(t *testing.T) {
	ask := metal.PanelAsk{Grade: "DC04", Gauge: mm}
	rolled := made(t, plate(func(x, _ float64) float64 { return x * x / 600 }), ask)
	if f := rolled.Forming; f.Stretched+f.Shrunk > 0.001 || math.Abs(f.Ratio-1) > 0.001 {
		t.Errorf("a rolled sheet is formed: %+v", f)
	}
	low, high := made(t, plate(crown(8)), ask), made(t, plate(crown(40)), ask)
	if low.Forming.Worst >= high.Forming.Worst || high.Forming.Stretched < 0.1 || high.Forming.Worst <= 0 {
		t.Errorf("crowns: %+v and %+v", low.Forming, high.Forming)
	}
	for i := range high.Areas {
		if r, thick := high.Ratio(i), high.Result.Faces[i].Thick; math.Abs(r*(1+thick)-1) > 1e-9 {
			t.Fatalf("face %d: area %g, thickness %g", i, r, thick)
		}
	}
	for _, f := range high.Figures() {
		if f.Text == "" || f.With == "" || len(f.Inputs) == 0 {
			t.Errorf("without its working: %+v", f)
		}
	}
	if _, err := metal.LayPanel(t.Context(), plate(crown(8)), metal.PanelAsk{Grade: "butter", Gauge: mm}); err == nil {
		t.Error("a panel of butter")
	}
}

// TestLayPanel_HolesStay: a vent in a crowned panel is a hole of its blank, and
// nothing is cut to it.
func TestLayPanel_HolesStay(t *testing.T) {
	m := plate(crown(8))
	var kept []mesh.Face
	for _, f := range m.Faces {
		if c := m.Points[f[0]].Add(m.Points[f[2]]).Scale(0.5); math.Abs(c.X-40) > 20 || math.Abs(c.Y) > 10 {
			kept = append(kept, f)
		}
	}
	m.Faces = kept
	p := made(t, m, metal.PanelAsk{Grade: "DC04", Gauge: mm})
	out := p.Outlines()
	if len(p.Result.Cuts) > 0 || len(out) != 1 || len(out[0].Holes) != 1 {
		t.Fatalf("%d cuts, %d outlines", len(p.Result.Cuts), len(out))
	}
	if flat := p.Forming.Ratio * out[0].Area(); math.Abs(flat/m.Area()-1) > 1e-3 {
		t.Errorf("the blank stretches to %.1f mm², the panel has %.1f", flat, m.Area())
	}
}

// TestLayPanel_Mirrored: the other hand has the mirror image for its sheet, and
// is formed as much.
func TestLayPanel_Mirrored(t *testing.T) {
	m := plate(func(x, y float64) float64 { return crown(20)(x, y) + x*y/400 + x*x/500 })
	a := made(t, m, metal.PanelAsk{Grade: "DC03", Gauge: mm})
	b := made(t, m, metal.PanelAsk{Grade: "DC03", Gauge: mm, Mirror: true})
	if d := a.Outlines()[0].Area() - b.Outlines()[0].Area(); math.Abs(d) > 4 || math.Abs(a.Forming.Worst-b.Forming.Worst) > 0.01 {
		t.Errorf("areas differ by %.2f mm², worst %.3f and %.3f", d, a.Forming.Worst, b.Forming.Worst)
	}
}

func TestPanelBlank_AndAnotherScan(t *testing.T) {
	ring := []geom.Point{{X: -10, Y: -20}, {X: 90, Y: -20}, {X: 90, Y: 30}, {X: -10, Y: 30}}
	from := build.Surface{ID: "U1", Scan: build.ScanHash(strings.Repeat("ab", 32))}
	one, err := metal.PanelBlank(build.Blank{ID: "B1", Name: "valance", Gauge: mm, Quantity: 1}, from, geom.Polygon{Outer: ring})
	if err != nil || one.Width != 100*mm || one.Height != 50*mm || one.Shape.Outer[0] != (build.Spot{}) || one.Surface != "U1" {
		t.Fatalf("%+v, %v", one, err)
	}
	if _, err := metal.PanelBlank(one, from, geom.Polygon{}); err == nil {
		t.Error("a blank of nothing")
	}
	b := build.Build{Blanks: []build.Blank{one}, Surfaces: []build.Surface{from}}
	if list := (metal.Stage{}).TakeOff(&b, rates.Default()).Checks; len(list) != 0 {
		t.Errorf("told of the same scan: %+v", list)
	}
	b.Surfaces[0].Scan = build.ScanHash(strings.Repeat("cd", 32))
	if list := (metal.Stage{}).TakeOff(&b, rates.Default()).Checks; len(list) != 1 || list[0].ID != "scan/B1" {
		t.Errorf("another scan: %+v", list)
	}
}
