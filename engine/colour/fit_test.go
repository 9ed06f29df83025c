package colour

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// paints are five made-up paints: K and S swing over the bands.
func paints() []Paint {
	cream, teal, red, grey, dye := wavy("cream", 0.002, 0.07, 4), wavy("teal", 0.02, 0.03, 1), wavy("red", 0.03, 0.01, 3), wavy("grey", 0, 0.05, 0), wavy("glaze", 0.02, 0, 2)
	for i := range grey.K {
		grey.K[i] = 0.012
	}
	return []Paint{cream, teal, red, grey, dye}
}

// black and white are the grounds of a made-up card, inside.
func blackChart() Spectrum { return Flat(0.01) }
func whiteChart() Spectrum {
	w := Flat(0.86)
	w[0], w[1], w[2] = 0.35, 0.55, 0.75 // white pigment takes the violet away
	return w
}

var skin = Surface{K1: 0.04, K2: 0.6, Gloss: true}

// sprayed is the card of a paint in some films, read without error.
func sprayed(p Paint, films ...float64) Card {
	inside := []Spectrum{blackChart(), whiteChart()}
	c := Card{Name: p.Name, Surface: skin, Noise: 0.005}
	for g, ground := range inside {
		c.Grounds = append(c.Grounds, skin.Seen(ground))
		for _, x := range films {
			c.Films = append(c.Films, Reading{g, x, skin.Seen(Over(ground, Layer{p, x}))})
		}
	}
	return c
}

// blurred adds the noise of the readings, and that of the gauge to every film.
func blurred(c Card, r *rand.Rand) Card {
	blur := func(s Spectrum) Spectrum {
		for i := range s {
			s[i] = max(0, s[i]+c.Noise*r.NormFloat64())
		}
		return s
	}
	c.Grounds = []Spectrum{blur(c.Grounds[0]), blur(c.Grounds[1])}
	films, gauged := c.Films, map[float64]float64{}
	c.Films = nil
	for _, f := range films {
		if gauged[f.Film] == 0 {
			gauged[f.Film] = f.Film + c.Gauge*r.NormFloat64()
		}
		c.Films = append(c.Films, Reading{f.Ground, gauged[f.Film], blur(f.R)})
	}
	return c
}

func TestFitExact(t *testing.T) {
	for _, p := range paints() {
		for _, films := range [][]float64{{9}, {9, 18}, {6, 12, 24}} {
			f, err := Fit(sprayed(p, films...))
			if err != nil {
				t.Errorf("%s %v: %v", p.Name, films, err)
				continue
			}
			if len(f.Ratio) > 0 {
				t.Errorf("%s %v: hides at %v", p.Name, films, f.Ratio)
			}
			for i := range p.K {
				if dk, ds := math.Abs(f.Paint.K[i]-p.K[i]), math.Abs(f.Paint.S[i]-p.S[i]); dk > 1e-6 || ds > 1e-6 {
					t.Errorf("%s %v %s: K off by %g, S by %g", p.Name, films, band(i), dk, ds)
				}
			}
		}
	}
}

// cases are cards that the stated errors are tried on.
func cases() []Card {
	var list []Card
	for _, p := range paints() {
		both := sprayed(p, 9, 18)
		both.Gauge = 0.4
		list = append(list, sprayed(p, 9), both)
	}
	navy := wavy("navy", 0.08, 0.02, 2) // hides in most bands, and nearly in others
	return append(list, sprayed(navy, 9), sprayed(navy, 5, 9, 18), sprayed(paints()[0], 27))
}

// TestStatedErrors reads every card anew and anew with noise, and counts how
// often K, S and the colour over a sealer that is on no card are within what is
// stated. The floors lie two deviations of such a count below 0.95.
func TestStatedErrors(t *testing.T) {
	const trials = 400
	v := NewViewer(D65(), Degrees10())
	for n, c := range cases() {
		got, r := tally{}, rand.New(rand.NewPCG(7, uint64(n)))
		for range trials {
			f, err := Fit(blurred(c, r))
			if err != nil {
				t.Fatalf("%s: %v", c.Name, err)
			}
			got.powers(f, truth(c.Name))
			got.colours(t, v, f, truth(c.Name))
		}
		k, s := got.k/got.bands, got.s/got.bands
		t.Logf("%-6s %d readings, gauge %g: held K %.3f, S %.3f; colour after 1 to 3 coats in %v, L in %v", c.Name, len(c.Films), c.Gauge, k, s, got.colour, got.light)
		if k < 0.935 || s < 0.935 {
			t.Errorf("%s: K held in %.3f, S in %.3f, want 0.95", c.Name, k, s)
		}
		for i := range got.colour {
			if got.colour[i] < 0.925*trials || got.light[i] < 0.925*trials {
				t.Errorf("%s after %d coats: colour held in %g of %d, L in %g", c.Name, i+1, got.colour[i], trials, got.light[i])
			}
		}
	}
}

// tally counts what was within its stated error.
type tally struct {
	k, s, bands   float64
	colour, light [3]float64 // after 1, 2, 3 coats
}

func (n *tally) powers(f Fitted, p Paint) {
	for i := range p.K {
		if slices.Contains(f.Ratio, i) {
			continue
		}
		n.bands++
		n.k += count(math.Abs(f.Paint.K[i]-p.K[i]) <= f.KError[i])
		n.s += count(math.Abs(f.Paint.S[i]-p.S[i]) <= f.SError[i])
	}
}

