package colour

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Patch is a spot of a photograph: the mean of its pixels as the picture file
// has them, and how far single pixels spread about it (standard deviation, the
// same 0 to 1 scale).
type Patch struct {
	Seen   SRGB
	Spread float64
}

// Reference is a patch whose colour is known, under daylight D65.
type Reference struct {
	Patch
	Known Lab
}

// Photo is a card photographed beside a grey and a colour of known Lab, all
// flat in one light.
type Photo struct {
	Card   Patch
	Grey   Reference
	Colour Reference // best one near the card's own colour
}

// Estimate is a colour out of a photograph.
type Estimate struct {
	Lab    Lab
	Within float64 // CIEDE2000, about two in three lie within
	Check  float64 // CIEDE2000 by which the photograph misses the colour reference
}

// What a photograph must keep to.
const (
	tooDark, clipped = 0.02, 0.98 // of a channel: beyond, the camera clips
	neutral          = 5.0        // chroma of a grey reference at most
	balanced         = 4.0        // factor by which a channel may be put right
	astray           = 12.0       // miss of the colour reference at most
	leastWithin      = 2.0        // error that no photograph gets below
)

// Estimate puts each channel right by the grey and says how far the known
// colour then misses, which is what the camera does to colours: a camera's
// filters are no observer, and its maker's rendering moves colours to please.
// Within joins that miss, the spread of the pixels, and 2 for what two
// patches cannot show: uneven light, gloss, and metamerism to the camera.
// Lab is relative to D65 and the 2° observer. It is for choosing a starting
// point; a match wants an instrument or a spray-out.
func (p Photo) Estimate() (Estimate, error) {
	if err := p.validate(); err != nil {
		return Estimate{}, err
	}
	gain, err := p.gains()
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Lab: gain.lab(p.Card.Seen)}
	e.Check = Difference(gain.lab(p.Colour.Seen), p.Colour.Known)
	if e.Check > astray {
		return Estimate{}, fault.New(fault.Invalid, "the known colour misses by %.1f CIEDE2000", e.Check).At("colour patch").
			WithHint("light all patches alike, switch off filters and mixed lamps, and check that the right patch was touched")
	}
	e.Within = math.Hypot(math.Hypot(leastWithin, e.Check), gain.noise(p))
	return e, nil
}

// spots returns the three patches by name.
func (p Photo) spots() [3]struct {
	name string
	Patch
} {
	return [3]struct {
		name string
		Patch
	}{{"card patch", p.Card}, {"grey patch", p.Grey.Patch}, {"colour patch", p.Colour.Patch}}
}

func (p Photo) validate() error {
	for _, s := range p.spots() {
		for _, v := range [3]float64{s.Seen.R, s.Seen.G, s.Seen.B} {
			if !(v >= 0 && v <= clipped) {
				return fault.New(fault.Invalid, "a channel at %.0f of 255 is clipped", 255*v).At(s.name).
					WithHint("expose less and take the picture again")
			}
		}
		if !(s.Spread >= 0 && s.Spread < 0.5) {
			return fault.New(fault.Invalid, "a spread of %.3g is none of pixels from 0 to 1", s.Spread).At(s.name)
		}
	}
	if g := p.Grey.Seen; min(g.R, g.G, g.B) < tooDark {
		return fault.New(fault.Invalid, "the grey is too dark to put the light right by").At("grey patch").
			WithHint("expose more, or take a lighter grey")
	}
	if c := p.Grey.Known.LCh().C; !(c <= neutral) || !(p.Grey.Known.L > 20 && p.Grey.Known.L <= 100) {
		return fault.New(fault.Invalid, "L %.1f with chroma %.1f is no grey to go by", p.Grey.Known.L, c).At("grey patch").
			WithHint("take a neutral grey of L between 40 and 80")
	}
	if c := p.Colour.Known.LCh().C; !(c > 2*neutral) || !(p.Colour.Known.L > 0 && p.Colour.Known.L <= 100) {
		return fault.New(fault.Invalid, "L %.1f with chroma %.1f is no colour to check by", p.Colour.Known.L, c).At("colour patch").
			WithHint("take a clear colour, best one near the card's own")
	}
	return nil
}

// gains are the factors that put the channels of linear light right.
type gains linear

func (p Photo) gains() (gains, error) {
	x := p.Grey.Known.XYZ(screenWhite)
	var want linear
	want.r, want.g, want.b = fromXYZ.at(x.X, x.Y, x.Z)
	seen := p.Grey.Seen.linear()
	g := gains{want.r / seen.r, want.g / seen.g, want.b / seen.b}
	for i, f := range [3]float64{g.r, g.g, g.b} {
		if !(f <= balanced && f >= 1/balanced) {
			return g, fault.New(fault.Invalid, "%s is off by a factor of %.1f", [3]string{"red", "green", "blue"}[i], f).At("grey patch").
				WithHint(fmt.Sprintf("up to %g is put right: light the card by day and set the white balance", balanced))
		}
	}
	return g, nil
}

// lab returns the colour of a spot with its channels put right.
func (g gains) lab(c SRGB) Lab {
	l := c.linear()
	return linear{l.r * g.r, l.g * g.g, l.b * g.b}.lab()
}

// noise returns how far the colour moves, channel by channel in square, when
// card and grey move by their spread.
func (g gains) noise(p Photo) float64 {
	base, sum := g.lab(p.Card.Seen), 0.0
	for _, spot := range []float64{p.Card.Spread, p.Grey.Spread} {
		for i := range 3 {
			c := p.Card.Seen
			*[3]*float64{&c.R, &c.G, &c.B}[i] += spot
			d := Difference(base, g.lab(c))
			sum += d * d
		}
	}
	return math.Sqrt(sum)
}
