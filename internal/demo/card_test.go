package demo_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"fettle/build"
	"fettle/engine/colour"
)

// skin is the surface of a glossy film read with its gloss.
var skin = colour.Glossy(1.5, 0.6, true)

// white is the invented Limewash: what hides has the colour told, and the
// scatter of a white that covers light grey in three coats of 9 µm.
func white(t *testing.T) colour.Paint {
	t.Helper()
	const scatter = 0.32
	p := colour.Paint{Name: "Limewash"}
	for i, r := range shade(t, "#EDE7D6") {
		p.S[i] = scatter
		p.K[i] = scatter * colour.Ratio(skin.In(r))
	}
	return p
}

func daylight() *colour.Viewer { return colour.NewViewer(colour.D65(), colour.Degrees2()) }

// shade is a smooth reflectance of a screen colour.
func shade(t *testing.T, hex string) colour.Spectrum {
	t.Helper()
	c, err := colour.ParseHex(hex)
	if err != nil {
		t.Fatal(err)
	}
	r, err := colour.Reconstruct(c.Lab(), daylight())
	if err != nil {
		t.Fatal(err)
	}
	return r.Spectrum
}

// cards are the spray-outs of the demo as the equations of a paint film give
// them; the metallic and the sealers are as an instrument would read them.
func cards(t *testing.T) []build.Card {
	t.Helper()
	spectrum := func(ground, angle string, s colour.Spectrum) build.Reading {
		list := make([]float64, colour.Bands)
		for i, v := range s {
			list[i] = math.Round(v*1e4) / 1e4
		}
		return build.Reading{Ground: ground, Angle: angle, Spectrum: list}
	}
	day := arrival + 17
	black, chart := colour.Flat(0.05), colour.Flat(0.82)
	grounds := []build.Reading{spectrum("black", "", black), spectrum("white", "", chart)}
	card := func(id build.CardID, of build.ProductID, grounds []build.Reading, steps ...build.Step) build.Card {
		return build.Card{ID: id, Product: of, Grounds: grounds, Gloss: true, Gun: "1.3 mm", Day: day, By: "PT", Steps: steps}
	}
	lime := card("C01", "base-limewash", grounds)
	lime.Cleared, lime.Note = true, "solid: three films to see how it covers"
	for coats := 1; coats <= 3; coats++ {
		layer := colour.Layer{Paint: white(t), Film: 9 * float64(coats)}
		over := func(g colour.Spectrum) colour.Spectrum {
			return skin.Seen(colour.Over(skin.Inside(g), layer))
		}
		lime.Steps = append(lime.Steps, build.Step{Coats: coats, Film: layer.Film,
			Readings: []build.Reading{spectrum("black", "", over(black)), spectrum("white", "", over(chart))}})
	}
	teal := card("C02", "base-slackwater", grounds, build.Step{Coats: 3, Film: 18, Readings: []build.Reading{
		spectrum("black", "face", shade(t, "#1F4A55")), spectrum("black", "flop", shade(t, "#0F2B33"))}})
	teal.Over, teal.Cleared, teal.Note = "sealer-black", true, "fine metallic: face and flop as read, an indication only between them"
	solid := func(id build.CardID, of build.ProductID, s colour.Spectrum, film float64, coats int) build.Card {
		return card(id, of, nil, build.Step{Coats: coats, Film: film, Readings: []build.Reading{spectrum("", "", s)}})
	}
	return []build.Card{lime, teal, solid("C03", "sealer-black", colour.Flat(0.05), 25, 1),
		solid("C04", "sealer-grey", shade(t, "#DFDED8"), 25, 1), solid("C05", "satin-grey", shade(t, "#6F7679"), 60, 2)}
}

// TestPedlar_Cards: what was read on the cards is what the paint of the demo
// gives by the equations.
func TestPedlar_Cards(t *testing.T) {
	b := on(t, pedlar(t), 0)
	if d := cmp.Diff(cards(t), b.Cards, cmpopts.EquateApprox(0, 0.00011)); d != "" {
		t.Errorf("cards (-worked out +in the file):\n%s", d)
	}
}

// TestPedlar_LimewashCovers: over light grey in three coats, over black in six.
func TestPedlar_LimewashCovers(t *testing.T) {
	day, p := daylight(), white(t)
	hidden := day.XYZ(skin.Seen(p.Hidden())).Y
	for ground, want := range map[string]int{"#DFDED8": 3, "black": 6} {
		under := colour.Flat(0.05)
		if ground != "black" {
			under = shade(t, ground)
		}
		coats := 1
		for day.XYZ(skin.Seen(colour.Over(skin.Inside(under), colour.Layer{Paint: p, Film: 9 * float64(coats)}))).Y < colour.FullHiding*hidden {
			coats++
		}
		if coats != want {
			t.Errorf("over %s it takes %d coats, want %d", ground, coats, want)
		}
	}
}
