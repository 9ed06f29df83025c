package colour

import (
	"fmt"
)

// The grid of every spectrum in this package: 380, 390 … 730 nm.
const (
	Bands   = 36  // count of bands
	FirstNM = 380 // nm, the centre of band 0
	StepNM  = 10  // nm between bands
	LastNM  = FirstNM + (Bands-1)*StepNM
)

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

// band names band i for messages: "540 nm".
func band(i int) string { return fmt.Sprintf("%d nm", Wavelength(i)) }
