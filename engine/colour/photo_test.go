package colour_test

import (
	"strings"
	"testing"

	"fettle/engine/colour"
	"fettle/fault"
)

var (
	grey  = colour.Lab{L: 60}
	green = colour.Lab{L: 50, A: -28, B: 12}
	teal  = colour.Lab{L: 45, A: -22, B: -10}
)

// under returns how a camera without faults of its own renders a colour when
// its three channels are lit unevenly by the given factors.
func under(l colour.Lab, r, g, b float64) colour.SRGB {
	x := l.XYZ(colour.SRGB{R: 1, G: 1, B: 1}.XYZ())
	// Scaling linear sRGB is scaling along its primaries.
	var sum colour.XYZ
	for _, c := range []struct {
		only colour.SRGB
		part float64
	}{{colour.SRGB{R: 1}, r}, {colour.SRGB{G: 1}, g}, {colour.SRGB{B: 1}, b}} {
		p := primary(x, c.only) * c.part
		q := c.only.XYZ()
		sum = colour.XYZ{X: sum.X + p*q.X, Y: sum.Y + p*q.Y, Z: sum.Z + p*q.Z}
	}
	return sum.Lab(colour.SRGB{R: 1, G: 1, B: 1}.XYZ()).Show().Colour
}

// primary returns how much of a screen primary a colour holds, by Cramer's rule.
func primary(x colour.XYZ, only colour.SRGB) float64 {
	r, g, b := colour.SRGB{R: 1}.XYZ(), colour.SRGB{G: 1}.XYZ(), colour.SRGB{B: 1}.XYZ()
	all := det(r, g, b)
	switch {
	case only.R > 0:
		return det(x, g, b) / all
	case only.G > 0:
		return det(r, x, b) / all
	}
	return det(r, g, x) / all
}

func det(a, b, c colour.XYZ) float64 {
	return a.X*(b.Y*c.Z-b.Z*c.Y) - b.X*(a.Y*c.Z-a.Z*c.Y) + c.X*(a.Y*b.Z-a.Z*b.Y)
}

func photo(r, g, b float64) colour.Photo {
	return colour.Photo{
		Card:   colour.Patch{Seen: under(teal, r, g, b)},
		Grey:   colour.Reference{Patch: colour.Patch{Seen: under(grey, r, g, b)}, Known: grey},
		Colour: colour.Reference{Patch: colour.Patch{Seen: under(green, r, g, b)}, Known: green},
	}
}

func TestPhoto_UndoesTheLight(t *testing.T) {
	e, err := photo(1.2, 0.9, 0.6).Estimate()
	if err != nil {
		t.Fatal(err)
	}
	if off := colour.Difference(e.Lab, teal); off > 0.01 || e.Check > 0.01 || !near(e.Within, 2, 0.01) {
		t.Errorf("%+v is %.3f from the card, want the card within 2", e, off)
	}
}

func TestPhoto_ErrorGrowsWithFaults(t *testing.T) {
	p := photo(1, 1, 1)
	p.Card.Spread, p.Grey.Spread = 0.02, 0.01
	noisy, err := p.Estimate()
	if err != nil || noisy.Within < 2.5 {
		t.Errorf("noisy: %+v, %v, want more than 2.5", noisy, err)
	}
	p = photo(1, 1, 1)
	p.Colour.Known.A -= 6
	bent, err := p.Estimate()
	if err != nil || bent.Check < 2 || bent.Within < bent.Check {
		t.Errorf("bent colours: %+v, %v, want a miss above 2 and more than that", bent, err)
	}
}

func TestPhoto_Refuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*colour.Photo)
		want  string
	}{
		{"clipped", func(p *colour.Photo) { p.Card.Seen.R = 1 }, "card patch: a channel at 255 of 255 is clipped"},
		{"spread", func(p *colour.Photo) { p.Grey.Spread = 4 }, "grey patch: a spread of 4"},
		{"dark", func(p *colour.Photo) { p.Grey.Seen.B = 0.01 }, "grey patch: the grey is too dark"},
		{"no grey", func(p *colour.Photo) { p.Grey.Known.A = 20 }, "grey patch: L 60.0 with chroma 20.0 is no grey"},
		{"no colour", func(p *colour.Photo) { p.Colour.Known = grey }, "colour patch: L 60.0 with chroma 0.0 is no colour"},
		{"odd lamp", func(p *colour.Photo) { p.Grey.Seen.B = 0.1 }, "grey patch: blue is off by a factor of"},
		{"wrong patch", func(p *colour.Photo) { p.Colour.Seen = p.Grey.Seen }, "colour patch: the known colour misses by"},
	} {
		p := photo(1, 1, 1)
		c.spoil(&p)
		if _, err := p.Estimate(); fault.KindOf(err) != fault.Invalid || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}
