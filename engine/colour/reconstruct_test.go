package colour_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/engine/colour"
)

// slope is what a made-up spectrum has least of: the squared differences of
// neighbours in the hyperbolic arc tangent.
func slope(s colour.Spectrum) (sum float64) {
	at := func(r float64) float64 {
		const margin = 1e-4
		return math.Atanh(2*(margin+(1-2*margin)*r) - 1)
	}
	for i := 1; i < len(s); i++ {
		d := at(s[i]) - at(s[i-1])
		sum += d * d
	}
	return sum
}

// unseen takes off a change what a viewer sees of it, by three bands, so that
// the rest is a change that nobody sees there.
func unseen(d colour.Spectrum, v *colour.Viewer) colour.Spectrum {
	one := func(i int) colour.XYZ { s := colour.Spectrum{}; s[i] = 1; return v.XYZ(s) }
	const red, green, blue = 22, 16, 7
	x, r, g, b := v.XYZ(d), one(red), one(green), one(blue)
	all := det(r, g, b)
	d[red] -= det(x, g, b) / all
	d[green] -= det(r, x, b) / all
	d[blue] -= det(r, g, x) / all
	return d
}

// TestReconstruct_IsTheSmoothest tries other spectra of the same colour close
// by: none has less slope.
func TestReconstruct_IsTheSmoothest(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, l := range []colour.Lab{{L: 45, A: -22, B: -10}, {L: 70, A: 20, B: 60}, {L: 30, A: 40, B: 20}, {L: 85}} {
		made, err := colour.Reconstruct(l, day)
		if err != nil {
			t.Fatal(err)
		}
		least := slope(made.Spectrum)
		for range 200 {
			var d colour.Spectrum
			for i := range d {
				d[i] = 1e-3 * made.Spectrum[i] * (1 - made.Spectrum[i]) * r.NormFloat64()
			}
			d = unseen(d, day)
			other := made.Spectrum
			for i := range other {
				other[i] += d[i]
			}
			if off := colour.Difference(day.Lab(other), l); off > 1e-5 {
				t.Fatalf("the other spectrum is %g off: the test is wrong", off)
			}
			if got := slope(other); got < least-1e-10 {
				t.Fatalf("%v: another spectrum has slope %.9f, this one %.9f", l, got, least)
			}
		}
	}
}

func TestReconstruct_GreyIsFlat(t *testing.T) {
	for _, y := range []float64{0, 0.02, 0.18, 0.5, 0.97, 1} {
		made, err := colour.Reconstruct(day.Lab(colour.Flat(y)), day)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range made.Spectrum {
			if !near(v, y, 1e-6) {
				t.Fatalf("grey of %g has %g in band %d", y, v, i)
			}
		}
	}
}

// TestDoubt_GrowsWithTheLight: none under its own viewer, little where only the
// field is larger, more under the lamp, and least where there is nothing to bend.
func TestDoubt_GrowsWithTheLight(t *testing.T) {
	made, err := colour.Reconstruct(colour.Lab{L: 50, A: -20, B: 15}, day)
	if err != nil {
		t.Fatal(err)
	}
	own, wide, lamp := made.Doubt(day), made.Doubt(colour.NewViewer(colour.D65(), colour.Degrees10())), made.Doubt(colour.NewViewer(colour.A(), colour.Degrees2()))
	if own > 1e-6 || wide <= 0.1 || lamp <= wide {
		t.Errorf("doubt own %g, 10° %g, lamp %g, want them to rise from 0", own, wide, lamp)
	}
	black, err := colour.Reconstruct(colour.Lab{}, day)
	if err != nil {
		t.Fatal(err)
	}
	if d := black.Doubt(colour.NewViewer(colour.A(), colour.Degrees2())); d > 0.5 {
		t.Errorf("black is in doubt by %g, want next to nothing", d)
	}
}

// TestViewer_IsLinear: light adds up.
func TestViewer_IsLinear(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	tube := colour.NewViewer(colour.F11(), colour.Degrees10())
	for range 100 {
		var a, b, sum colour.Spectrum
		for i := range a {
			a[i], b[i] = r.Float64(), r.Float64()
			sum[i] = 0.3*a[i] + 0.7*b[i]
		}
		x, y, z := tube.XYZ(a), tube.XYZ(b), tube.XYZ(sum)
		if !near(z.X, 0.3*x.X+0.7*y.X, 1e-9) || !near(z.Y, 0.3*x.Y+0.7*y.Y, 1e-9) || !near(z.Z, 0.3*x.Z+0.7*y.Z, 1e-9) {
			t.Fatalf("%v and %v in parts give %v", x, y, z)
		}
	}
}
