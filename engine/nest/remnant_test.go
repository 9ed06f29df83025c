package nest_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"fettle/engine/nest"
	"fettle/geom"
	"fettle/geom/overlay"
)

func remnants(t *testing.T, p nest.Problem, at ...nest.Placement) []nest.Remnant {
	t.Helper()
	list, err := nest.Remnants(p, at)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestRemnants_KnownSizes compares with rectangles worked out by hand.
func TestRemnants_KnownSizes(t *testing.T) {
	holed := box(0, 0, 100, 60)
	holed.Holes = [][]geom.Point{box(70, 20, 10, 20).Outer}
	turned := nest.Placement{Rotation: 30}
	for _, c := range []struct {
		name   string
		sheet  nest.Container
		at     nest.Placement // of a piece of 25 by 50
		gap    float64
		length float64
		width  float64
	}{
		{"plain", nest.Container{Outline: box(0, 0, 100, 60)}, nest.Placement{}, 0, 75, 60},
		{"clearance and margin", nest.Container{Outline: box(0, 0, 100, 60), Margin: 5}, nest.Placement{X: 5, Y: 5}, 2, 63, 50},
		{"a hole", nest.Container{Outline: holed}, nest.Placement{}, 0, 60, 45},
		{"a zone of any quality", nest.Container{Outline: box(0, 0, 100, 60), Zones: []nest.Zone{{Shape: box(70, 20, 10, 20), Quality: 3}}}, nest.Placement{}, 0, 60, 45},
		{"a keep-out", nest.Container{Outline: box(0, 0, 100, 60), KeepOut: []geom.Polygon{box(25, 0, 75, 45)}}, nest.Placement{}, 0, 75, 15},
		{"a sheet that lies askew", nest.Container{Outline: turned.Lay(box(0, 0, 100, 60)), Margin: 5}, nest.Placement{Rotation: 30, X: 6*math.Cos(math.Pi/6) - 5*0.5, Y: 6*0.5 + 5*math.Cos(math.Pi/6)}, 2, 62, 50},
		{"a triangle, along its longest side", nest.Container{Outline: ring(0, 0, 80, 0, 0, 160)}, nest.Placement{}, 0, math.Hypot(80, 160) * 5 / 8, 60 / math.Sqrt(5)},
	} {
		p := nest.Problem{Kind: nest.Bins, Clearance: c.gap, Containers: []nest.Container{c.sheet}, Pieces: []nest.Piece{{ID: "a", Shape: box(0, 0, 25, 50), Free: true}}}
		list := remnants(t, p, c.at)
		switch {
		case len(list) != 1:
			t.Errorf("%s: %d remnants", c.name, len(list))
		case math.Abs(list[0].Length-c.length) > 0.001 || math.Abs(list[0].Width-c.width) > 0.001:
			t.Errorf("%s: %.4f × %.4f at %v, want %v × %v", c.name, list[0].Length, list[0].Width, list[0].Corners, c.length, c.width)
		}
	}
}

// TestRemnants_NothingOverlaps asks another library whether the rectangles are
// free, and a random search whether they are large.
func TestRemnants_NothingOverlaps(t *testing.T) {
	for seed := uint64(1); seed <= 6; seed++ {
		dice := rand.New(rand.NewPCG(seed, 7))
		p := nest.Problem{Kind: nest.Bins, Clearance: 0.3, Kerf: 0.1, Containers: []nest.Container{drawnHide(dice)}}
		for range 3 {
			p.Pieces = append(p.Pieces, drawnPiece(dice, len(p.Pieces)))
		}
		r := solve(t, p, nest.Options{Seed: seed, Steps: 60})
		for _, left := range remnants(t, p, r.Placements...) {
			solids := kept(p, r.Placements)
			rectangle := []geom.Polygon{{Outer: left.Corners[:]}}
			if over := areaLeft(t)(overlay.Intersect(rectangle, solids)); over > 1e-4 {
				t.Errorf("seed %d: %g of the rectangle is not free", seed, over)
			}
			if out := areaLeft(t)(overlay.Subtract(rectangle, []geom.Polygon{{Outer: p.Containers[0].Outline.Outer}})); out > 0 {
				t.Errorf("seed %d: %g of the rectangle lies beyond the outline", seed, out)
			}
			if other := thrownRectangle(dice, p.Containers[0].Outline.Outer, solids); other > 1.02*left.Area() {
				t.Errorf("seed %d: %.2f found, and by chance %.2f", seed, left.Area(), other)
			}
		}
	}
}

// kept is what a remnant keeps clear of, with a hair less than its distances
// around it.
func kept(p nest.Problem, placements []nest.Placement) []geom.Polygon {
	c := p.Containers[0]
	var list []geom.Polygon
	around := func(shape geom.Polygon, by float64) {
		wide, err := overlay.Offset([]geom.Polygon{shape}, by-0.002, overlay.Round{Chord: 0.001})
		if err != nil {
			panic(err)
		}
		list = append(list, wide...)
	}
	for _, at := range placements {
		around(at.Lay(p.Pieces[at.Piece].Shape), p.Clearance+p.Kerf)
	}
	for _, h := range c.Outline.Holes {
		around(geom.Polygon{Outer: h}, c.Margin)
	}
	for _, k := range c.KeepOut {
		around(k, c.Margin)
	}
	for _, z := range c.Zones {
		around(z.Shape, c.Margin)
	}
	return list
}

// thrownRectangle throws rectangles at a hide and returns the largest that
// meets nothing.
func thrownRectangle(dice *rand.Rand, outline []geom.Point, solids []geom.Polygon) float64 {
	best := 0.0
	for range 20_000 {
		w, h := 30*dice.Float64(), 30*dice.Float64()
		if w*h <= best {
			continue
		}
		at := nest.Placement{X: 60*dice.Float64() - 30, Y: 60*dice.Float64() - 30, Rotation: 90 * dice.Float64()}
		if r := at.Lay(box(-w/2, -h/2, w, h)); free(r.Outer, outline, solids) {
			best = w * h
		}
	}
	return best
}

func free(r, outline []geom.Point, solids []geom.Polygon) bool {
	meets := func(ring []geom.Point) bool {
		for i, a := range r {
			for k, b := range ring {
				if geom.Crossing(a, r[(i+1)%len(r)], b, ring[(k+1)%len(ring)]) {
					return true
				}
			}
		}
		return false
	}
	if meets(outline) || !geom.Ring(outline).Contains(r[0]) {
		return false
	}
	for _, s := range solids {
		if meets(s.Outer) || s.Contains(r[0]) || geom.Ring(r).Contains(s.Outer[0]) {
			return false
		}
	}
	return true
}

func BenchmarkRemnants(b *testing.B) {
	dice := rand.New(rand.NewPCG(1, 7))
	hide := drawnHide(dice)
	hide.Outline = spiky(dice, geom.Point{}, 30, 31, 1000)
	p := nest.Problem{Kind: nest.Bins, Containers: []nest.Container{hide}, Pieces: []nest.Piece{{ID: "a", Shape: spiky(dice, geom.Point{}, 2, 3, 40), Count: 20, Quality: 1}}}
	r, err := nest.Solve(b.Context(), p, nest.Options{Seed: 1, Steps: 100})
	if err != nil {
		b.Fatal(err)
	}
	area := 0.0
	for b.Loop() {
		list, err := nest.Remnants(p, r.Placements)
		if err != nil {
			b.Fatal(err)
		}
		area = list[0].Area()
	}
	b.ReportMetric(100*area/hide.Outline.Area(), "%hide")
}

// TestSolve_LeavesOnePiece pushes together what lies on the last sheet: all but
// a little of what is left of it is one rectangle.
func TestSolve_LeavesOnePiece(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		p := nest.Problem{Kind: nest.Bins, Clearance: 0.5, Containers: []nest.Container{{ID: "sheet", Outline: box(0, 0, 100, 60), Margin: 1, Count: 2}},
			Pieces: []nest.Piece{{ID: "a", Shape: square(13), Count: 4}, {ID: "b", Shape: box(0, 0, 24, 13), Count: 2, Rotations: []float64{0, 90}}}}
		r := solve(t, p, nest.Options{Seed: seed, Steps: 1000})
		list := remnants(t, p, r.Placements...)
		if len(list) != 1 || list[0].Area() < 0.85*(98*58-1300) {
			t.Errorf("seed %d: %+v, of %v left", seed, list, 98*58-1300)
		}
		if again := solve(t, p, nest.Options{Seed: seed, Steps: 1000}); !reflect.DeepEqual(again, r) {
			t.Errorf("seed %d: another layout the second time", seed)
		}
	}
}
