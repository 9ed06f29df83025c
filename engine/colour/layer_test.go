package colour

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// vectors reads rows of K, S, X, ground, reflectance.
func vectors(t *testing.T, path string) [][5]float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Skipf("%s is absent: nothing to compare with", path)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list [][5]float64
	for _, row := range rows[1:] {
		var v [5]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		list = append(list, v)
	}
	return list
}

func TestFilmVectors(t *testing.T) {
	list := vectors(t, filepath.Join("..", "..", "..", "shared", "data", "colour", "km_layer_check_vectors.csv"))
	if len(list) != 120 {
		t.Errorf("%d vectors, want 120", len(list))
	}
	for _, v := range list {
		if got := Film(v[0], v[1], v[2], v[3]); math.Abs(got-v[4]) > 1e-9 {
			t.Errorf("Film(%v) = %.12f, want %.9f", v[:4], got, v[4])
		}
	}
}

// integrated solves the equation dR/dx = S − 2(K+S)R + SR² by Runge and Kutta.
func integrated(k, s, x, r float64) float64 {
	f := func(r float64) float64 { return s - 2*(k+s)*r + s*r*r }
	n := 200 + int(400*(k+s)*x)
	h := x / float64(n)
	for range n {
		a := f(r)
		b := f(r + h/2*a)
		c := f(r + h/2*b)
		d := f(r + h*c)
		r += h / 6 * (a + 2*b + 2*c + d)
	}
	return r
}

func TestFilmAgainstIntegration(t *testing.T) {
	for _, k := range []float64{0, 1e-12, 1e-6, 0.001, 0.03, 0.4} {
		for _, s := range []float64{0, 1e-12, 1e-5, 0.002, 0.07, 0.5} {
			for _, x := range []float64{0.5, 9, 60, 300} {
				for _, g := range []float64{0, 0.04, 0.8, 1} {
					got, want := Film(k, s, x, g), integrated(k, s, x, g)
					if math.Abs(got-want) > 1e-10 {
						t.Errorf("Film(%g, %g, %g, %g) = %.13f, integrated %.13f", k, s, x, g, got, want)
					}
				}
			}
		}
	}
}

func TestFilmLimits(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 1e-14) {
			t.Errorf("%s = %.17g, want %.17g", what, got, want)
		}
	}
	near("no scatter", Film(0.02, 0, 10, 0.6), 0.6*math.Exp(-0.4))
	near("no scatter, thick", Film(0.2, 0, 100, 0.6), 0.6*math.Exp(-40))
	near("no absorption", Film(0, 0.05, 15, 0.5), (0.5+0.5*0.75)/(1+0.5*0.75))
	near("neither", Film(0, 0, 15, 0.37), 0.37)
	near("too thick for coth", Film(0.5, 0.5, 1e5, 0.9), Hidden(0.5, 0.5))
	near("mirror white", Film(1e-12, 1, 1e7, 1), integratedLimit(1e-12, 1))
	near("hidden and back", Ratio(Hidden(0.03, 0.05)), 0.6)
	near("through nothing", Through(0, 0, 10), 1)
	near("through a thick film", Through(1, 1, 1e6), 0)
	near("through dye", Through(0.02, 0, 10), math.Exp(-0.2))
	near("through white", Through(0, 0.05, 20), 0.5)
	for _, x := range []float64{3, 40} { // light over a ground: R = R0 + T²G/(1−R0G)
		r0, tr := Film(0.01, 0.05, x, 0), Through(0.01, 0.05, x)
		near("ground through the film", Film(0.01, 0.05, x, 0.7), r0+tr*tr*0.7/(1-0.7*r0))
	}
}

// integratedLimit is R∞ of a white that hardly absorbs.
func integratedLimit(k, s float64) float64 { return 1 + k/s - math.Sqrt(k/s*(k/s+2)) }

func FuzzFilm(f *testing.F) {
	f.Add(0.01, 0.05, 15.0, 0.03)
	f.Add(0.0, 0.0, 1.0, 1.0)
	f.Add(1e-300, 1e3, 1e5, 1.0)
	f.Add(1e3, 1e-300, 1e5, 0.0)
	f.Fuzz(func(t *testing.T, k, s, x, g float64) {
		if !(k >= 0 && k <= mostPower && s >= 0 && s <= mostPower && x >= 0 && x <= mostFilm && g >= 0 && g <= 1) {
			return
		}
		r, deep := Film(k, s, x, g), Hidden(k, s)
		low, high := min(g, deep), max(g, deep)
		if k == 0 && s == 0 {
			low, high = g, g
		}
		if !(r >= low-1e-12 && r <= high+1e-12) {
			t.Errorf("Film(%g, %g, %g, %g) = %g, outside ground %g and hidden %g", k, s, x, g, r, g, deep)
		}
		half := Film(k, s, x/2, Film(k, s, x/2, g))
		if math.Abs(half-r) > 1e-9 {
			t.Errorf("two halves give %g, the whole %g", half, r)
		}
		if tr := Through(k, s, x); !(tr >= 0 && tr <= 1+1e-12) {
			t.Errorf("Through(%g, %g, %g) = %g", k, s, x, tr)
		}
	})
}
