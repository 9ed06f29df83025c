package colour

import (
	"math"
	"math/rand/v2"
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
