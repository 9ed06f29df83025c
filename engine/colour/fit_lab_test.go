package colour

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// colourCard is what an instrument that shows Lab reads of a card.
func colourCard(c Card, v *Viewer, within float64, r *rand.Rand) LabCard {
	read := func(s Spectrum) Lab {
		l := v.Lab(s)
		axis := func(d vector) float64 { return within / 1.878 / Difference(l, off(l, d, 1)) * r.NormFloat64() }
		return Lab{l.L + axis(vector{1, 0, 0}), l.A + axis(vector{0, 1, 0}), l.B + axis(vector{0, 0, 1})}
	}
	out := LabCard{Name: c.Name, Surface: c.Surface, Viewer: v, Within: within}
	for _, g := range c.Grounds {
		out.Grounds = append(out.Grounds, read(g))
	}
	for _, f := range c.Films {
		out.Films = append(out.Films, LabReading{f.Ground, f.Film, read(f.R)})
	}
	return out
}

// anyPaint is drawn: how dark, how strong, and where it swings.
func anyPaint(r *rand.Rand) Paint {
	k, s := 0.002*math.Pow(10, 1.5*r.Float64()), 0.01*math.Pow(10, 0.9*r.Float64())
	a, b := wavy("drawn", k, s, 6*r.Float64()), wavy("", k, s, 6*r.Float64())
	for i := range a.K {
		a.K[i] += b.K[(2*i)%Bands/2] * r.Float64() * 0.2
	}
	return a
}

func TestFitLabCovers(t *testing.T) {
	const trials = 400
	v, lamp := NewViewer(D65(), Degrees10()), NewViewer(A(), Degrees10())
	for _, within := range []float64{0.5, 3} {
		r := rand.New(rand.NewPCG(3, 3))
		var held, heldLamp, refused, tried, mean, off float64
		for range trials {
			p := anyPaint(r)
			card := sprayed(p, 12)
			f, err := FitLab(colourCard(card, v, within, r))
			if err != nil {
				refused++
				continue
			}
			for i, over := range []float64{0.15, 0.3, 0.5} {
				job := Job{Paint: f, Coat: 6 + 6*float64(i), Over: Flat(over), Surface: skin}
				for _, at := range []*Viewer{v, lamp} {
					got, err := job.Coats(at, 1, Hides{})
					if err != nil {
						t.Fatal(err)
					}
					want := at.Lab(skin.Seen(Over(job.Over, Layer{p, job.Coat})))
					d := Difference(want, got[0].Lab)
					ok := count(d <= got[0].Within)
					if at == v {
						held, tried = held+ok, tried+1
						mean, off = mean+got[0].Within, off+d
					} else {
						heldLamp += ok
					}
				}
			}
		}
		t.Logf("within %g: colour held in %.3f, under the lamp in %.3f of %g (stated %.2f, off %.2f in the mean); refused %g", within, held/tried, heldLamp/tried, tried, mean/tried, off/tried, refused)
		if held < 0.95*tried || heldLamp < 0.95*tried || refused > trials/50 {
			t.Errorf("within %g: held in %g, under the lamp in %g of %g, refused %g", within, held, heldLamp, tried, refused)
		}
	}
}

// TestFitLabOfScreen: a card photographed comes back with its own colours.
func TestFitLabOfScreen(t *testing.T) {
	v := NewViewer(D65(), Degrees2())
	shown := func(hex string) Lab {
		c, err := ParseHex(hex)
		if err != nil {
			t.Fatal(err)
		}
		return c.Lab()
	}
	c := LabCard{Viewer: v, Within: 3, Grounds: []Lab{shown("#202020"), shown("#f0f0f0")},
		Films: []LabReading{{0, 12, shown("#3a5d52")}, {1, 12, shown("#7fae9c")}}}
	f, err := FitLab(c)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range c.Films {
		under, err := Reconstruct(c.Grounds[i], v)
		if err != nil {
			t.Fatal(err)
		}
		got, err := (&Job{Paint: f, Coat: 12, Over: under.Spectrum}).Coats(v, 1, Hides{})
		if err != nil || Difference(got[0].Lab, want.Lab) > 0.01 || got[0].Within < 1 || got[0].Within > 12 {
			t.Errorf("ground %d: off by %g, stated %g, %v", i, Difference(got[0].Lab, want.Lab), got[0].Within, err)
		}
	}
}

func TestFitLabRefuses(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	for want, change := range map[string]func(*LabCard){
		"no prediction for a metallic film":                  func(c *LabCard) { c.Finish = Metallic },
		"teal, ground 2, colour: lightness":                  func(c *LabCard) { c.Grounds[1].L = math.NaN() },
		"teal, reading 1, colour: no reflectance looks like": func(c *LabCard) { c.Films[0].Lab = Lab{50, 120, 120} },
		"black cannot be the lighter": func(c *LabCard) {
			c.Films[0], c.Films[1] = LabReading{0, 9, c.Films[1].Lab}, LabReading{1, 9, c.Films[0].Lab}
		},
		"within -1":   func(c *LabCard) { c.Within = -1 },
		"two of each": func(c *LabCard) { c.Films = nil },
	} {
		c := colourCard(sprayed(paints()[1], 9), v, 0, rand.New(rand.NewPCG(1, 1)))
		change(&c)
		if _, err := FitLab(c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// BenchmarkFitLab is a card of two colours over black and white.
func BenchmarkFitLab(b *testing.B) {
	c := colourCard(sprayed(paints()[1], 9, 18), NewViewer(D65(), Degrees10()), 0.5, rand.New(rand.NewPCG(1, 1)))
	for b.Loop() {
		if _, err := FitLab(c); err != nil {
			b.Fatal(err)
		}
	}
}
