package colour_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/engine/colour"
	"fettle/fault"
)

var day = colour.NewViewer(colour.D65(), colour.Degrees2())

// TestViewer_Whites holds the plain 10 nm sums to the white of the trade's
// tables, and the tube, summed by 5 nm, to the CIE's own.
func TestViewer_Whites(t *testing.T) {
	for _, c := range []struct {
		light colour.Light
		eye   colour.Observer
		x, z  float64
		by    float64
	}{
		{colour.D65(), colour.Degrees2(), 95.0119, 108.8161, 5e-5},
		{colour.D65(), colour.Degrees10(), 94.811, 107.304, 0.1},
		{colour.A(), colour.Degrees2(), 109.850, 35.585, 0.06},
		{colour.A(), colour.Degrees10(), 111.144, 35.200, 0.06},
		{colour.F11(), colour.Degrees2(), 100.962, 64.350, 0.06},
		{colour.F11(), colour.Degrees10(), 103.863, 65.607, 0.06},
	} {
		v := colour.NewViewer(c.light, c.eye)
		w := v.White()
		if !near(w.X, c.x, c.by) || !near(w.Y, 100, 1e-9) || !near(w.Z, c.z, c.by) {
			t.Errorf("%s: white %.4f, want %.4f 100 %.4f within %g", v.Name, w, c.x, c.z, c.by)
		}
		if l := v.Lab(colour.Flat(1)); !near(l.L, 100, 1e-9) || !near(l.A, 0, 1e-9) || !near(l.B, 0, 1e-9) {
			t.Errorf("%s: a perfect diffuser is %v, want L 100", v.Name, l)
		}
	}
}

func TestSpectrum_Validate(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{1.43, "540 nm: reflectance 1.43 is above 1.2: is the file in percent?"},
		{-0.1, "540 nm: reflectance -0.1 is below 0"},
		{math.NaN(), "540 nm: there is no reflectance"},
	} {
		s := colour.Flat(0.5)
		s[16] = c.v
		if err := s.Validate(); err == nil || err.Error() != c.want || fault.HintOf(err) == "" {
			t.Errorf("%v, hint %q, want %q with a hint", err, fault.HintOf(err), c.want)
		}
	}
	if s := colour.Flat(1.2); s.Validate() != nil {
		t.Error("1.2 is refused, want it believed")
	}
}

// colours draws Lab values that paints and worse could have.
func colours(n int) []colour.Lab {
	r := rand.New(rand.NewPCG(1, 2))
	list := make([]colour.Lab, n)
	for i := range list {
		list[i] = colour.Lab{L: 100 * r.Float64(), A: 240*r.Float64() - 120, B: 240*r.Float64() - 120}
		if i%7 == 0 {
			list[i].A, list[i].B = 0, 0
		}
	}
	return list
}

func TestLab_RoundTrips(t *testing.T) {
	for _, l := range colours(2000) {
		back := l.XYZ(day.White()).Lab(day.White())
		turned := l.LCh().Lab()
		for _, o := range []colour.Lab{back, turned} {
			if !near(o.L, l.L, 1e-9) || !near(o.A, l.A, 1e-9) || !near(o.B, l.B, 1e-9) {
				t.Fatalf("%v came back as %v", l, o)
			}
		}
		if h := l.LCh().H; h < 0 || h >= 360 {
			t.Fatalf("%v has hue %g, want 0 ≤ hue < 360", l, h)
		}
	}
}

func TestDifference_Properties(t *testing.T) {
	list := colours(1500)
	for i, a := range list[1:] {
		b := list[i]
		d := colour.Difference(a, b)
		if back := colour.Difference(b, a); !near(d, back, 1e-12) {
			t.Fatalf("%v to %v is %g, back %g", a, b, d, back)
		}
		if d < 0 || math.IsNaN(d) || d == 0 && a != b {
			t.Fatalf("%v to %v is %g", a, b, d)
		}
		if same := colour.Difference(a, a); same != 0 {
			t.Fatalf("%v differs from itself by %g", a, same)
		}
		p := colour.Compare(a, b)
		if plain := math.Hypot(b.L-a.L, math.Hypot(b.A-a.A, b.B-a.B)); !near(plain, math.Hypot(p.Lightness, math.Hypot(p.Chroma, p.Hue)), 1e-9) {
			t.Fatalf("%v to %v: %+v do not add up to the distance %g", a, b, p, plain)
		}
	}
	// Steps in lightness alone at L 50 are the formula's unit.
	if d := colour.Difference(colour.Lab{L: 49.5}, colour.Lab{L: 50.5}); !near(d, 1, 1e-12) {
		t.Errorf("one L at 50 is %g, want 1", d)
	}
	// Near grey the a axis is stretched by half.
	if d := colour.Difference(colour.Lab{L: 50}, colour.Lab{L: 50, A: 1e-4}); !near(d, 1.5e-4, 1e-8) {
		t.Errorf("a 0.0001 from grey is %g, want 0.00015", d)
	}
}

