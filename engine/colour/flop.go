package colour

import (
	"math"
	"slices"

	"fettle/fault"
)

// Angle is a reading of a flake film so many degrees off the mirror image of the
// light: 15 looks at the face, 110 at the flop.
type Angle struct {
	Degrees float64
	R       Spectrum // may be above 1 on the face: flakes are mirrors
}

// Flop is a metallic or pearl finish by its readings, nearest the mirror image
// first. It is as it was sprayed: other coats, air or gun lay the flakes
// otherwise, and no equation of this package says how.
type Flop []Angle

// Indication is a colour that is good to choose by and not to match by.
type Indication struct {
	R        Spectrum
	Measured bool   // at an angle that was measured
	Says     string // the words that belong beside it
}

const onlyIndication = "indication only: interpolated between measured angles of a sprayed panel; match on the panel"

// At returns the finish at an angle between the first and the last that were
// measured. Between two, each band falls by the same part a degree, as the
// reflection of flakes does nearly; beyond them nothing is said.
func (f Flop) At(degrees float64) (Indication, error) {
	if err := f.check(); err != nil {
		return Indication{}, err
	}
	last := f[len(f)-1]
	if !(degrees >= f[0].Degrees && degrees <= last.Degrees) {
		return Indication{}, fault.New(fault.Invalid, "%g° is not between the angles that were measured, %g° to %g°", degrees, f[0].Degrees, last.Degrees).
			WithHint("measure there; a flake film is not to be told beyond its readings")
	}
	i, exact := slices.BinarySearchFunc(f, degrees, func(a Angle, d float64) int {
		switch {
		case a.Degrees < d:
			return -1
		case a.Degrees > d:
			return 1
		}
		return 0
	})
	if exact {
		return Indication{R: f[i].R, Measured: true, Says: "as measured on a sprayed panel"}, nil
	}
	p, q := f[i-1], f[i]
	part := (degrees - p.Degrees) / (q.Degrees - p.Degrees)
	out := Indication{Says: onlyIndication}
	for b := range out.R {
		out.R[b] = geometric(p.R[b], q.R[b], part)
	}
	return out, nil
}

// geometric goes from a to b by equal parts a step, plainly where one of them is
// next to nothing.
func geometric(a, b, part float64) float64 {
	const nothing = 1e-4
	if min(a, b) < nothing {
		return a + part*(b-a)
	}
	return a * math.Pow(b/a, part)
}

// Index returns how strongly a finish changes from face to flop, 0 for a solid
// colour: (L15 − L110)^1.11 · 2.69 / L45^0.86 [Alman1987], with the three angles
// as near as [Flop.At] comes to them.
func (f Flop) Index(v *Viewer) (float64, error) {
	var l [3]float64
	for i, degrees := range [...]float64{15, 45, 110} {
		at, err := f.At(degrees)
		if err != nil {
			return 0, err
		}
		l[i] = v.Lab(at.R).L
	}
	return 2.69 * math.Pow(max(0, l[0]-l[2]), 1.11) / math.Pow(max(l[1], 1), 0.86), nil
}

// brightestFace is the largest reading that is taken: a face of flakes throws
// several times what a white throws.
const brightestFace = 10

func (f Flop) check() error {
	if len(f) < 2 {
		return fault.New(fault.Invalid, "%d angles: face and flop are the least", len(f))
	}
	for i, a := range f {
		if !(a.Degrees > -90 && a.Degrees < 180) || i > 0 && a.Degrees <= f[i-1].Degrees {
			return fault.New(fault.Invalid, "an angle of %g°: from the face to the flop, each once, is wanted", a.Degrees).At(place("angle", i))
		}
		for b, v := range a.R {
			if !(v >= 0 && v <= brightestFace) {
				return fault.New(fault.Invalid, "a reading of %g: 0 to %d is wanted", v, brightestFace).At(band(b)).At(place("angle", i))
			}
		}
	}
	return nil
}