func (n *tally) colours(t *testing.T, v *Viewer, f Fitted, p Paint) {
	t.Helper()
	sealer := Flat(0.45)
	list, err := (&Job{Paint: f, Coat: 9, Over: sealer, Surface: skin}).Coats(v, len(n.colour), Hides{})
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range list {
		want := v.Lab(skin.Seen(Over(sealer, Layer{p, c.Film})))
		n.colour[i] += count(Difference(want, c.Lab) <= c.Within)
		n.light[i] += count(math.Abs(want.L-c.Lab.L) <= c.Error.L)
	}
}

func truth(name string) Paint {
	for _, p := range append(paints(), wavy("navy", 0.08, 0.02, 2)) {
		if p.Name == name {
			return p
		}
	}
	panic(name)
}

func count(held bool) float64 {
	if held {
		return 1
	}
	return 0
}

func TestFitRefuses(t *testing.T) {
	for want, change := range map[string]func(*Card){
		"teal, its finish: no prediction for a metallic film":       func(c *Card) { c.Finish = Metallic },
		"teal, its finish: no prediction for a pearl film":          func(c *Card) { c.Finish = Pearl },
		"teal, reading 2, 400 nm: no value":                         func(c *Card) { c.Films[1].R[2] = math.NaN() },
		"teal, ground 1, 380 nm: a reading of -0.001":               func(c *Card) { c.Grounds[0][0] = -0.001 },
		"teal, reading 1, 730 nm: a reading of 1.21":                func(c *Card) { c.Films[0].R[35] = 1.21 },
		"teal, reading 1, 390 nm: a reading of 40":                  func(c *Card) { c.Films[0].R[1] = 40 },
		"teal, reading 1, 390 nm: a reading of +Inf":                func(c *Card) { c.Films[0].R[1] = math.Inf(1) },
		"teal, 380 nm: over black it reads":                         func(c *Card) { c.Films[0].R, c.Films[1].R = c.Films[1].R, c.Films[0].R },
		"teal, 380 nm: the grounds read":                            func(c *Card) { c.Grounds[1] = c.Grounds[0] },
		"teal, 600 nm: over white it reads lighter than a film can": func(c *Card) { c.Films[1].R[22] = 0.99 },
		"teal: 1 grounds":                       func(c *Card) { c.Grounds = c.Grounds[:1] },
		"teal: no film lies over two grounds":   func(c *Card) { c.Films[1].Film = 11 },
		"teal, reading 1: there is no ground 3": func(c *Card) { c.Films[0].Ground = 2 },
		"teal, reading 1: a film of 0 µm":       func(c *Card) { c.Films[0].Film = 0 },
		"teal: noise 0.5":                       func(c *Card) { c.Noise = 0.5 },
		"teal, the surface: k1":                 func(c *Card) { c.Surface.K1 = -1 },
	} {
		c := sprayed(paints()[1], 9)
		change(&c)
		if _, err := Fit(c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// TestFitHidden: of films that hide K/S is known, the colour of thick films with
// it, and no more is claimed.
func TestFitHidden(t *testing.T) {
	navy := wavy("navy", 0.08, 0.02, 2)
	f, err := Fit(sprayed(navy, 200))
	if err != nil || len(f.Ratio) != Bands || f.Thinnest != 200 {
		t.Fatalf("%d bands of K/S only, thinnest %g, %v", len(f.Ratio), f.Thinnest, err)
	}
	v, over := NewViewer(D65(), Degrees10()), Flat(0.3)
	got, err := (&Job{Paint: f, Coat: 100, Over: over, Surface: skin}).Coats(v, 2, Hides{})
	if err != nil {
		t.Fatal(err)
	}
	want := v.Lab(skin.Seen(Over(over, Layer{navy, 200})))
	if d := Difference(want, got[1].Lab); d > 0.3 || d > got[1].Within {
		t.Errorf("at the film of the card off by %.3f, stated %.3f", d, got[1].Within)
	}
	if !(got[0].Within > got[1].Within) {
		t.Errorf("half the film is stated to %.3f, all of it to %.3f", got[0].Within, got[1].Within)
	}
}

func FuzzFit(f *testing.F) {
	f.Add(0.2, 0.5, 0.05, 0.8, 9.0, 0.005)
	f.Add(0.0, 0.0, 0.0, 1.2, 1e5, 0.0)
	f.Fuzz(func(t *testing.T, overBlack, overWhite, black, white, film, noise float64) {
		c := Card{Surface: skin, Grounds: []Spectrum{Flat(black), Flat(white)}, Noise: noise,
			Films: []Reading{{0, film, Flat(overBlack)}, {1, film, Flat(overWhite)}, {1, film / 2, Flat(overWhite)}}}
		fit, err := Fit(c)
		if err != nil {
			return
		}
		for i := range Bands {
			for _, v := range []float64{fit.Paint.K[i], fit.Paint.S[i], fit.KError[i], fit.SError[i]} {
				if !(v >= 0) || math.IsInf(v, 0) {
					t.Fatalf("K %g ± %g, S %g ± %g", fit.Paint.K[i], fit.KError[i], fit.Paint.S[i], fit.SError[i])
				}
			}
		}
	})
}