// TestCompare_HueSign turns a colour across the red axis.
func TestCompare_HueSign(t *testing.T) {
	a, b := colour.LCh{L: 50, C: 40, H: 355}.Lab(), colour.LCh{L: 50, C: 40, H: 5}.Lab()
	want := 2 * 40 * math.Sin(5*math.Pi/180)
	if p, q := colour.Compare(a, b), colour.Compare(b, a); !near(p.Hue, want, 1e-9) || !near(q.Hue, -want, 1e-9) {
		t.Errorf("hue %g and back %g, want ±%g", p.Hue, q.Hue, want)
	}
}

func TestBeside(t *testing.T) {
	white, black := colour.Lab{L: 100}, colour.Lab{}
	for _, c := range []colour.Contrast{colour.Beside(white, black), colour.Beside(black, white)} {
		if !near(c.Ratio, 21, 1e-9) || c.Lightness != 100 || !near(c.Difference, 100, 1e-9) {
			t.Errorf("black on white is %+v, want 21, 100, 100", c)
		}
	}
	grey, _ := colour.ParseHex("#767676") // the darkest grey that passes 4.5 on white, as often quoted
	if r := colour.Beside(grey.Lab(), white).Ratio; !near(r, 4.54, 0.005) {
		t.Errorf("#767676 on white is %.3f, want 4.54", r)
	}
}

func TestAdapt(t *testing.T) {
	lamp := colour.NewViewer(colour.A(), colour.Degrees2()).White()
	if w := colour.Adapt(lamp, lamp, day.White()); !near(w.X, day.White().X, 1e-9) || !near(w.Y, 100, 1e-9) || !near(w.Z, day.White().Z, 1e-9) {
		t.Errorf("the lamp's white becomes %v, want that of day", w)
	}
	// D65 to D50: the middle of the often printed matrix.
	d65, d50 := colour.XYZ{X: 95.047, Y: 100, Z: 108.883}, colour.XYZ{X: 96.422, Y: 100, Z: 82.521}
	c := colour.Adapt(colour.XYZ{Y: 1}, d65, d50)
	if !near(c.X, 0.0228866, 1e-7) || !near(c.Y, 0.9904844, 1e-7) || !near(c.Z, 0.0150436, 1e-7) {
		t.Errorf("Y alone becomes %v, want 0.0228866 0.9904844 0.0150436", c)
	}
	back := colour.Adapt(colour.Adapt(colour.XYZ{X: 20, Y: 30, Z: 40}, d65, d50), d50, d65)
	if !near(back.X, 20, 1e-9) || !near(back.Z, 40, 1e-9) {
		t.Errorf("there and back gives %v", back)
	}
}

func TestReconstruct_ScreenColours(t *testing.T) {
	const most = 40
	for r := 0; r <= 255; r += 51 {
		for g := 0; g <= 255; g += 51 {
			for b := 0; b <= 255; b += 51 {
				want := colour.SRGB{R: float64(r) / 255, G: float64(g) / 255, B: float64(b) / 255}.Lab()
				made, err := colour.Reconstruct(want, day)
				if err != nil {
					t.Fatalf("%d %d %d: %v", r, g, b, err)
				}
				if off := colour.Difference(want, day.Lab(made.Spectrum)); off > 0.01 || made.Steps > most || made.Doubt(day) > 1e-6 {
					t.Errorf("%d %d %d: off %.4f after %d steps, doubt %g under its own light", r, g, b, off, made.Steps, made.Doubt(day))
				}
				for i, v := range made.Spectrum {
					if v < 0 || v > 1 {
						t.Fatalf("%d %d %d: %g in band %d", r, g, b, v, i)
					}
				}
			}
		}
	}
}

// TestReconstruct_WhatIs draws spectra with steep sides, near the limit of what
// can be seen: each has a reflectance, so each must be found.
func TestReconstruct_WhatIs(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	most := 0
	for range 400 {
		s := colour.Flat(0.01 + 0.05*r.Float64())
		for range 1 + r.IntN(2) {
			at, wide, high := r.IntN(colour.Bands), 3+r.IntN(15), 0.3+0.65*r.Float64()
			for i := at; i < min(at+wide, colour.Bands); i++ {
				s[i] = high
			}
		}
		made, err := colour.Reconstruct(day.Lab(s), day)
		if err != nil {
			t.Errorf("%v of %v: %v", day.Lab(s), s, err)
			continue
		}
		if off := colour.Difference(day.Lab(s), day.Lab(made.Spectrum)); off > 0.02 {
			t.Errorf("%v: off by %.4f", day.Lab(s), off)
		}
		most = max(most, made.Steps)
	}
	t.Logf("%d steps at most", most)
}

func TestReconstruct_Refuses(t *testing.T) {
	for _, l := range []colour.Lab{{L: 60, A: 90, B: -90}, {L: 98, B: 60}, {L: -1}, {L: 101}, {L: math.NaN()}, {L: 50, A: math.Inf(1)}} {
		if _, err := colour.Reconstruct(l, day); fault.KindOf(err) != fault.Invalid || fault.HintOf(err) == "" {
			t.Errorf("%v gives %v, want invalid with a hint", l, err)
		}
	}
}
