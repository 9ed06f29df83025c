package colour

import "math"

// waves is the count of ways, from slow to fast, in which a made-up spectrum
// is bent to see how far it may stray.
const waves = 5

// bentBy is how far the slowest wave bends; the others bend less in proportion
// to their speed, as paints do. It is set so that nine in ten of the 24 patches
// of the common chart stray less under lamp A than [Rebuilt.Doubt] says; under
// F11 all do. The figures are in docs/engine/colour.md.
const bentBy = 0.65

// Doubt returns the CIEDE2000 within which a real paint that looks the same to
// the own viewer stands from the made-up one under another viewer: in nine of
// ten, judged by the 24 patches of the common chart. 0 under its own viewer.
//
// The spectrum is bent by cosines of 1 to 5 half waves in the hyperbolic arc
// tangent of reflectance, each put right so that the own viewer sees no change;
// what the other viewer sees of each is summed in square.
func (r Rebuilt) Doubt(under *Viewer) float64 {
	base, sum := under.Lab(r.Spectrum), 0.0
	for _, bend := range r.bends() {
		off := Difference(base, under.Lab(r.Spectrum.plus(bend, 1)))
		sum += off * off
	}
	return math.Sqrt(sum)
}

// bends returns the changes of reflectance, one a wave.
func (r Rebuilt) bends() (list [waves]Spectrum) {
	hold := newHold(r.own, &r.Spectrum)
	for n := range list {
		wave := float64(n + 1)
		list[n] = hold.keep(func(i int) float64 {
			return bentBy / wave * math.Cos(math.Pi*wave*(float64(i)+0.5)/Bands)
		})
	}
	return list
}

func (s Spectrum) plus(d Spectrum, times float64) Spectrum {
	for i := range s {
		s[i] += times * d[i]
	}
	return s
}

// hold bends a spectrum so that a viewer sees no change: what the viewer would
// see is taken off again, by the three bends that it sees most of.
type hold struct {
	v     *Viewer
	slope Spectrum // of reflectance in the arc tangent
	undo  matrix   // colour → parts of the three bends
}

func newHold(v *Viewer, s *Spectrum) hold {
	h := hold{v: v}
	var m matrix
	for i, r := range s {
		h.slope[i] = 2 * max(r*(1-r), 1e-4)
		w := [3]float64{v.weights[i].X, v.weights[i].Y, v.weights[i].Z}
		for a := range w {
			for b := range w {
				m[a][b] += w[a] * w[b] * h.slope[i] * h.slope[i]
			}
		}
	}
	h.undo = m.inverse()
	return h
}

// keep returns the change of reflectance for a change of the arc tangent.
func (h *hold) keep(bend func(band int) float64) Spectrum {
	var d Spectrum
	for i := range d {
		d[i] = h.slope[i] * bend(i)
	}
	seen := h.v.XYZ(d)
	x, y, z := h.undo.at(seen.X, seen.Y, seen.Z)
	for i := range d {
		w := h.v.weights[i]
		d[i] -= h.slope[i] * h.slope[i] * (w.X*x + w.Y*y + w.Z*z)
	}
	return d
}
