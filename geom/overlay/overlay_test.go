package overlay_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/overlay"
)

func square(x, y, side float64) geom.Polygon {
	return geom.Polygon{Outer: []geom.Point{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}}
}

func areaOf(list []geom.Polygon) (sum float64) {
	for _, p := range list {
		sum += p.Area()
	}
	return sum
}

// star is a random ring, with or without a hole.
func star(rng *rand.Rand, x, y float64) geom.Polygon {
	ring := func(n int, low, high float64) (r []geom.Point) {
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.6*rng.Float64()) / float64(n))
			k := low + (high-low)*rng.Float64()
			r = append(r, geom.Point{X: x + k*c, Y: y + k*s})
		}
		return r
	}
	p := geom.Polygon{Outer: ring(5+rng.IntN(30), 60, 100)}
	if rng.IntN(2) == 0 {
		p.Holes = [][]geom.Point{ring(5+rng.IntN(10), 10, 40)}
	}
	if p.Check() != nil {
		return star(rng, x, y)
	}
	return p
}

func TestBooleans(t *testing.T) {
	a, b := square(0, 0, 100), square(50, 50, 100)
	ring := a
	ring.Holes = [][]geom.Point{square(40, 40, 20).Outer}
	for _, c := range []struct {
		name         string
		got          []geom.Polygon
		area         float64
		parts, holes int
	}{
		{"union", must(overlay.Union(a, b)), 17500, 1, 0},
		{"intersection", must(overlay.Intersect([]geom.Polygon{a}, []geom.Polygon{b})), 2500, 1, 0},
		{"difference", must(overlay.Subtract([]geom.Polygon{a}, []geom.Polygon{b})), 7500, 1, 0},
		{"a hole cut", must(overlay.Subtract([]geom.Polygon{a}, []geom.Polygon{square(40, 40, 20)})), 9600, 1, 1},
		{"a hole filled", must(overlay.Union(ring, square(40, 40, 20))), 10000, 1, 0},
		{"a hole kept", must(overlay.Union(ring, square(200, 0, 10))), 9700, 2, 1},
		{"nothing left", must(overlay.Subtract([]geom.Polygon{b}, []geom.Polygon{b})), 0, 0, 0},
		{"touching only", must(overlay.Intersect([]geom.Polygon{a}, []geom.Polygon{square(100, 0, 10)})), 0, 0, 0},
		{"split in two", must(overlay.Subtract([]geom.Polygon{a}, []geom.Polygon{{Outer: []geom.Point{{X: 40, Y: -1}, {X: 60, Y: -1}, {X: 60, Y: 101}, {X: 40, Y: 101}}}})), 8000, 2, 0},
		{"no input", must(overlay.Union()), 0, 0, 0},
	} {
		holes := 0
		for _, p := range c.got {
			holes += len(p.Holes)
		}
		if math.Abs(areaOf(c.got)-c.area) > 1e-9 || len(c.got) != c.parts || holes != c.holes {
			t.Errorf("%s: area %v, %d parts, %d holes; want %v, %d, %d", c.name, areaOf(c.got), len(c.got), holes, c.area, c.parts, c.holes)
		}
	}
}

func must(p []geom.Polygon, err error) []geom.Polygon {
	if err != nil {
		panic(err)
	}
	return p
}

// TestAreas holds random pairs to identities of areas: what is in both, in one
// alone, and in either.
func TestAreas(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n := range 1000 {
		a, b := star(rng, 0, 0), star(rng, 200*rng.Float64()-100, 200*rng.Float64()-100)
		as, bs := []geom.Polygon{a}, []geom.Polygon{b}
		union, common := areaOf(must(overlay.Union(a, b))), areaOf(must(overlay.Intersect(as, bs)))
		left, right := areaOf(must(overlay.Subtract(as, bs))), areaOf(must(overlay.Subtract(bs, as)))
		for name, off := range map[string]float64{"union": union - (left + right + common), "a": a.Area() - (left + common), "b": b.Area() - (right + common)} {
			if math.Abs(off) > 1e-8 {
				t.Fatalf("pair %d: the areas of %s are out by %g", n, name, off)
			}
		}
	}
}

// TestOffset_Figures are known sums: a square grows by its sides and a disc,
// shrinks by its sides; a slot closes; a hole does the opposite.
func TestOffset_Figures(t *testing.T) {
	u := geom.Polygon{Outer: []geom.Point{{}, {X: 100}, {X: 100, Y: 100}, {X: 70, Y: 100}, {X: 70, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 100}, {Y: 100}}}
	frame := square(0, 0, 100)
	frame.Holes = [][]geom.Point{square(30, 30, 40).Outer}
	for _, c := range []struct {
		name string
		p    geom.Polygon
		by   float64
		want float64
	}{
		{"square out", square(0, 0, 100), 12, 10000 + 400*12 + math.Pi*144},
		{"square in", square(0, 0, 100), -12, 76 * 76},
		{"square gone", square(0, 0, 100), -50.1, 0},
		{"frame out", frame, 5, 10000 + 400*5 + math.Pi*25 - 30*30},
		{"frame out, hole closed", frame, 20.1, 10000 + 400*20.1 + math.Pi*20.1*20.1},
		{"frame in", frame, -5, 90*90 - (1600 + 160*5 + math.Pi*25)},
		{"frame gone", frame, -17.6, 0},
		{"slot", u, 10, 12871.24},
	} {
		for _, full := range []bool{false, true} {
			got, err := overlay.Offset([]geom.Polygon{c.p}, c.by, overlay.Round{Chord: 0.01, Full: full})
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
				continue
			}
			off := areaOf(got) - c.want
			if math.Abs(off) > 3 || off*c.by < -0.05 && full {
				t.Errorf("%s, full %v: area %v is %v off", c.name, full, areaOf(got), off)
			}
		}
	}
}

