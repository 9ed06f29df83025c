package colour_test

import (
	"math"
	"testing"

	"fettle/engine/colour"
)

func TestSRGB_HexRoundTrips(t *testing.T) {
	for n := range 1 << 12 {
		c := colour.SRGB{R: float64(n>>8*17) / 255, G: float64(n>>4&15*17) / 255, B: float64(n&15*17) / 255}
		back, err := colour.ParseHex(c.Hex())
		if err != nil || back != c {
			t.Fatalf("%v became %s, read as %v, %v", c, c.Hex(), back, err)
		}
		s := c.Lab().Show()
		if s.Mapped || s.Difference != 0 || s.Colour.Hex() != c.Hex() {
			t.Fatalf("%s by way of Lab is %s, mapped %v", c.Hex(), s.Colour.Hex(), s.Mapped)
		}
	}
	for _, bad := range []string{"", "#12345", "#1234567", "teal", "#12 456", "+12345"} {
		if c, err := colour.ParseHex(bad); err == nil {
			t.Errorf("%q was read as %v", bad, c)
		}
	}
}

func TestSRGB_XYZ(t *testing.T) {
	// The columns of the standard's matrix, to its four digits.
	for _, c := range []struct {
		c    colour.SRGB
		want colour.XYZ
	}{
		{colour.SRGB{R: 1}, colour.XYZ{X: 41.24, Y: 21.26, Z: 1.93}},
		{colour.SRGB{G: 1}, colour.XYZ{X: 35.76, Y: 71.52, Z: 11.92}},
		{colour.SRGB{B: 1}, colour.XYZ{X: 18.05, Y: 7.22, Z: 95.05}},
	} {
		if x := c.c.XYZ(); !near(x.X, c.want.X, 0.006) || !near(x.Y, c.want.Y, 0.006) || !near(x.Z, c.want.Z, 0.006) {
			t.Errorf("%v is %v, want %v", c.c, x, c.want)
		}
	}
}

// okPolar returns chroma and hue in OKLab by the published matrix from XYZ, a
// second way beside the one through linear sRGB that Show takes.
func okPolar(c colour.XYZ) (l, chroma, hue float64) {
	x, y, z := c.X/100, c.Y/100, c.Z/100
	p := math.Cbrt(0.8189330101*x + 0.3618667424*y - 0.1288597137*z)
	q := math.Cbrt(0.0329845436*x + 0.9293118715*y + 0.0361456387*z)
	r := math.Cbrt(0.0482003018*x + 0.2643662691*y + 0.6338517070*z)
	a := 1.9779984951*p - 2.4285922050*q + 0.4505937099*r
	b := 0.0259040371*p + 0.7827717662*q - 0.8086757660*r
	return 0.2104542553*p + 0.7936177850*q - 0.0040720468*r, math.Hypot(a, b), math.Atan2(b, a)
}

func TestShow_StaysInGamutAndKeepsHue(t *testing.T) {
	const bound = 0.0205 // the 0.02 of [Lab.Show], and what the two matrices differ by
	white := colour.SRGB{R: 1, G: 1, B: 1}.XYZ()
	mapped, worst, turned := 0, 0.0, 0.0
	for _, l := range colours(20000) {
		s := l.Show()
		for _, v := range []float64{s.Colour.R, s.Colour.G, s.Colour.B} {
			if !(v >= 0 && v <= 1) {
				t.Fatalf("%v is shown as %v", l, s.Colour)
			}
		}
		if !s.Mapped {
			continue
		}
		mapped++
		if got := colour.Difference(l, s.Colour.Lab()); !near(got, s.Difference, 1e-6) {
			t.Fatalf("%v: difference %g is reported as %g", l, got, s.Difference)
		}
		lWant, _, hWant := okPolar(l.XYZ(white))
		lGot, c, h := okPolar(s.Colour.XYZ())
		if lWant >= 1 || lWant <= 0 {
			continue // shown as white or black
		}
		turn := math.Abs(math.Remainder(h-hWant, 2*math.Pi))
		worst = max(worst, math.Hypot(c*math.Sin(min(turn, math.Pi/2)), lGot-lWant))
		if c > 0.1 {
			turned = max(turned, turn*180/math.Pi)
		}
	}
	if mapped < 1000 || worst > bound {
		t.Errorf("%d mapped, off the line of hue and lightness by %.4f, want at most %.3f", mapped, worst, bound)
	}
	t.Logf("%d mapped; off the line by %.4f at most; turned by %.1f° at most where chroma is above 0.1", mapped, worst, turned)
}

func TestShow_Ends(t *testing.T) {
	for _, c := range []struct {
		l    colour.Lab
		want string
	}{{colour.Lab{L: 100}, "#ffffff"}, {colour.Lab{}, "#000000"}, {colour.Lab{L: 130, A: 40}, "#ffffff"}, {colour.Lab{L: -5}, "#000000"}} {
		if got := c.l.Show().Colour.Hex(); got != c.want {
			t.Errorf("%v is shown as %s, want %s", c.l, got, c.want)
		}
	}
	for _, l := range []colour.Light{colour.D65(), colour.A(), colour.F11()} {
		v := colour.NewViewer(l, colour.Degrees10())
		if got := v.Show(colour.Flat(1)); got.Colour.Hex() != "#ffffff" || got.Mapped {
			t.Errorf("white under %s is shown as %+v", v.Name, got)
		}
		grey := v.Show(colour.Flat(0.18)).Colour
		if !near(grey.R, grey.G, 1e-6) || !near(grey.B, grey.G, 1e-6) {
			t.Errorf("grey under %s is shown as %v", v.Name, grey)
		}
	}
}
