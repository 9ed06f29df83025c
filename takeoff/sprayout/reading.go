package sprayout

import (
	"fmt"
	"io"
	"math"

	"fettle/build"
	"fettle/engine/colour"
	"fettle/fault"
)

// Sample is one reading out of an instrument's file.
type Sample struct {
	Name    string        `json:"name"`
	Reading build.Reading `json:"reading"`
	Notes   []string      `json:"notes,omitempty"` // what was assumed
}

// Samples reads what an instrument wrote, CGATS text or CSV. The fault of a file
// with gaps, or with values that no paint gives, names the place.
func Samples(r io.Reader) ([]Sample, error) {
	read, err := colour.Read(r, colour.Guess)
	if err != nil {
		return nil, err
	}
	list := make([]Sample, len(read))
	for i, s := range read {
		list[i] = Sample{Name: s.Name, Notes: s.Notes}
		switch {
		case s.Spectrum != nil:
			list[i].Reading.Spectrum = make([]float64, colour.Bands)
			for b, v := range s.Spectrum {
				list[i].Reading.Spectrum[b] = math.Round(v*1e4) / 1e4
			}
		case s.Lab != nil:
			list[i].Reading.Lab = []float64{s.Lab.L, s.Lab.A, s.Lab.B}
		default:
			return nil, fault.New(fault.Invalid, "sample %d has neither a spectrum nor Lab", i+1)
		}
	}
	return list, nil
}

// Spot is a patch of a photograph: its mean as the picture has it, and how far
// pixels spread about it, both on 0 to 255.
type Spot struct {
	RGB    string // such as #1F4A55
	Spread float64
}

// Estimate is the colour of a card out of a photograph.
type Estimate struct {
	Lab    colour.Lab `json:"lab"`
	Hex    string     `json:"srgb"`
	Within float64    `json:"within"` // CIEDE2000, two in three lie within
	Missed float64    `json:"missed"` // CIEDE2000 by which the known colour came out wrong
}

// Photographed estimates a card's colour from a photograph that shows it beside a
// grey and a colour of known Lab (D65).
func Photographed(card, grey, patch Spot, greyKnown, patchKnown [3]float64) (Estimate, error) {
	var p colour.Photo
	for _, one := range []struct {
		name string
		spot Spot
		to   *colour.Patch
	}{{"card", card, &p.Card}, {"grey", grey, &p.Grey.Patch}, {"patch", patch, &p.Colour.Patch}} {
		seen, err := colour.ParseHex(one.spot.RGB)
		if err != nil {
			return Estimate{}, fault.New(fault.Invalid, "%q is no colour like #1F4A55", one.spot.RGB).At(one.name)
		}
		*one.to = colour.Patch{Seen: seen, Spread: one.spot.Spread / 255}
	}
	p.Grey.Known, p.Colour.Known = lab(greyKnown), lab(patchKnown)
	e, err := p.Estimate()
	if err != nil {
		return Estimate{}, err
	}
	return Estimate{Lab: e.Lab, Hex: e.Lab.Show().Colour.Hex(), Within: e.Within, Missed: e.Check}, nil
}

func lab(v [3]float64) colour.Lab { return colour.Lab{L: v[0], A: v[1], B: v[2]} }

// Words states an estimate with its error.
func (e Estimate) Words() string {
	return fmt.Sprintf("from a photograph: L %.1f a %.1f b %.1f, two in three within %.1f CIEDE2000; the known colour missed by %.1f", e.Lab.L, e.Lab.A, e.Lab.B, e.Within, e.Missed)
}

// Field writes an estimate as a reading is typed: Lab with its error.
func (e Estimate) Field() string {
	return fmt.Sprintf("%.1f %.1f %.1f ± %.1f", e.Lab.L, e.Lab.A, e.Lab.B, e.Within)
}
