package flatten

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

func TestCrossings_AsAllPairsSay(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		n := 4 + rng.IntN(60)
		outline := make([]geom.Point, n)
		for i := range outline {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := 5 + 4*rng.NormFloat64()
			outline[i] = geom.Point{X: r * c, Y: r * s}
		}
		got := crossings(outline)
		size := lodge(outline, 0).box
		var want int
		for i := range n {
			for j := range i {
				if cross(outline, i, j, touching*max(size.Width(), size.Height())) {
					want++
				}
			}
		}
		if len(got) != want {
			t.Fatalf("%d crossings, all pairs make %d: %v", len(got), want, outline)
		}
		var sides [][2]geom.Point
		for i, p := range outline {
			sides = append(sides, [2]geom.Point{p, outline[(i+1)%n]})
		}
		if count := swept(sides, touching); count != want {
			t.Fatalf("the checker finds %d crossings, all pairs make %d", count, want)
		}
	}
}

func TestCrossings_TouchingIsNone(t *testing.T) {
	for name, c := range map[string]struct {
		outline []geom.Point
		want    int
	}{
		"a square":           {[]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, 0},
		"a closed slit":      {[]geom.Point{{}, {X: 2}, {X: 2, Y: 2}, {X: 1, Y: 2}, {X: 1, Y: 1}, {X: 1 + 1e-13, Y: 2}, {Y: 2}}, 0},
		"a corner at a side": {[]geom.Point{{}, {X: 2}, {X: 2, Y: 2}, {X: 1}, {Y: 2}}, 0},
		"a bow":              {[]geom.Point{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}}, 1},
		"a finger through":   {[]geom.Point{{}, {X: 2}, {X: 2, Y: 2}, {X: 1.1, Y: 2}, {X: 1, Y: -1}, {X: 0.9, Y: 2}, {Y: 2}}, 2},
		"all in one place":   {[]geom.Point{{X: 1}, {X: 1}, {X: 1}, {X: 1}}, 0},
	} {
		if got := crossings(c.outline); len(got) != c.want {
			t.Errorf("%s: %v, want %d", name, got, c.want)
		}
	}
}

// fenced is an outline of two arms side by side, a gap apart.
func fenced(gap float64) (*fence, []geom.Point) {
	f := &fence{sheet: &sheet{vertices: 8}, reach: 1, weight: 2}
	at := []geom.Point{{}, {X: 10}, {X: 10, Y: 3}, {X: 1, Y: 3}, {X: 1, Y: 3 + gap}, {X: 10.3, Y: 3.2 + gap}, {X: 10, Y: 8}, {Y: 8}}
	for i, p := range at {
		f.boundary = append(f.boundary, int32(i))
		f.gone = append(f.gone, f.whole)
		f.whole += p.Distance(at[(i+1)%len(at)])
	}
	return f, at
}

func TestFence_CostsTowardsTouchingAndAcrossIt(t *testing.T) {
	last := 0.0
	for _, gap := range []float64{2, 0.7, 0.5, 0.2, 0.01} {
		f, at := fenced(gap)
		got := f.value(at)
		if gap > f.reach && got != 0 || gap < f.reach && !(got > last) {
			t.Errorf("a gap of %g costs %g after %g", gap, got, last)
		}
		last = got
	}
	f, at := fenced(-0.5)
	if got := f.value(at); !math.IsInf(got, 1) {
		t.Errorf("an outline that crosses itself costs %g", got)
	}
}

func TestFence_DerivativeIsThatOfItsValue(t *testing.T) {
	two, arms := fenced(0.4)
	slit, tip := slitted(0.05)
	for name, c := range map[string]struct {
		f  *fence
		at []geom.Point
	}{"two arms": {two, arms}, "the tip of a slit": {slit, tip}} {
		m, _ := plane(4, 4, 0) // any matrix that is large enough
		k := newStiffness(mustSheet(t, m))
		grad := make([]float64, k.matrix.N)
		c.f.spread(c.at, k, grad)
		for i := range 2 * len(c.at) {
			value := func(by float64) float64 {
				moved := append([]geom.Point(nil), c.at...)
				if i%2 == 0 {
					moved[i/2].X += by
				} else {
					moved[i/2].Y += by
				}
				return c.f.value(moved)
			}
			if want := (value(1e-6) - value(-1e-6)) / 2e-6; math.Abs(want-grad[i]) > 1e-5*(1+math.Abs(want)) {
				t.Errorf("%s: derivative %d is %g, differences say %g", name, i, grad[i], want)
			}
			if d := k.matrix.Value[k.matrix.Start[i]]; d < 0 {
				t.Errorf("%s: second derivative %d is %g", name, i, d)
			}
		}
	}
}

// slitted is a fan of eight faces round a corner, which lacks an angle of
// closing.
func slitted(lacks float64) (*fence, []geom.Point) {
	at := []geom.Point{{}}
	sh := &sheet{vertices: 10}
	for i := range 9 {
		s, c := math.Sincos((2*math.Pi - lacks) * float64(i) / 8)
		at = append(at, geom.Point{X: c, Y: s})
		if i > 0 {
			sh.faces = append(sh.faces, mesh.Face{0, int32(i), int32(i + 1)})
		}
	}
	return &fence{sheet: sh, boundary: []int32{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, gone: make([]float64, 10), reach: 0.01, weight: 1}, at
}
