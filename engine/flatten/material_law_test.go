package flatten

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

func laws(t *testing.T) map[string]law {
	steel, err := Sheet("DC04", 0.8)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]law{"leather": lawOf(Leather()), "cloth": lawOf(Cloth()), "DC04": plasticLaw(*steel.Metal)}
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

func TestPulled_DerivativeIsThatOfItsEnergy(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 3))
	m := metricOf(mesh.Vec{}, mesh.Vec{X: 10, Z: 3}, mesh.Vec{X: 2, Y: 9})
	for name, l := range laws(t) {
		for range 100 {
			var x [6]float64
			for i, v := range [6]float64{0, 0, 10, 1, 1, 9} {
				x[i] = v + rng.NormFloat64()*0.7
			}
			at := func(x [6]float64) pull {
				s, ok := m.stretched(geom.Point{X: x[0], Y: x[1]}, geom.Point{X: x[2], Y: x[3]}, geom.Point{X: x[4], Y: x[5]})
				if !ok {
					t.Fatal("turned over")
				}
				return s.pulled(l)
			}
			p := at(x)
			for i := range 6 {
				const step = 1e-5
				up, down := x, x
				up[i], down[i] = x[i]+step, x[i]-step
				if got := (at(up).energy - at(down).energy) / (2 * step); math.Abs(got-p.grad[i]) > 1e-5*(1+math.Abs(p.grad[i])) {
					t.Fatalf("%s at %v: derivative %d is %g, differences give %g", name, x, i, p.grad[i], got)
				}
			}
		}
	}
}

func TestStretched_FindsWhatWasPutIn(t *testing.T) {
	// A flat triangle pulled by 1.2 along 30° and 0.9 across it.
	const along, across, at = 1.2, 0.9, math.Pi / 6
	s, c := math.Sincos(at)
	put := func(p geom.Point) mesh.Vec {
		u, v := along*(c*p.X+s*p.Y), across*(c*p.Y-s*p.X)
		return mesh.Vec{X: c*u - s*v, Z: s*u + c*v} // the surface stands upright
	}
	p, q, r := geom.Point{X: 3, Y: 1}, geom.Point{X: 9, Y: 2}, geom.Point{X: 4, Y: 8}
	got, ok := metricOf(put(p), put(q), put(r)).stretched(p, q, r)
	if !ok {
		t.Fatal("turned over")
	}
	h := got.log()
	low, high := h.extremes()
	for _, v := range [][2]float64{{high, math.Log(along)}, {low, math.Log(across)}, {h.angle(), at}} {
		if math.Abs(v[0]-v[1]) > 1e-12 {
			t.Errorf("got %g, want %g", v[0], v[1])
		}
	}
	if _, ok := metricOf(put(p), put(q), put(r)).stretched(p, r, q); ok {
		t.Error("a face turned over passed")
	}
}

func TestOutside_AsksAllDirections(t *testing.T) {
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
		s, k := math.Sincos(c.turn)
		h := strain{xx: math.Log1p(c.along), yy: math.Log1p(c.across)}.in(k, -s)
		if got := m.outside(h); got != c.want {
			t.Errorf("%+v: outside is %v", c, got)
		}
	}
}
