package colour

import "math"

// Parts are a difference of two colours taken apart, second less first: by
// lightness, chroma and hue in CIELAB, and Total by CIEDE2000. Tolerances for
// a colour are often set on the three.
type Parts struct{ Lightness, Chroma, Hue, Total float64 }

// Compare takes the difference from one colour to another apart. Hue is
// positive where b lies counter-clockwise of a.
func Compare(a, b Lab) Parts {
	p, q := a.LCh(), b.LCh()
	turn := math.Remainder(q.H-p.H, 360) * math.Pi / 180
	return Parts{
		Lightness: b.L - a.L, Chroma: q.C - p.C,
		Hue: 2 * math.Sqrt(p.C*q.C) * math.Sin(turn/2), Total: Difference(a, b),
	}
}

// Difference returns CIEDE2000 with all parametric factors 1 [Sharma2005]:
// about 1 can just be seen side by side. Symmetric; 0 only for equal colours.
func Difference(a, b Lab) float64 {
	// The a axis is stretched near grey, where CIELAB sees too little.
	g := 1 + 0.5*(1-chromaPart((math.Hypot(a.A, a.B)+math.Hypot(b.A, b.B))/2))
	c1, c2 := math.Hypot(g*a.A, a.B), math.Hypot(g*b.A, b.B)
	h1, h2 := degrees(a.B, g*a.A), degrees(b.B, g*b.A)

	turn, meanHue := hues(h1, h2, c1*c2 == 0)
	dL, dC := b.L-a.L, c2-c1
	dH := 2 * math.Sqrt(c1*c2) * sinDeg(turn/2)
	meanL, meanC := (a.L+b.L)/2, (c1+c2)/2

	t := 1 - 0.17*cosDeg(meanHue-30) + 0.24*cosDeg(2*meanHue) + 0.32*cosDeg(3*meanHue+6) - 0.20*cosDeg(4*meanHue-63)
	off := (meanL - 50) * (meanL - 50)
	l := dL / (1 + 0.015*off/math.Sqrt(20+off))
	c := dC / (1 + 0.045*meanC)
	h := dH / (1 + 0.015*meanC*t)
	// In the blue, about 275°, the ellipses of equal difference lie slanted.
	slant := (meanHue - 275) / 25
	rot := -2 * chromaPart(meanC) * sinDeg(60*math.Exp(-slant*slant))
	return math.Sqrt(max(0, l*l+c*c+h*h+rot*c*h))
}

// hues returns the turn from one hue to the other and their mean, degrees.
//
// Hue is a circle, and the shorter way round counts. The turn is brought
// within ±180°. Where the hues lie more than 180° apart the plain mean points
// the wrong way: half a turn is added below a sum of 360°, else taken off.
// Where a colour is grey it has no hue: the turn is 0, and the sum stands for
// the mean, for the grey's 0 adds nothing.
func hues(h1, h2 float64, grey bool) (turn, mean float64) {
	sum, d := h1+h2, h2-h1
	switch {
	case grey:
		return 0, sum
	case math.Abs(d) <= 180:
		return d, sum / 2
	}
	turn = d - math.Copysign(360, d)
	if sum < 360 {
		return turn, (sum + 360) / 2
	}
	return turn, (sum - 360) / 2
}

// chromaPart rises from 0 at grey to 1 at full chroma: √(C⁷ ÷ (C⁷ + 25⁷)).
func chromaPart(c float64) float64 {
	const knee = 6103515625 // 25⁷
	c7 := math.Pow(c, 7)
	if math.IsInf(c7, 1) {
		return 1
	}
	return math.Sqrt(c7 / (c7 + knee))
}

func sinDeg(d float64) float64 { return math.Sin(d * math.Pi / 180) }
func cosDeg(d float64) float64 { return math.Cos(d * math.Pi / 180) }
