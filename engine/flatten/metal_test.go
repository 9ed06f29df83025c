package flatten

import (
	"math"
	"testing"
)

func TestPlasticLaw_KnownStates(t *testing.T) {
	m := Metal{Thickness: 1, R: 1.6, N: 0.2, K: 500}
	l := plasticLaw(m)
	// A strip pulled by e1 with strain ratio r: e2 = −r/(1+r) e1, and the
	// equivalent strain is e1. In a bulge e1 = e2 it is sqrt(2(1+r)) e1.
	for _, c := range []struct{ e1, e2, want float64 }{
		{0.1, -0.1 * 1.6 / 2.6, 0.1},
		{0.1, 0.1, 0.1 * math.Sqrt(2*(1+1.6))},
	} {
		w, _, _ := l.energy(strain{xx: c.e1, yy: c.e2})
		least := math.Pow(elasticFloor, 1.2)
		want := math.Pow(c.want, 1.2) - least + 0.6*least
		if math.Abs(w-want) > 1e-12 {
			t.Errorf("%v: work %g, want %g", c, w, want)
		}
	}
}

func TestMetal_LimitOfADrawingSteel(t *testing.T) {
	steel, err := Sheet("DC04", 0.8)
	if err != nil {
		t.Fatal(err)
	}
	if got := steel.Metal.Limit(0); math.Abs(got-0.294) > 0.001 {
		t.Errorf("level is %.4f, want 0.294", got)
	}
	if l := steel.Metal; !(l.Limit(-0.1) > l.Limit(0) && l.Limit(0.1) > l.Limit(0)) {
		t.Error("plane strain is not the least")
	}
}

func TestSheet_BadFigures(t *testing.T) {
	if _, err := Sheet("DC99", 1); err == nil {
		t.Error("a grade nobody knows passed")
	}
	if _, err := Sheet("DC01", 0); err == nil {
		t.Error("no thickness passed")
	}
	for _, name := range Grades() {
		if _, err := Sheet(name, 0.9); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFormed_SumsByArea(t *testing.T) {
	m := Metal{Thickness: 0.8, R: 1.6, N: 0.18, K: 500}
	faces := []FaceStrain{
		{Stretch: [2]float64{0.3, 0}, Thick: 1/1.3 - 1}, // beyond the limit of 0.294
		{Stretch: [2]float64{0, -0.1}, Thick: 1/0.9 - 1},
		{},
	}
	got := Formed(m, faces, []float64{1.3, 0.9, 1})
	want := Forming{Ratio: 3.2 / 3, Stretched: 1.3 / 3.2, Shrunk: 0.9 / 3.2, Thin: 1/1.3 - 1, Thick: 1/0.9 - 1, Near: 1.3 / 3.2, Worst: 0.3 / m.Limit(0)}
	for _, v := range [][2]float64{{got.Ratio, want.Ratio}, {got.Stretched, want.Stretched}, {got.Shrunk, want.Shrunk},
		{got.Thin, want.Thin}, {got.Thick, want.Thick}, {got.Near, want.Near}, {got.Worst, want.Worst}} {
		if math.Abs(v[0]-v[1]) > 1e-12 {
			t.Errorf("got %+v, want %+v", got, want)
		}
	}
}

func TestMetal_Validate(t *testing.T) {
	good := Metal{Thickness: 0.8, R: 1.6, N: 0.18, K: 500}
	if err := good.Validate(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*Metal){
		"thick":  func(m *Metal) { m.Thickness = 40 },
		"ratio":  func(m *Metal) { m.R = 0 },
		"harden": func(m *Metal) { m.N = 1 },
		"weak":   func(m *Metal) { m.K = math.NaN() },
	} {
		m := good
		spoil(&m)
		if m.Validate() == nil {
			t.Errorf("%s passed", name)
		}
	}
}
