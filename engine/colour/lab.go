package colour

import "math"

// Lab is a colour in CIELAB [ISO11664]: L 0 black to 100 white, A green to
// red, B blue to yellow, all relative to the white it was seen with.
type Lab struct{ L, A, B float64 }

// LCh is Lab by lightness, chroma and hue, H in degrees 0 ≤ H < 360.
type LCh struct{ L, C, H float64 }

// The corner below which the cube root is replaced by a line, in the exact
// fractions that make both meet with one slope.
const (
	labCorner = 216. / 24389
	labSlope  = 24389. / 27
)

// Lab returns a colour relative to a white.
func (c XYZ) Lab(white XYZ) Lab {
	x, y, z := labCurve(c.X/white.X), labCurve(c.Y/white.Y), labCurve(c.Z/white.Z)
	return Lab{L: 116*y - 16, A: 500 * (x - y), B: 200 * (y - z)}
}

// XYZ returns the tristimulus values of a colour relative to a white.
func (l Lab) XYZ(white XYZ) XYZ {
	y := (l.L + 16) / 116
	return XYZ{white.X * labBack(y+l.A/500), white.Y * labBack(y), white.Z * labBack(y-l.B/200)}
}

func labCurve(t float64) float64 {
	if t > labCorner {
		return math.Cbrt(t)
	}
	return (labSlope*t + 16) / 116
}

func labBack(f float64) float64 {
	if t := f * f * f; t > labCorner {
		return t
	}
	return (116*f - 16) / labSlope
}

// LCh returns chroma and hue; the hue of a grey is 0.
func (l Lab) LCh() LCh { return LCh{l.L, math.Hypot(l.A, l.B), degrees(l.B, l.A)} }

// Lab returns the colour of a lightness, chroma and hue.
func (l LCh) Lab() Lab {
	sin, cos := math.Sincos(l.H * math.Pi / 180)
	return Lab{l.L, l.C * cos, l.C * sin}
}

// degrees returns the angle of a point, 0 ≤ angle < 360, and 0 for the origin.
func degrees(y, x float64) float64 {
	h := math.Atan2(y, x) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	if h >= 360 || x == 0 && y == 0 {
		return 0
	}
	return h
}
