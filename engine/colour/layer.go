package colour

import (
	"math"

	"fettle/fault"
)

// Paint is what one µm of dry paint takes away and sends back, a band: the two
// numbers of [Kubelka1948]. They are properties of the paint, whatever lies
// under it and however thick it is laid.
type Paint struct {
	Name   string
	K      Spectrum // absorption, 1/µm dry
	S      Spectrum // scatter, 1/µm dry
	Finish Finish
}

// Layer is a paint laid so thick.
type Layer struct {
	Paint Paint
	Film  float64 // µm dry
}

// Film returns the reflectance, 0…1, of a film over a ground, for one band,
// inside the paint (no surface): k and s in 1/µm dry, x µm dry, ground the
// reflectance under it. It is the exact answer of the two-flux equations of
// [Kubelka1948],
//
//	R = [p·R∞ + e·(G−R∞)] / [p + e·R∞·(G−R∞)],  e = exp(−2mX),  m = √(K(K+2S)),  p = 1−R∞G
//
// which is the form with a − b·coth(bSX), multiplied out so that nothing
// overflows when the film is thick. A thin film, mX < 1, is worked out by
// tanh(mX)/m instead, which has a value where K or S or both are nothing: then
// e·G², and [G+(1−G)SX]/[1+(1−G)SX] come out of the same line. Off by less than
// 1e-14 for any k, s, x ≥ 0 and ground 0…1.
func Film(k, s, x, ground float64) float64 {
	m := math.Sqrt(k * (k + 2*s))
	z := m * x
	if z < 1 {
		u := shallow(m, z, x)
		return (ground + u*(s*(1-ground)-k*ground)) / (1 + u*(k+s*(1-ground)))
	}
	q := k + s + m
	deep := s / q // R∞
	p := (k+m)/q + deep*(1-ground)
	left := math.Exp(-2*z) * (ground - deep)
	return (deep*p + left) / (p + deep*left)
}

// shallow returns tanh(mX)/m, and X where m vanishes.
func shallow(m, z, x float64) float64 {
	if z < 1e-8 {
		return x // off by z²/3 of itself
	}
	return -math.Expm1(-2*z) / (m * (1 + math.Exp(-2*z)))
}

// Through returns the part of the light, 0…1, that a film lets through, for one
// band: b / (a·sinh bSX + b·cosh bSX) of [Kubelka1948]. Units as for [Film].
func Through(k, s, x float64) float64 {
	m := math.Sqrt(k * (k + 2*s))
	z := m * x
	if z > 350 {
		return 0 // below 1e-150
	}
	e := math.Exp(-2 * z)
	return 2 * math.Exp(-z) / (1 + e + (k+s)*(1+e)*shallow(m, z, x))
}

// Hidden returns the reflectance of a film so thick that nothing under it
// shows, for one band: 1 + K/S − √((K/S)² + 2K/S), 0 where nothing scatters.
func Hidden(k, s float64) float64 {
	if s == 0 {
		return 0
	}
	return s / (k + s + math.Sqrt(k*(k+2*s)))
}

// Ratio returns K/S of a film that hides with the reflectance r, 0 < r ≤ 1, for
// one band: (1−r)²/2r.
func Ratio(r float64) float64 { return (1 - r) * (1 - r) / (2 * r) }

// Hidden returns the reflectance of the paint where nothing under it shows,
// inside the paint.
func (p *Paint) Hidden() Spectrum {
	var out Spectrum
	for i := range out {
		out[i] = Hidden(p.K[i], p.S[i])
	}
	return out
}

// The largest K or S that is taken for paint, 1/µm, and the thickest film, µm.
const (
	mostPower = 1e3
	mostFilm  = 1e5
)

// check refuses numbers that are no paint, and finishes that the equations do
// not describe.
func (p *Paint) check() error {
	for i := range p.K {
		for _, one := range [...]struct {
			name string
			v    float64
		}{{"K", p.K[i]}, {"S", p.S[i]}} {
			if !(one.v >= 0 && one.v <= mostPower) { // NaN too
				return fault.New(fault.Invalid, "%s is %g a µm: 0 to %g is wanted", one.name, one.v, mostPower).At(band(i)).At(p.named())
			}
		}
	}
	return p.Finish.Check(p.named())
}

func (p *Paint) named() string {
	if p.Name == "" {
		return "the paint"
	}
	return p.Name
}

// checkFilm refuses a thickness that no film has.
func checkFilm(x float64) error {
	if !(x > 0 && x <= mostFilm) {
		return fault.New(fault.Invalid, "a film of %g µm: more than 0, at most %g is wanted", x, mostFilm)
	}
	return nil
}
