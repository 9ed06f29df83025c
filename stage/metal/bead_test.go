package metal_test

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/metal"
	"fettle/unit"
)

// TestBead_DrawIn: a shallow bead against the arc of a circle through its edges
// and its bottom, a half-round against half its girth.
func TestBead_DrawIn(t *testing.T) {
	for _, c := range []struct{ w, d float64 }{{20, 2}, {30, 3}, {40, 2}} {
		r := (c.w*c.w/4 + c.d*c.d) / (2 * c.d)
		arc := 2 * r * math.Asin(c.w/2/r)
		got := metal.Bead{Width: unit.Length(c.w * 1000), Depth: unit.Length(c.d * 1000)}.DrawIn()
		if math.Abs(got-(arc-c.w)) > 0.02*(arc-c.w) {
			t.Errorf("%g wide, %g deep: %.3f mm, the arc takes %.3f", c.w, c.d, got, arc-c.w)
		}
	}
	half := metal.Bead{Width: 10 * mm, Half: true}
	if got := half.DrawIn(); math.Abs(got-(5*math.Pi-10)) > 1e-9 {
		t.Errorf("half-round of 10 mm: %.3f", got)
	}
	if f := half.Figure(); f.Text != "2.9 to 5.7 mm" || !strings.Contains(f.With, "5.71") {
		t.Errorf("%+v", f)
	}
}

// TestSpring: without a strip nothing is made up; with one its reading is taken
// in proportion to the angle, and a strip of another gauge says nothing.
func TestSpring(t *testing.T) {
	bend := build.Bend{Angle: 90, Radius: mm}
	b := &build.Build{Strips: []build.Strip{{ID: "K1", Gauge: 2 * mm, Bend: bend, Springs: 4}}}
	if got, told := metal.Spring(b, mm, bend); told || !strings.Contains(got, "no strip has told") {
		t.Error(got)
	}
	b.Strips = append(b.Strips, build.Strip{ID: "K2", Gauge: mm, Bend: bend, Springs: 2})
	if got, told := metal.Spring(b, mm, bend); !told || !strings.Contains(got, "2.0° (strip K2): turn the leaf to 92.0°") {
		t.Error(got)
	}
	if got, told := metal.Spring(b, mm, build.Bend{Angle: 45, Radius: mm}); !told || !strings.Contains(got, "turn the leaf to 46.0°") {
		t.Error(got)
	}
}
