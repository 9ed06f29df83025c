package sprayout

import (
	"fettle/build"
	"fettle/engine/colour"
)

// Lights name the three lights that colours are judged in, in the order in which
// every list of three here has them: daylight D65, lamp A and tube F11, all seen
// by the observer of 2°, as readings of cards are.
var Lights = [3]string{"daylight", "lamp", "tube"}

// viewers are an eye under each of the lights.
type viewers [3]*colour.Viewer

func newViewers() viewers {
	eye := colour.Degrees2()
	return viewers{colour.NewViewer(colour.D65(), eye), colour.NewViewer(colour.A(), eye), colour.NewViewer(colour.F11(), eye)}
}

// Swatch is a colour under one light, and the screen's colour for an eye that is
// used to that light.
type Swatch struct {
	Light  string     `json:"light"`
	Lab    colour.Lab `json:"lab"`
	Hex    string     `json:"srgb"`
	Within float64    `json:"within,omitempty"`    // CIEDE2000 that holds the true colour in 95 of 100; 0 is not known
	Off    float64    `json:"screen_off,omitzero"` // CIEDE2000 by which the screen lies: it has no such colour
}

// see returns a reflectance under the three lights.
func (v viewers) see(s colour.Spectrum) [3]Swatch {
	var out [3]Swatch
	for i, eye := range v {
		shown := eye.Show(s)
		out[i] = Swatch{Light: Lights[i], Lab: eye.Lab(s), Hex: shown.Colour.Hex()}
		if shown.Mapped {
			out[i].Off = shown.Difference
		}
	}
	return out
}

// Basis is what a colour rests on.
type Basis string

// What a colour can rest on, the surest first.
const (
	WorkedOut  Basis = "worked out from a spray-out"
	Measured   Basis = "as measured"
	Indication Basis = "indication only"
	Drawn      Basis = "as drawn, not measured"
	Named      Basis = "as named, no spray-out yet" // a colour of which there is no paint
	Refused    Basis = "not known"
)

// Face is how a product is seen over an undercoat.
type Face struct {
	Product build.ProductID `json:"product,omitempty"`
	Over    build.ProductID `json:"over,omitempty"`
	Colour  build.ColourID  `json:"colour,omitempty"`
	Coats   int             `json:"coats,omitempty"`
	Film    float64         `json:"film_um,omitempty"` // dry, of all coats
	Basis   Basis           `json:"basis"`
	Why     string          `json:"why,omitempty"`  // why it is no more than that, or why nothing is shown
	Seen    []Swatch        `json:"seen,omitempty"` // under the three lights; none where it is not known
	Flop    []Swatch        `json:"flop,omitempty"` // of flakes, at a shallow angle
	Hidden  bool            `json:"hidden"`         // no more coats would change it
	ToHide  int             `json:"coats_to_hide,omitempty"`
	card    build.CardID
}

// Card is the card that the colour was read from; empty for none.
func (f Face) Card() build.CardID { return f.card }

// Known reports whether there is a colour to show.
func (f Face) Known() bool { return len(f.Seen) == len(Lights) }

// Screen returns the screen's colour under a light, or nothing.
func (f Face) Screen(light int) string {
	if !f.Known() {
		return ""
	}
	return f.Seen[light].Hex
}
