package colour

import (
	"math"
	"strings"
	"testing"
)

func TestPairWorked(t *testing.T) {
	f := linearPair(0.385688, 0.03, 0.647955, 0.80)
	if a, c := f.v/f.p, 1/f.p; math.Abs(a-1.2) > 1e-5 || math.Abs(c-1.44156) > 1e-5 {
		t.Errorf("a %.6f, C %.6f, want 1.2 and 1.44156", a, c)
	}
	k, s, err := Pair(15, 0.385688, 0.03, 0.647955, 0.80)
	if err != nil || math.Abs(k-0.01) > 1e-6 || math.Abs(s-0.05) > 1e-6 {
		t.Errorf("K %.7f, S %.7f, %v", k, s, err)
	}
	// Over a ground that gives nothing back: a = ½[R + (R0−R+G)/(R0·G)].
	r0, r, g := Film(0.01, 0.05, 15, 0), Film(0.01, 0.05, 15, 0.8), 0.8
	f = linearPair(r0, 0, r, g)
	if a, want := f.v/f.p, (r+(r0-r+g)/(r0*g))/2; math.Abs(a-want) > 1e-12 {
		t.Errorf("a over black %.12f, want %.12f", a, want)
	}
}

func TestPairBack(t *testing.T) {
	for _, k := range []float64{0, 1e-5, 0.002, 0.05} {
		for _, s := range []float64{0, 1e-4, 0.003, 0.05, 0.1} {
			for _, x := range []float64{5, 15, 30} {
				for _, g := range [][2]float64{{0, 0.8}, {0.03, 0.8}, {0.2, 0.5}} {
					rb, rw := Film(k, s, x, g[0]), Film(k, s, x, g[1])
					if rw-rb < shows {
						continue
					}
					gotK, gotS, err := Pair(x, rb, g[0], rw, g[1])
					if k*s == 0 && err != nil {
						continue // on the very edge rounding may say a < 1
					}
					if err != nil || math.Abs(gotK-k) > 1e-9 || math.Abs(gotS-s) > 1e-9 {
						t.Errorf("K %g S %g X %g over %v: %.12f %.12f, %v", k, s, x, g, gotK, gotS, err)
					}
				}
			}
		}
	}
}

func TestPairRefuses(t *testing.T) {
	for want, in := range map[string][5]float64{
		"the film over black cannot be the lighter": {15, 0.6, 0.03, 0.4, 0.8},
		"the film hides":                  {60, 0.500, 0.03, 0.505, 0.8},
		"too alike":                       {15, 0.3, 0.5, 0.4, 0.505},
		"a is below 1":                    {15, 0.5, 0.03, 0.95, 0.8},
		"C is not above b":                {15, 0.0, 0.4, 0.011, 0.5},
		"a film of 0 µm":                  {0, 0.3, 0.03, 0.4, 0.8},
		"a reflectance of NaN":            {15, math.NaN(), 0.03, 0.4, 0.8},
		"a reflectance of -0.1":           {15, -0.1, 0.03, 0.4, 0.8},
		"a reflectance of 1.2 inside the": {15, 0.3, 0.03, 1.2, 0.8},
	} {
		k, s, err := Pair(in[0], in[1], in[2], in[3], in[4])
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Pair(%v) = %g, %g, %v, want %q", in, k, s, err, want)
		}
	}
}

func FuzzPair(f *testing.F) {
	f.Add(15.0, 0.385688, 0.03, 0.647955, 0.80)
	f.Add(15.0, 0.03, 0.03, 0.8, 0.80)
	f.Fuzz(func(t *testing.T, x, rb, gb, rw, gw float64) {
		k, s, err := Pair(x, rb, gb, rw, gw)
		if err != nil {
			return
		}
		if !(k >= 0 && s >= 0) {
			t.Fatalf("K %g, S %g", k, s)
		}
		if a, b := Film(k, s, x, gb), Film(k, s, x, gw); math.Abs(a-rb) > 1e-6 || math.Abs(b-rw) > 1e-6 {
			t.Errorf("K %g S %g X %g give %g and %g, measured %g and %g", k, s, x, a, b, rb, rw)
		}
	})
}
