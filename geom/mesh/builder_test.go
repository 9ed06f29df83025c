package mesh_test

import (
	"math"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

func TestBuilder_Limits(t *testing.T) {
	b := mesh.Builder{Limits: mesh.Limits{Bytes: 100, Points: 3, Faces: 1}}
	for range 3 {
		if err := b.Point(mesh.Vec{}); err != nil {
			t.Fatal(err)
		}
	}
	if err := b.Face([3]int64{0, 1, 2}, nil); err != nil {
		t.Fatal(err)
	}
	kind(t, b.Point(mesh.Vec{}), fault.TooLarge)
	kind(t, b.Face([3]int64{0, 1, 2}, nil), fault.TooLarge)
	kind(t, b.Expect(1, 0), fault.TooLarge)
	kind(t, b.Expect(0, 1), fault.TooLarge)
	kind(t, b.Expect(-1, 0), fault.Invalid)
	kind(t, b.Limits.Size(101), fault.TooLarge)
	if err := b.Limits.Size(100); err != nil {
		t.Error(err)
	}
}

func TestBuilder_Refuses(t *testing.T) {
	var b mesh.Builder
	kind(t, b.Point(mesh.Vec{Y: math.NaN()}), fault.Invalid)
	kind(t, b.Point(mesh.Vec{Z: math.Inf(-1)}), fault.Invalid)
	kind(t, b.Point(mesh.Vec{X: 2e9}), fault.Invalid)
	b.Point(mesh.Vec{})
	kind(t, b.Face([3]int64{0, 0, 1}, nil), fault.Invalid)
	kind(t, b.Polygon([]int64{0, 0, 0, -1}, nil), fault.Invalid)
	kind(t, b.Polygon([]int64{0, 0}, nil), fault.Invalid)
	kind(t, b.Polygon(make([]int64, 1001), nil), fault.Invalid)
}

func TestBuilder_Shared(t *testing.T) {
	var b mesh.Builder
	for range 2 {
		for i := range 5000 {
			v, err := b.Shared(mesh.Vec{X: float64(i % 70), Y: float64(i / 70)})
			if err != nil || v != int64(i) {
				t.Fatalf("point %d is %d, %v", i, v, err)
			}
		}
	}
	zero, _ := b.Shared(mesh.Vec{X: math.Copysign(0, -1)})
	if zero != 0 || b.Points() != 5000 {
		t.Errorf("-0 is point %d of %d", zero, b.Points())
	}
}

func TestBuilder_UV(t *testing.T) {
	var b mesh.Builder
	for range 3 {
		b.Point(mesh.Vec{})
	}
	uv := &[3]geom.Point{{X: 1}, {X: 2}, {X: 3}}
	b.Face([3]int64{0, 1, 2}, uv)
	if got := b.Model(); len(got.UV) != 3 || got.UV[2].X != 3 || got.Left != nil {
		t.Errorf("model %+v", got)
	}
	b.Face([3]int64{0, 1, 2}, nil)
	b.Leave("lines")
	b.Leave("lines")
	if got := b.Model(); got.UV != nil || len(got.Left) != 2 || got.Left[0].Count != 2 {
		t.Errorf("model %+v", got)
	}
}

func TestBuilder_Polygon(t *testing.T) {
	for _, c := range []struct {
		name string
		p    []mesh.Vec
		area float64
	}{
		{"square", []mesh.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, 1},
		{"arrow, tip first", []mesh.Vec{{}, {X: 3, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}}, 2},
		{"arrow, notch first", []mesh.Vec{{X: 1, Y: 1}, {X: 1, Y: 3}, {}, {X: 3, Y: 1}}, 2},
		{"L standing up", []mesh.Vec{{}, {Z: 3}, {X: 1, Z: 3}, {X: 1, Z: 1}, {X: 3, Z: 1}, {X: 3}}, 5},
		{"comb", []mesh.Vec{{}, {X: 5}, {X: 5, Y: 4}, {X: 4, Y: 1}, {X: 3, Y: 4}, {X: 2, Y: 1}, {X: 1, Y: 4}, {X: 0.5, Y: 1}}, 11.5},
	} {
		var b mesh.Builder
		var corners []int64
		var uv []geom.Point
		for i, p := range c.p {
			b.Point(p)
			corners, uv = append(corners, int64(i)), append(uv, geom.Point{X: p.X, Y: p.Y + p.Z})
		}
		if err := b.Polygon(corners, uv); err != nil {
			t.Fatal(err)
		}
		m := b.Model()
		var out mesh.Vec
		for f := range m.Mesh.Faces {
			out = out.Add(m.Mesh.FaceNormal(f).Scale(m.Mesh.FaceArea(f)))
		}
		if len(m.Mesh.Faces) != len(c.p)-2 || len(m.UV) != 3*len(m.Mesh.Faces) {
			t.Errorf("%s: %d faces, %d flat places", c.name, len(m.Mesh.Faces), len(m.UV))
		}
		near(t, c.name+": area", m.Mesh.Area(), c.area, 1e-12)
		near(t, c.name+": area facing one way", out.Length(), c.area, 1e-12)
	}
}

// TestBuilder_PolygonAnyway cuts up what no triangles fit.
func TestBuilder_PolygonAnyway(t *testing.T) {
	var b mesh.Builder
	var star []int64
	for i := range 7 {
		s, c := math.Sincos(float64(i) * 6 * math.Pi / 7)
		b.Point(mesh.Vec{X: c, Y: s})
		star = append(star, int64(i))
	}
	if err := b.Polygon(star, nil); err != nil || len(b.Model().Mesh.Faces) != 5 {
		t.Errorf("a star: %d faces, %v", len(b.Model().Mesh.Faces), err)
	}
	if err := b.Polygon(make([]int64, 6), nil); err != nil {
		t.Errorf("six times one point: %v", err)
	}
}
