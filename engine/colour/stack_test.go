package colour

import (
	"math"
	"strings"
	"testing"

	"fettle/fault"
)

// wavy is a paint whose K and S go up and down over the bands.
func wavy(name string, k, s, phase float64) Paint {
	p := Paint{Name: name}
	for i := range p.K {
		p.K[i] = k * (1.1 + math.Sin(phase+float64(i)/5))
		p.S[i] = s * (1 + 0.3*math.Cos(phase+float64(i)/9))
	}
	return p
}

// fiveLayers is primer, sealer, two colours and clear, from the bottom up.
func fiveLayers() []Layer {
	return []Layer{
		{wavy("primer", 0.01, 0.03, 0), 90}, {wavy("sealer", 0.02, 0.05, 1), 25}, {wavy("base", 0.004, 0.06, 2), 27},
		{wavy("glaze", 0.01, 0.002, 3), 8}, {wavy("clear", 1e-5, 0, 4), 66},
	}
}

func TestStackAgainstIntegration(t *testing.T) {
	layers, got := fiveLayers(), Over(Flat(0.1), fiveLayers()...)
	for i := range got {
		want := 0.1
		for _, l := range layers {
			want = integrated(l.Paint.K[i], l.Paint.S[i], l.Film, want)
		}
		if math.Abs(got[i]-want) > 1e-10 {
			t.Errorf("%s: %.13f, integrated %.13f", band(i), got[i], want)
		}
	}
}

func TestSurface(t *testing.T) {
	s := Surface{K1: 0.04, K2: 0.6, Gloss: true}
	if got := s.Out(0.5); math.Abs(got-0.3143) > 5e-5 {
		t.Errorf("Out(0.5) = %.5f, want 0.3143", got)
	}
	if got := (Surface{K1: 0.04, K2: 0.6}).Out(0.5); math.Abs(got-0.2743) > 5e-5 {
		t.Errorf("gloss excluded: %.5f, want 0.2743", got)
	}
	if got := Glossy(1.5, 0.6, true); math.Abs(got.K1-0.04) > 1e-12 {
		t.Errorf("k1 of 1.5 is %g", got.K1)
	}
	for _, s := range []Surface{{}, {0.04, 0.6, true}, {0.04, 0.6, false}, {0.05, 0.4, true}, {0, 0.5, false}} {
		for r := 0.0; r <= 1; r += 0.05 {
			if back := s.In(s.Out(r)); math.Abs(back-r) > 1e-14 {
				t.Errorf("%+v: %g comes back as %g", s, r, back)
			}
			if d := (s.Out(r+1e-6) - s.Out(r-1e-6)) / 2e-6; math.Abs(d-s.slope(r)) > 1e-8 {
				t.Errorf("%+v: slope at %g is %g, want %g", s, r, s.slope(r), d)
			}
		}
	}
}

func TestClearIsOneMoreLayer(t *testing.T) {
	base := Layer{wavy("base", 0.02, 0.06, 1), 27}
	bare := Stack{Ground: Flat(0.2), Layers: []Layer{base}, Surface: Glossy(1.5, 0.6, true)}
	cleared := bare
	cleared.Layers = []Layer{base, {Paint{Name: "clear"}, 66}}
	if bare.Reflectance() != cleared.Reflectance() {
		t.Error("a clear that takes nothing away changes the colour: its underside counts as a surface")
	}
	var old Paint
	old.K[2] = 0.002 // yellowed at 400 nm
	cleared.Layers[1].Paint = old
	a, b := bare.Reflectance(), cleared.Reflectance()
	if !(b[2] < a[2]) || b[20] != a[20] {
		t.Errorf("a yellowed clear: %g to %g at 400 nm, %g to %g at 580 nm", a[2], b[2], a[20], b[20])
	}
}

func TestMix(t *testing.T) {
	a, b := wavy("a", 0.01, 0.05, 0), wavy("b", 0.1, 0.02, 2)
	m, err := Mix("a and b", []float64{3, 1}, []Paint{a, b})
	if err != nil {
		t.Fatal(err)
	}
	if want := 0.75*a.K[7] + 0.25*b.K[7]; math.Abs(m.K[7]-want) > 1e-15 {
		t.Errorf("K is %g, want %g", m.K[7], want)
	}
	b.Finish = Metallic
	for _, c := range []struct {
		parts  []float64
		paints []Paint
	}{{[]float64{1}, []Paint{a, a}}, {nil, nil}, {[]float64{-1}, []Paint{a}}, {[]float64{0}, []Paint{a}}, {[]float64{math.NaN()}, []Paint{a}}, {[]float64{math.Inf(1)}, []Paint{a}}, {[]float64{1, 1}, []Paint{a, b}}} {
		if _, err := Mix("m", c.parts, c.paints); fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("parts %v: %v", c.parts, err)
		}
	}
}

func TestStackRefuses(t *testing.T) {
	ok := wavy("base", 0.02, 0.06, 1)
	with := func(change func(*Stack)) error {
		s := Stack{Ground: Flat(0.2), Layers: []Layer{{ok, 27}}}
		change(&s)
		return s.Check()
	}
	if err := with(func(*Stack) {}); err != nil {
		t.Fatal(err)
	}
	for want, change := range map[string]func(*Stack){
		"the ground, 390 nm": func(s *Stack) { s.Ground[1] = math.NaN() },
		"the ground, 400 nm": func(s *Stack) { s.Ground[2] = 1.01 },
		"base, 380 nm: K":    func(s *Stack) { s.Layers[0].Paint.K[0] = -1 },
		"base, 730 nm: S":    func(s *Stack) { s.Layers[0].Paint.S[35] = math.Inf(1) },
		"base: a film of 0":  func(s *Stack) { s.Layers[0].Film = 0 },
		"the surface: k1 1":  func(s *Stack) { s.Surface.K1 = 1 },
		"metallic film":      func(s *Stack) { s.Layers[0].Paint.Finish = Metallic },
		"pearl film":         func(s *Stack) { s.Layers[0].Paint.Finish = Pearl },
	} {
		if err := with(change); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}
