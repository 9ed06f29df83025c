package flatten

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// ringed is an outline of closed rings, and its border, vertices in their order.
func ringed(rings ...[]geom.Point) (contour, border) {
	var names [][]int32
	var at []geom.Point
	for _, ring := range rings {
		var name []int32
		for _, p := range ring {
			name = append(name, int32(len(at)))
			at = append(at, p)
		}
		names = append(names, name)
	}
	b := newBorder(names...)
	return b.at(at), b
}

func TestCrossings_AsAllPairsSay(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		rings := make([][]geom.Point, 1+rng.IntN(3))
		for k := range rings {
			rings[k] = make([]geom.Point, 4+rng.IntN(40))
			for i := range rings[k] {
				s, c := math.Sincos(2 * math.Pi * float64(i) / float64(len(rings[k])))
				r := 5 + 4*rng.NormFloat64()
				rings[k][i] = geom.Point{X: 3*float64(k) + r*c, Y: r * s}
			}
		}
		outline, _ := ringed(rings...)
		n := len(outline.points)
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
		for _, ring := range rings {
			for i, p := range ring {
				sides = append(sides, [2]geom.Point{p, ring[(i+1)%len(ring)]})
			}
		}
		if count := swept(sides, touching); count != want {
			t.Fatalf("the checker finds %d crossings, all pairs make %d", count, want)
		}
	}
}

func TestCrossings_TouchingIsNone(t *testing.T) {
	for name, c := range map[string]struct {
		rings [][]geom.Point
		want  int
	}{
		"a square":           {[][]geom.Point{{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}}, 0},
		"a closed slit":      {[][]geom.Point{{{}, {X: 2}, {X: 2, Y: 2}, {X: 1, Y: 2}, {X: 1, Y: 1}, {X: 1 + 1e-13, Y: 2}, {Y: 2}}}, 0},
		"a corner at a side": {[][]geom.Point{{{}, {X: 2}, {X: 2, Y: 2}, {X: 1}, {Y: 2}}}, 0},
		"a bow":              {[][]geom.Point{{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}}}, 1},
		"a finger through":   {[][]geom.Point{{{}, {X: 2}, {X: 2, Y: 2}, {X: 1.1, Y: 2}, {X: 1, Y: -1}, {X: 0.9, Y: 2}, {Y: 2}}}, 2},
		"all in one place":   {[][]geom.Point{{{X: 1}, {X: 1}, {X: 1}, {X: 1}}}, 0},
		"a hole":             {[][]geom.Point{{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}, {{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 3, Y: 1}}}, 0},
		"a hole at the rim":  {[][]geom.Point{{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}, {{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 4, Y: 1}}}, 0},
		"a hole through it":  {[][]geom.Point{{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}, {{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 5, Y: 1}}}, 2},
		"two holes crossing": {[][]geom.Point{{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}, {{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 3, Y: 1}}, {{X: 1.2, Y: 0.5}, {X: 1.2, Y: 3.5}, {X: 3, Y: 3}}}, 4},
	} {
		outline, _ := ringed(c.rings...)
		if got := crossings(outline); len(got) != c.want {
			t.Errorf("%s: %v, want %d", name, got, c.want)
		}
	}
}

// fenced is an outline of two arms side by side, a gap apart.
func fenced(gap float64) (*fence, []geom.Point) {
	f := &fence{sheet: &sheet{vertices: 8}, reach: 1, weight: 2}
	var whole float64
	at := []geom.Point{{}, {X: 10}, {X: 10, Y: 3}, {X: 1, Y: 3}, {X: 1, Y: 3 + gap}, {X: 10.3, Y: 3.2 + gap}, {X: 10, Y: 8}, {Y: 8}}
	for i, p := range at {
		f.gone = append(f.gone, whole)
		whole += p.Distance(at[(i+1)%len(at)])
	}
	_, f.border = ringed(at)
	f.whole = slices.Repeat([]float64{whole}, len(at))
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
	_, b := ringed(at)
	return &fence{sheet: sh, border: b, gone: make([]float64, 10), whole: make([]float64, 10), reach: 0.01, weight: 1}, at
}
