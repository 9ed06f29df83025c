package pattern_test

import (
	"math"
	"slices"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
)

// TestWheel_Segments: three segments close to the true round of the rim, inside
// and outside, and each can be cut.
func TestWheel_Segments(t *testing.T) {
	w := pattern.Wheel{Rim: v(380), Grip: v(30), Spokes: []float64{90, 210, 330}}
	got, err := w.Strip()
	if err != nil || len(got.Segments) != 3 {
		t.Fatal(err, len(got.Segments))
	}
	outer, inner := 0.0, 0.0
	for _, s := range got.Segments {
		outer, inner = outer+s.Outer.Value, inner+s.Inner.Value
		if _, err := s.Piece.Cut(0); err != nil {
			t.Error(err)
		}
		long, side := 0.0, s.Piece.Line
		for _, q := range side {
			long = max(long, 2*q.X)
		}
		if !near(long, s.Outer.Value, 1e-9) || !near(side[16].Distance(side[17]), s.Inner.Value, 1e-9) || !near(side[16].Y-side[0].Y, got.Width.Value, 1e-9) {
			t.Errorf("a piece %g by %g mm, %g at the lacing", long, side[16].Y-side[0].Y, side[16].Distance(side[17]))
		}
	}
	if !near(outer, math.Pi*410, 1e-9) || !near(inner, math.Pi*350, 1e-9) {
		t.Errorf("round %g and %g mm, want %g and %g", outer, inner, math.Pi*410, math.Pi*350)
	}
	for _, bad := range []pattern.Wheel{{Rim: v(380), Grip: v(30), Spokes: []float64{0, 2}}, {Rim: v(160), Grip: v(80), Spokes: []float64{math.NaN()}}, {Rim: v(38), Grip: v(3)}} {
		if _, err := bad.Strip(); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// TestGaiter holds developments to the surface they come from.
func TestGaiter(t *testing.T) {
	for _, c := range []struct {
		name           string
		g              pattern.Gaiter
		slant, angle   float64
		area, quantity float64
	}{
		{"cone, 3-4-5", pattern.Gaiter{Foot: v(2 * math.Pi * 80), Head: v(2 * math.Pi * 20), Height: v(80)}, 100, 216, math.Pi * (80 + 20) * 100, 1},
		{"sleeve", pattern.Gaiter{Foot: v(200), Head: v(200), Height: v(150)}, 150, 0, 200 * 150, 1},
		{"pyramid of four, 3-4-5", pattern.Gaiter{Foot: v(400), Head: v(160), Height: v(40), Panels: 4}, 50, 0, 4 * 50 * (100 + 40) / 2, 4},
		{"a lever that moves 60", pattern.Gaiter{Foot: v(200), Head: v(200), Height: v(80), Travel: v(60), Panels: 4}, 100, 0, 200 * 100, 4},
	} {
		got, err := c.g.Pattern()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		a := geom.RingArea(got.Piece.Line) * c.quantity
		if !near(got.Slant.Value, c.slant, 1e-9) || !near(got.Angle.Value, c.angle, 1e-9) || !near(a, c.area, c.area*5e-4) {
			t.Errorf("%s: slant %g, %g°, %g mm², want %g, %g, %g", c.name, got.Slant.Value, got.Angle.Value, a, c.slant, c.angle, c.area)
		}
		if _, err := got.Piece.Cut(0); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, bad := range []pattern.Gaiter{{Foot: v(100), Head: v(200), Height: v(50)}, {Foot: v(3000), Head: v(50), Height: v(5)}, {Foot: v(100), Head: v(90), Height: v(50), Panels: 2}} {
		if _, err := bad.Pattern(); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// TestHeadliner: two bows, three panels; sleeves by section 3.3, π × bow + ease.
func TestHeadliner(t *testing.T) {
	h := pattern.Headliner{Spans: []pattern.Given{v(400), v(500), v(450)}, Widths: []pattern.Given{v(1100), v(1180), v(1180), v(1120)}, Bow: v(8), Ease: v(10), Allowance: v(12)}
	got, err := h.Panels()
	if err != nil {
		t.Fatal(err)
	}
	if !near(got.Sleeve.Value, math.Pi*8+10+24, 1e-9) || len(got.Sleeves) != 2 || got.Sleeves[1].Working.Text != "1180 mm" || len(got.Seams) != 2 {
		t.Errorf("sleeves %v %v, %d seams", got.Sleeve, got.Sleeves, len(got.Seams))
	}
	if want := 1350.0 + 4*12 + 2*50; got.Cloth.Value != want {
		t.Errorf("%g mm of cloth, want %g", got.Cloth.Value, want)
	}
	set := pattern.Set{Pieces: got.Panels, Seams: got.Seams}
	for _, s := range set.Seams {
		f, err := set.Fit(s)
		middle := slices.ContainsFunc(f.Notches, func(n pattern.Notch) bool { return n.A == 0.5 && n.B == 0.5 && n.Why == "match" })
		if err != nil || !f.Fits || !middle {
			t.Errorf("%s: %+v, %v", s.Name, f, err)
		}
	}
	h.Widths = h.Widths[1:]
	if _, err := h.Panels(); fault.KindOf(err) != fault.Invalid {
		t.Error(err)
	}
}

func TestStrips(t *testing.T) {
	a, box, err := pattern.Boxing(v(1626), v(106), v(12))
	if err != nil {
		t.Fatal(err)
	}
	cut, err := box.Cut(0)
	if err != nil || a.Value != 1650 || !near(cut.Area(), 1.650*0.130, 1e-9) {
		t.Errorf("boxing is cut %g mm long, %g m², %v", a.Value, cut.Area(), err)
	}
	cover, body, end, err := pattern.Bolster(v(500), v(150), none, v(12))
	if err != nil || !near(cover.Value, math.Pi*150, 1e-9) {
		t.Fatal(cover.Value, err)
	}
	set := pattern.Set{Pieces: []pattern.Piece{body, end}}
	f, err := set.Fit(pattern.Seam{ID: "end", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "bolster", Edge: "end 1"}}, B: []pattern.Ref{{Piece: "bolster-end", Edge: "round"}}})
	if err != nil || !near(f.Ease, 0, 1e-12) {
		t.Errorf("the end eases by %g, %v", f.Ease, err)
	}
}
