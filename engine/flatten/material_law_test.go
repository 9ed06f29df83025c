package flatten

import (
	"math"
	"math/rand/v2"
	"testing"
)

func laws(t *testing.T) map[string]law {
	steel, err := Sheet("DC04", 0.8)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]law{"leather": lawOf(Leather()), "vinyl": lawOf(Vinyl()), "DC04": plasticLaw(*steel.Metal)}
}

func TestLaw_DerivativeIsThatOfItsEnergy(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	for name, l := range laws(t) {
		for range 200 {
			h := [3]float64{rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1}
			_, d, _ := l.energy(strain{h[0], h[1], h[2]})
			for i := range 3 {
				const step = 1e-6
				up, down := h, h
				up[i], down[i] = h[i]+step, h[i]-step
				wu, _, _ := l.energy(strain{up[0], up[1], up[2]})
				wd, _, _ := l.energy(strain{down[0], down[1], down[2]})
				if got := (wu - wd) / (2 * step); math.Abs(got-d[i]) > 1e-4*(1+math.Abs(d[i])) {
					t.Fatalf("%s at %v: derivative %d is %g, differences give %g", name, h, i, d[i], got)
				}
			}
		}
	}
}

func TestLaw_ValueIsThatOfItsEnergy(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 5))
	for name, l := range laws(t) {
		for range 200 {
			h := strain{rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1}
			low, high := h.extremes()
			want, _, _ := l.energy(h)
			if got := l.value(high, low, h.axes()); math.Abs(got-want) > 1e-12*(1+want) {
				t.Fatalf("%s at %v: value %g, energy %g", name, h, got, want)
			}
		}
	}
}

func TestLaw_StandInForSecondDerivativeIsSemidefinite(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	for name, l := range laws(t) {
		for range 200 {
			_, _, dd := l.energy(strain{rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1, rng.NormFloat64() * 0.1})
			v := [3]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}
			var q float64
			for i := range 3 {
				for j := range 3 {
					if math.Abs(dd[i][j]-dd[j][i]) > 1e-9 {
						t.Fatalf("%s: not symmetric: %v", name, dd)
					}
					q += dd[i][j] * v[i] * v[j]
				}
			}
			if q < -1e-9 {
				t.Fatalf("%s: %v gives %g", name, dd, q)
			}
		}
	}
}

func TestEnergies_DerivativeIsThatOfTheirValue(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 3))
	list := map[string]energy{"cloth": wovenOf(Cloth())}
	for name, l := range laws(t) {
		list[name] = borne{l}
	}
	for name, b := range list {
		for range 100 {
			x := [4]float64{1, 0.1, -0.1, 1}
			for i := range x {
				x[i] += rng.NormFloat64() * 0.1
			}
			at := func(x [4]float64) float64 { return b.value(0, jacobian{x[0], x[1], x[2], x[3]}) }
			var g slope
			var h bend
			b.derive(0, jacobian{x[0], x[1], x[2], x[3]}, &g, &h)
			for i := range 4 {
				const step = 1e-6
				up, down := x, x
				up[i], down[i] = x[i]+step, x[i]-step
				if got := (at(up) - at(down)) / (2 * step); math.Abs(got-g[i]) > 1e-4*(1+math.Abs(g[i])) {
					t.Fatalf("%s at %v: derivative %d is %g, differences give %g", name, x, i, g[i], got)
				}
			}
		}
	}
}

func TestStretching_FindsWhatWasPutIn(t *testing.T) {
	// A flat face that mounting pulls by 1.2 along 30° and 0.9 across it, from a
	// surface that stands turned by 50° to the pattern.
	const along, across, at, turned = 1.2, 0.9, math.Pi / 6, 0.9
	s, c := math.Sincos(at)
	laid := jacobian{ // R(at) diag(1/along, 1/across) R(at)ᵀ
		XX: c*c/along + s*s/across, XY: c*s/along - c*s/across,
		YX: c*s/along - c*s/across, YY: s*s/along + c*c/across,
	}
	v, w := math.Sincos(turned)
	j := jacobian{laid.XX*w + laid.XY*v, laid.XY*w - laid.XX*v, laid.YX*w + laid.YY*v, laid.YY*w - laid.YX*v}
	h := j.stretching().log()
	low, high := h.extremes()
	for _, v := range [][2]float64{{high, math.Log(along)}, {low, math.Log(across)}, {h.axes().angle(), at}} {
		if math.Abs(v[0]-v[1]) > 1e-12 {
			t.Errorf("got %g, want %g", v[0], v[1])
		}
	}
}

func TestExcess_AsksAllDirections(t *testing.T) {
	m := Material{Tension: [2]float64{0.05, 0.15}, Squeeze: [2]float64{0.01, 0.01}}
	for _, c := range []struct {
		along, across, turn float64
		want                bool
	}{
		{0.049, 0.149, 0, false},
		{0.051, 0, 0, true},
		{0, 0.151, 0, true},
		{0.06, 0, math.Pi / 4, false}, // between both limits at 45°
		{0, -0.011, 1, true},
		{0, -0.009, 1, false},
	} {
		s, k := math.Sincos(2 * c.turn)
		h := strain{xx: math.Log1p(c.along), yy: math.Log1p(c.across)}.in(axes{k, -s})
		if got := m.excess(h) > 0; got != c.want {
			t.Errorf("%+v: beyond is %v", c, got)
		}
	}
}
