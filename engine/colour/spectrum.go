package colour

import (
	"fmt"
	"math"

	"fettle/fault"
)

// The grid of every spectrum in this package: 380, 390 … 730 nm.
const (
	Bands   = 36  // count of bands
	FirstNM = 380 // nm, the centre of band 0
	StepNM  = 10  // nm between bands
	LastNM  = FirstNM + (Bands-1)*StepNM
)

// highest is the largest reflectance factor that is believed: a brightener or
// a glossy white can stand a little over 1, percent taken for parts cannot.
const highest = 1.2

// Spectrum is a reflectance factor a band, as a part of what a perfect
// diffuser gives back: 0 black, 1 white, not percent. Other quantities on the
// same grid (a light's power, K or S a µm) use the same shape.
type Spectrum [Bands]float64

// Wavelength returns the centre of band i, nm.
func Wavelength(i int) int { return FirstNM + i*StepNM }

// Flat returns the spectrum with the same value in every band.
func Flat(v float64) Spectrum {
	var s Spectrum
	for i := range s {
		s[i] = v
	}
	return s
}

// Validate says where a reflectance cannot be one: a gap (not a number),
// below 0, or above 1.2.
func (s *Spectrum) Validate() error {
	for i, v := range s {
		if f := believable(v); f != nil {
			return f.At(band(i))
		}
	}
	return nil
}

// believable returns what is wrong with one reflectance factor, or nil.
func believable(v float64) *fault.Fault {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return fault.New(fault.Invalid, "there is no reflectance").
			WithHint("a gap is not guessed at: measure again")
	case v < 0:
		return fault.New(fault.Invalid, "reflectance %.4g is below 0", v).
			WithHint("zero the instrument on its black trap and measure again")
	case v > highest:
		return fault.New(fault.Invalid, "reflectance %.4g is above %g: is the file in percent?", v, highest).
			WithHint("say that the file is in percent, or calibrate on the white tile and measure again")
	}
	return nil
}

// band names band i for messages: "540 nm".
func band(i int) string { return nm(float64(Wavelength(i))) }

// nm names a wavelength for messages.
func nm(w float64) string { return fmt.Sprintf("%g nm", w) }