// TestOffset_Distance samples the plane about random polygons: what lies nearer
// than asked is in, what lies further is out, and Full never falls short.
func TestOffset_Distance(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for n := range 60 {
		p := star(rng, 1000, -500)
		by, chord := 0.5+25*rng.Float64(), 0.001+0.3*rng.Float64()
		if n%2 == 1 {
			by = -by
		}
		full := n%4 < 2
		got, err := overlay.Offset([]geom.Polygon{p}, by, overlay.Round{Chord: chord, Full: full})
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		in := func(q geom.Point) bool {
			for _, g := range got {
				if g.Contains(q) {
					return true
				}
			}
			return false
		}
		for range 2000 {
			q := geom.Point{X: 1000 + 260*(rng.Float64()-0.5), Y: -500 + 260*(rng.Float64()-0.5)}
			depth := p.Depth(q) + by // how far inside the true offset, where the nearest edge decides
			if full && by > 0 && depth > 0 && !in(q) || full && by < 0 && depth < 0 && in(q) {
				t.Fatalf("%d: the full offset by %g falls short at %v, %g", n, by, q, depth)
			}
			if math.Abs(depth) > chord && in(q) != (depth > 0) {
				t.Fatalf("%d: offset by %g, chord %g: %v at depth %g is in: %v", n, by, chord, q, depth, in(q))
			}
		}
	}
}

// TestOffset_Repeats gives the same bits over and over: the library walks maps.
func TestOffset_Repeats(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	p := star(rng, 0, 0)
	first := must(overlay.Offset([]geom.Polygon{p, star(rng, 150, 0), square(400, 0, 9)}, 7, overlay.Round{Chord: 0.05}))
	rng = rand.New(rand.NewPCG(5, 6))
	p = star(rng, 0, 0)
	list := []geom.Polygon{p, star(rng, 150, 0), square(400, 0, 9)}
	for range 30 {
		if again := must(overlay.Offset(list, 7, overlay.Round{Chord: 0.05})); !reflect.DeepEqual(again, first) {
			t.Fatal("the same input gave another result")
		}
	}
}

func TestFaults(t *testing.T) {
	bow := geom.Polygon{Outer: []geom.Point{{}, {X: 10, Y: 10}, {X: 10}, {Y: 10}}}
	many := geom.Polygon{Outer: make([]geom.Point, overlay.MostPoints+1)}
	crooked := geom.Polygon{}
	for i := range 30000 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 30000)
		crooked.Outer = append(crooked.Outer, geom.Point{X: (100 + float64(i%2)) * c, Y: (100 + float64(i%2)) * s})
	}
	offset := func(p geom.Polygon, by, chord float64) error {
		_, err := overlay.Offset([]geom.Polygon{p}, by, overlay.Round{Chord: chord})
		return err
	}
	_, union := overlay.Union(square(0, 0, 1), bow)
	for _, c := range []struct {
		err  error
		want string
	}{
		{union, "polygon 2, outer, point 1"}, {offset(bow, 1, 0.1), "polygon 1, outer"}, {offset(many, 1, 0.1), "more than 200000 corners"},
		{offset(square(0, 0, 1), math.NaN(), 0.1), "an offset of NaN"}, {offset(square(0, 0, 1), 1, 0), "a chord"},
		{offset(crooked, 1, 0.1), "more than 20000 pieces"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) || fault.KindOf(c.err) == fault.Internal {
			t.Errorf("%v, want %q", c.err, c.want)
		}
	}
}

func FuzzOffset(f *testing.F) {
	f.Add([]byte{0, 0, 8, 0, 8, 8, 0, 8}, 2.0, true)
	f.Add([]byte{0, 0, 15, 0, 15, 15, 8, 2, 0, 15}, -0.5, false)
	f.Fuzz(func(t *testing.T, data []byte, by float64, full bool) {
		var r geom.Ring
		for i := 0; i+1 < len(data) && i < 40; i += 2 {
			r = append(r, geom.Point{X: float64(data[i] & 15), Y: float64(data[i+1] & 15)})
		}
		p := geom.Polygon{Outer: r.Tidy()}
		if p.Check() != nil || !(math.Abs(by) < 20) {
			return
		}
		got, err := overlay.Offset([]geom.Polygon{p}, by, overlay.Round{Chord: 0.01, Full: full})
		if err != nil {
			t.Fatal(err)
		}
		if grown := areaOf(got) - p.Area(); grown*by < -1e-9 {
			t.Fatalf("offset by %g changed the area by %g", by, grown)
		}
	})
}

func BenchmarkOffset(b *testing.B) {
	for _, n := range []int{30, 100, 300, 1000} {
		p, rng := geom.Polygon{}, rand.New(rand.NewPCG(1, 1))
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			k := 60 + 40*rng.Float64()
			p.Outer = append(p.Outer, geom.Point{X: k * c, Y: k * s})
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := overlay.Offset([]geom.Polygon{p}, 5, overlay.Round{Chord: 0.05, Full: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func ExampleOffset() {
	sewn := geom.Polygon{Outer: []geom.Point{{}, {X: 400}, {X: 400, Y: 300}, {Y: 300}}}
	cut, err := overlay.Offset([]geom.Polygon{sewn}, 12, overlay.Round{Chord: 0.1})
	b := cut[0].Bounds()
	fmt.Printf("%.0f × %.0f mm, %.1f cm², %v\n", b.Width(), b.Height(), cut[0].Area()/100, err)
	// Output: 424 × 324 mm, 1372.5 cm², <nil>
}
