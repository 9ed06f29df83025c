package colour

import "math"

// Shown is a colour as near as a screen comes to it.
type Shown struct {
	Colour     SRGB    // within the screen's gamut
	Mapped     bool    // the screen cannot show it: chroma was drawn in
	Difference float64 // CIEDE2000 between the colour and what is shown, 0 where not mapped
}

// Show returns the screen colour of a reflectance under this viewer's light,
// for an eye that is used to that light. Colours that no
// screen has are drawn in as [Lab.Show] says.
func (v *Viewer) Show(s Spectrum) Shown { return v.XYZ(s).show(&v.screen) }

// Show returns the screen colour of Lab, whatever white it is relative to.
//
// A colour beyond the screen is drawn in along chroma until it can be shown,
// with lightness and hue of OKLab kept but for 0.02 at most, which can just be
// seen [CSSColor4] [Ottosson2020]. OKLab is used for that because lines of one
// hue are straighter in it than in CIELAB, whose blues turn violet on the way
// to grey: measured in CIELAB the hue of a far blue turns a good deal.
func (l Lab) Show() Shown { return l.XYZ(screenWhite).show(&fromXYZ) }

func (c XYZ) show(m *matrix) Shown {
	var want linear
	want.r, want.g, want.b = m.at(c.X, c.Y, c.Z)
	if want.fits() {
		return Shown{Colour: want.clip().encode()}
	}
	got := want.draw()
	return Shown{Colour: got.encode(), Mapped: true, Difference: Difference(want.lab(), got.lab())}
}

// fits reports whether a screen can show the light, but for rounding.
func (l linear) fits() bool {
	const rounding = 1e-7 // a ten-thousandth of the darkest 8 bit step
	ok := func(v float64) bool { return v >= -rounding && v <= 1+rounding }
	return ok(l.r) && ok(l.g) && ok(l.b)
}

func (l linear) clip() linear {
	at := func(v float64) float64 { return min(max(v, 0), 1) }
	return linear{at(l.r), at(l.g), at(l.b)}
}

func (l linear) lab() Lab {
	var c XYZ
	c.X, c.Y, c.Z = toXYZ.at(l.r, l.g, l.b)
	return c.Lab(screenWhite)
}

// justSeen is a difference in OKLab that can just be seen [CSSColor4].
const justSeen = 0.02

// draw returns light that fits, of the same lightness and hue with as much
// chroma as there is, by halving. Chroma that lies a just seen difference
// outside is cut off at the gamut's face: a yellow would be dulled for nothing
// where the face runs nearly along the line to grey.
func (l linear) draw() linear {
	k := l.ok()
	switch {
	case k.L >= 1:
		return linear{1, 1, 1}
	case k.L <= 0 || math.IsNaN(k.L):
		return linear{}
	}
	at := func(part float64) (linear, bool) {
		c := oklab{k.L, k.a * part, k.b * part}
		cut := c.linear().clip()
		return cut, c.apart(cut.ok()) <= justSeen
	}
	best, near := at(1)
	if near {
		return best
	}
	in, out := 0.0, 1.0 // parts of the chroma
	best, _ = at(in)
	for range 30 {
		mid := (in + out) / 2
		if cut, near := at(mid); near {
			best, in = cut, mid
		} else {
			out = mid
		}
	}
	return best
}

// oklab is a colour in OKLab, L 0 to 1.
type oklab struct{ L, a, b float64 }

// The two matrices of OKLab: linear sRGB to cone responses, and their cube
// roots to lightness and the two axes of colour.
var (
	okCones = matrix{
		{0.4122214708, 0.5363325363, 0.0514459929},
		{0.2119034982, 0.6806995451, 0.1073969566},
		{0.0883024619, 0.2817188376, 0.6299787005},
	}
	okAxes = matrix{
		{0.2104542553, 0.7936177850, -0.0040720468},
		{1.9779984951, -2.4285922050, 0.4505937099},
		{0.0259040371, 0.7827717662, -0.8086757660},
	}
	okConesBack, okAxesBack = okCones.inverse(), okAxes.inverse()
)

func (l linear) ok() oklab {
	p, q, r := okCones.at(l.r, l.g, l.b)
	var k oklab
	k.L, k.a, k.b = okAxes.at(math.Cbrt(p), math.Cbrt(q), math.Cbrt(r))
	return k
}

func (k oklab) linear() linear {
	p, q, r := okAxesBack.at(k.L, k.a, k.b)
	var l linear
	l.r, l.g, l.b = okConesBack.at(p*p*p, q*q*q, r*r*r)
	return l
}

// apart returns the plain distance in OKLab.
func (k oklab) apart(o oklab) float64 {
	return math.Hypot(k.L-o.L, math.Hypot(k.a-o.a, k.b-o.b))
}
