package flatten

import (
	"math"
	"math/rand/v2"
	"testing"
)

// someMaps draws maps that turn nothing over, mild and wild.
func someMaps(n int) []jacobian {
	rng := rand.New(rand.NewPCG(1, 2))
	var out []jacobian
	for len(out) < n {
		k := math.Exp(2 * rng.NormFloat64())
		j := jacobian{k + rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64(), 1/k + rng.NormFloat64()}
		if j.det() > 0.05 {
			out = append(out, j)
		}
	}
	return append(out, jacobian{1, 0, 0, 1}, jacobian{0.6, -0.8, 0.8, 0.6}, jacobian{2, 0, 0, 0.25})
}

func TestDirichlet_ByStretches(t *testing.T) {
	for _, j := range someMaps(50) {
		l, s := stretches(j)
		want := l*l + s*s + 1/(l*l) + 1/(s*s)
		if got := (dirichlet{}).value(0, j); math.Abs(got-want) > 1e-9*want {
			t.Errorf("%v: %g, stretches %g and %g make %g", j, got, l, s, want)
		}
	}
	for _, j := range []jacobian{{1, 0, 0, -1}, {1, 0, 0, 0}, {}} {
		if got := (dirichlet{}).value(0, j); !math.IsInf(got, 1) {
			t.Errorf("%v turns a face over and costs %g", j, got)
		}
	}
}

func (j jacobian) moved(k int, by float64) jacobian {
	*[4]*float64{&j.XX, &j.XY, &j.YX, &j.YY}[k] += by
	return j
}

func TestDirichlet_DerivativesAreThoseOfItsValue(t *testing.T) {
	e := dirichlet{}
	for _, j := range someMaps(50) {
		var g, up, down slope
		var h, spare bend
		e.bare(0, j, &g, &h)
		for k := range 4 {
			step := 1e-5 * min(1, j.det())
			slope := (e.value(0, j.moved(k, step)) - e.value(0, j.moved(k, -step))) / (2 * step)
			if math.Abs(slope-g[k]) > 1e-4*(1+math.Abs(g[k])) {
				t.Fatalf("%v: derivative %d is %g, differences say %g", j, k, g[k], slope)
			}
			e.bare(0, j.moved(k, step), &up, &spare)
			e.bare(0, j.moved(k, -step), &down, &spare)
			for l := range 4 {
				want := (up[l] - down[l]) / (2 * step)
				if got := h[min(k, l)][max(k, l)]; math.Abs(got-want) > 1e-4*(1+math.Abs(want)) {
					t.Fatalf("%v: second derivative %d %d is %g, differences say %g", j, k, l, got, want)
				}
			}
		}
	}
}

// along returns vᵀ·h·v.
func (h bend) along(v slope) float64 {
	var sum float64
	for k := range 4 {
		for l := range 4 {
			sum += v[k] * v[l] * h[min(k, l)][max(k, l)]
		}
	}
	return sum
}

func TestDirichlet_ProjectedIsNeverNegativeAndOnlyLosesTheTurn(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	e := dirichlet{}
	for _, j := range someMaps(60) {
		var g slope
		var whole, kept bend
		e.bare(0, j, &g, &whole)
		e.derive(0, j, &g, &kept)
		for range 40 {
			v := slope{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}
			if q := kept.along(v); q < -1e-9*(1+math.Abs(whole.along(v))) {
				t.Fatalf("%v: %g along %v", j, q, v)
			}
		}
		flat := slope{j.XX - j.YY, j.XY + j.YX, j.XY + j.YX, j.YY - j.XX}
		if want := whole.along(flat); math.Abs(kept.along(flat)-want) > 1e-9*(1+math.Abs(want)) {
			t.Errorf("%v: what is no turn changed from %g to %g", j, want, kept.along(flat))
		}
	}
}
