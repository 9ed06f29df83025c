package sprayout

import (
	"fmt"

	"fettle/build"
	"fettle/engine/colour"
)

// skinIndex and skinInside are the refractive index of clear and the part of
// the light that its inner face sends back: what the trade takes where nobody
// has measured it [Saunderson1942].
const (
	skinIndex  = 1.5
	skinInside = 0.6
)

// Two in three readings lie within so much, CIEDE2000, where a reading does not
// say: an instrument that shows Lab, and a picture. The second is our judgement.
const (
	labWithin = 0.5
	rgbWithin = 3.0
)

// in95 turns what holds two in three into what holds 95 in 100, three numbers
// that spread alike: 2.796 ÷ 1.878 deviations.
const in95 = 1.489

// source is what is known of a product's colour.
type source struct {
	basis   Basis
	card    *build.Card
	paint   colour.Fitted   // of WorkedOut
	surface colour.Surface  // of the readings
	face    colour.Spectrum // as seen, of all others
	flop    *colour.Spectrum
	within  float64 // CIEDE2000 of face, 95 in 100
	doubt   [3]float64
	why     string
}

func skinOf(c *build.Card) colour.Surface {
	return colour.Glossy(skinIndex, skinInside, c == nil || c.Gloss)
}

// sourceOf returns what is known of a product: the last card that says
// something, else the colour as it was drawn.
func (p *Paints) sourceOf(of *build.Product) source {
	var refused string
	for i := len(p.build.Cards) - 1; i >= 0; i-- {
		c := &p.build.Cards[i]
		if c.Product != of.ID {
			continue
		}
		s, err := p.readCard(c, p.flakes(of))
		if err == nil {
			return s
		}
		if refused == "" {
			refused = fmt.Sprintf("card %s: %v", c.ID, err)
		}
	}
	s := p.drawn(of.Colour)
	if refused != "" {
		s.why = refused
	}
	return s
}

// flakes reports whether a product changes with the angle: a card or its colour
// has a flop.
func (p *Paints) flakes(of *build.Product) bool {
	if c := p.build.Colour(of.Colour); c != nil && c.Flop != "" {
		return true
	}
	for _, c := range p.build.Cards {
		for _, s := range c.Steps {
			for _, r := range s.Readings {
				if c.Product == of.ID && r.Angle == "flop" {
					return true
				}
			}
		}
	}
	return false
}

// drawn returns a colour of the look as somebody drew it.
func (p *Paints) drawn(id build.ColourID) source {
	c := p.build.Colour(id)
	if c == nil {
		return source{basis: Refused, why: "no card was read and no colour is drawn: spray a card over black and white and enter it"}
	}
	face, err := p.made(build.Reading{RGB: c.Face})
	if err != nil {
		return source{basis: Refused, why: err.Error()}
	}
	s := source{basis: Drawn, face: face.Spectrum, surface: skinOf(nil), why: "drawn on a screen: spray a card over black and white and enter it"}
	for i, eye := range p.eyes {
		s.doubt[i] = face.Doubt(eye)
	}
	if c.Flop != "" {
		if flop, err := p.made(build.Reading{RGB: c.Flop}); err == nil {
			s.flop = &flop.Spectrum
		}
	}
	return s
}

// made makes up a reflectance from a reading of three numbers.
func (p *Paints) made(r build.Reading) (colour.Rebuilt, error) {
	lab, err := labOf(r, p.eyes[0])
	if err != nil {
		return colour.Rebuilt{}, err
	}
	return colour.Reconstruct(lab, p.eyes[0])
}

// spectrum returns a reading as reflectance.
func (p *Paints) spectrum(r build.Reading) (colour.Spectrum, error) {
	if len(r.Spectrum) == colour.Bands {
		return colour.Spectrum(r.Spectrum), nil
	}
	made, err := p.made(r)
	return made.Spectrum, err
}

func labOf(r build.Reading, daylight *colour.Viewer) (colour.Lab, error) {
	switch {
	case len(r.Spectrum) == colour.Bands:
		return daylight.Lab(colour.Spectrum(r.Spectrum)), nil
	case len(r.Lab) == 3:
		return colour.Lab{L: r.Lab[0], A: r.Lab[1], B: r.Lab[2]}, nil
	}
	c, err := colour.ParseHex(r.RGB)
	return c.Lab(), err
}

// withinOf returns the CIEDE2000 that two in three readings of a kind lie within.
func withinOf(r build.Reading) float64 {
	switch {
	case r.Within > 0:
		return r.Within
	case len(r.Spectrum) > 0:
		return 0
	case len(r.Lab) > 0:
		return labWithin
	}
	return rgbWithin
}
