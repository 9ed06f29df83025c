package colour

// Surface is the skin between air and paint [Saunderson1942]. The zero value is
// no skin: the reflectance inside is what is seen.
type Surface struct {
	K1    float64 // part of the light that the skin sends back from outside, 0…1
	K2    float64 // part that it sends back in from inside, 0…1
	Gloss bool    // the reading holds the mirror image of the light (gloss included)
}

// Glossy returns the skin of paint or clear of a refractive index: K1 by
// Fresnel at straight incidence, ((n−1)/(n+1))², 0.040 at 1.5. K2 is chosen by
// measurement, 0.4 to 0.6; theory gives 0.596 at 1.5 for light that comes from
// all sides.
func Glossy(index, k2 float64, gloss bool) Surface {
	r := (index - 1) / (index + 1)
	return Surface{K1: r * r, K2: k2, Gloss: gloss}
}

// Out returns what is measured outside of a reflectance r inside, one band:
//
//	k1 + (1−k1)(1−k2)·r / (1−k2·r)
//
// without the first k1 where the gloss is excluded.
func (s Surface) Out(r float64) float64 {
	out := (1 - s.K1) * (1 - s.K2) * r / (1 - s.K2*r)
	if s.Gloss {
		out += s.K1
	}
	return out
}

// In is the inverse of Out.
func (s Surface) In(measured float64) float64 {
	if s.Gloss {
		measured -= s.K1
	}
	return measured / ((1-s.K1)*(1-s.K2) + s.K2*measured)
}

// slope returns the change of Out a unit of r.
func (s Surface) slope(r float64) float64 {
	d := 1 - s.K2*r
	return (1 - s.K1) * (1 - s.K2) / (d * d)
}

// Seen returns Out of every band.
func (s Surface) Seen(inside Spectrum) Spectrum {
	for i, r := range inside {
		inside[i] = s.Out(r)
	}
	return inside
}

// Inside returns In of every band. Readings darker than the skin itself give
// values below nothing.
func (s Surface) Inside(measured Spectrum) Spectrum {
	for i, r := range measured {
		measured[i] = s.In(r)
	}
	return measured
}

// check refuses a skin that leaves nothing to see.
func (s Surface) check() error {
	for _, v := range [...]float64{s.K1, s.K2} {
		if !(v >= 0 && v < 1) { // NaN too
			return badSurface(s)
		}
	}
	return nil
}
