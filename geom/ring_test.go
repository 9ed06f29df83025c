package geom_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
)

func ringOf(xy ...float64) geom.Ring {
	var r geom.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, geom.Point{X: xy[i], Y: xy[i+1]})
	}
	return r
}

// round returns a polygon of n points on a circle.
func round(n int, radius float64) geom.Ring {
	r := make(geom.Ring, n)
	for i := range r {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r[i] = geom.Point{X: radius * c, Y: radius * s}
	}
	return r
}

func TestRing_Measures(t *testing.T) {
	l := ringOf(10, 10, 14, 10, 14, 12, 12, 12, 12, 16, 10, 16) // 4 by 2, and 2 by 4 on it
	if a := geom.RingArea(l); a != 16 {
		t.Errorf("area %v, want 16", a)
	}
	if a := geom.RingArea(l.Reversed()); a != -16 {
		t.Errorf("area of the way round %v, want -16", a)
	}
	if c := l.Centroid(); c.Distance(geom.Point{X: 11.5, Y: 12.5}) > 1e-12 {
		t.Errorf("centroid %v, want 11.5, 12.5", c)
	}
	if !l.Contains(geom.Point{X: 11, Y: 15}) || l.Contains(geom.Point{X: 13, Y: 13}) {
		t.Error("contains the notch, or not the leg")
	}
	if d := l.Distance(geom.Point{X: 13, Y: 13}); d != 1 {
		t.Errorf("%v from the notch, want 1", d)
	}
	if h := geom.Hull(l); len(h) != 5 || geom.RingArea(h) != 16+4 {
		t.Errorf("hull %v has area %v, want 20", h, geom.RingArea(h))
	}
	if got := append(l, l[0], l[0]).Tidy(); len(got) != len(l) {
		t.Errorf("tidied to %d points, want %d", len(got), len(l))
	}
}

func TestSegmentDistance(t *testing.T) {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	for _, c := range []struct {
		a, b, c, d geom.Point
		want       float64
	}{
		{p(0, 0), p(4, 0), p(2, -1), p(2, 1), 0},
		{p(0, 0), p(4, 0), p(2, 0), p(2, 1), 0},
		{p(0, 0), p(4, 0), p(1, 3), p(9, 3), 3},
		{p(0, 0), p(4, 0), p(7, 4), p(9, 9), 5},
		{p(0, 0), p(0, 0), p(3, 4), p(3, 4), 5},
		{p(0, 0), p(2, 0), p(3, 0), p(5, 0), 1},
	} {
		if d := geom.SegmentDistance(c.a, c.b, c.c, c.d); d != c.want {
			t.Errorf("%v: distance %v, want %v", c, d, c.want)
		}
	}
}

func TestRing_Check(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		ring geom.Ring
		want string // "" passes
	}{
		{"square", ringOf(0, 0, 1, 0, 1, 1, 0, 1), ""},
		{"a point along a side", ringOf(0, 0, 1, 0, 2, 0, 2, 1, 0, 1), ""},
		{"bow tie", ringOf(0, 0, 4, 4, 4, 0, 0, 4), "point 1: the edge from here meets the edge from point 3 at 2, 2"},
		{"touches itself", ringOf(0, 0, 4, 0, 4, 4, 2, 0, 0, 4), "meets"},
		{"doubles back", ringOf(0, 0, 4, 0, 2, 0, 2, 3), "meets"},
		{"two points", ringOf(0, 0, 1, 1), "2 points"},
		{"on a line", ringOf(0, 0, 1, 1, 2, 2), "on one line"},
		{"said twice", ringOf(0, 0, 1, 0, 1, 0, 1, 1), "point 2: it is said twice: 1, 0"},
		{"first again at the end", ringOf(0, 0, 1, 0, 1, 1, 0, 0), "point 4: it is said twice"},
		{"not a number", ringOf(0, 0, 1, 0, nan, 1), "point 3"},
		{"infinite", ringOf(0, 0, 1, 0, 1, inf), "point 3"},
		{"too large", ringOf(0, 0, 1e8, 0, 1, 1), "point 2"},
		{"too many", make(geom.Ring, geom.MostPoints+1), "at most 1000000"},
		{"a thin one", ringOf(0, 0, 1e7, 1e-9, 1e7, 0), ""},
	} {
		err := c.ring.Check()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// A million points are within the limit, and checked in about a second.
func TestRing_CheckLarge(t *testing.T) {
	if testing.Short() {
		t.Skip("a million points: run without -short")
	}
	r := round(geom.MostPoints, 1000)
	if err := r.Check(); err != nil {
		t.Fatal(err)
	}
	r[10] = r[500_000] // a spike right across
	if err := r.Check(); err == nil {
		t.Error("the spike was not seen")
	}
}

// TestCheck_Agrees holds the tree of boxes to every pair looked at plainly.
func TestCheck_Agrees(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	bad := 0
	for range 2000 {
		r := make(geom.Ring, 3+rng.IntN(12))
		for i := range r {
			r[i] = geom.Point{X: float64(rng.IntN(40)), Y: float64(rng.IntN(40))}
		}
		if rng.IntN(2) == 0 { // sorted by angle about the middle: mostly simple
			r = geom.Hull(r)
		}
		want := plainlySimple(r)
		if got := r.Check() == nil; got != want {
			t.Fatalf("%v: simple %v, want %v", r, got, want)
		}
		if !want {
			bad++
		}
	}
	if bad < 500 || bad > 1500 {
		t.Errorf("%d of 2000 are not simple: the test sees one kind only", bad)
	}
}

func plainlySimple(r geom.Ring) bool {
	n := len(r)
	if n < 3 || geom.RingArea(r) == 0 {
		return false
	}
	for i := range r {
		for j := range r {
			a, b, c, d := r[i], r[(i+1)%n], r[j], r[(j+1)%n]
			switch {
			case a == b:
				return false
			case j == i:
			case j == (i+1)%n:
				if b.Sub(a).Cross(d.Sub(b)) == 0 && (b.X-a.X)*(d.X-b.X)+(b.Y-a.Y)*(d.Y-b.Y) < 0 {
					return false
				}
			case i == (j+1)%n:
			case geom.SegmentDistance(a, b, c, d) < 1e-9:
				return false
			}
		}
	}
	return true
}

func TestGridEdges_DistanceAndWhere(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	edges := func(r geom.Ring, dx float64) *geom.GridEdges {
		var list []geom.GridEdge
		for i := range r {
			a, b := r[i], r[(i+1)%len(r)]
			a.X, b.X = a.X+dx, b.X+dx
			list = append(list, geom.GridEdge{A: a.Snap(1), B: b.Snap(1)})
		}
		return geom.NewGridEdges(list)
	}
	for range 200 {
		a := edges(round(3+rng.IntN(60), 1000), 0)
		b := edges(round(3+rng.IntN(60), 1000), 1900+400*rng.Float64())
		want := math.Inf(1)
		for _, e := range a.List() {
			for _, f := range b.List() {
				want = min(want, e.Distance(f))
			}
		}
		if got, i, j := a.Distance(b, math.Inf(1)); got != want || a.List()[i].Distance(b.List()[j]) != want {
			t.Fatalf("distance %v of %d and %d, want %v", got, i, j, want)
		}
	}
	square := edges(ringOf(0, 0, 10, 0, 10, 10, 0, 10), 0)
	for _, c := range []struct {
		at   geom.GridPoint
		want int
	}{
		{geom.GridPoint{X: 5, Y: 5}, 1}, {geom.GridPoint{X: 10, Y: 5}, 0}, {geom.GridPoint{}, 0},
		{geom.GridPoint{X: -1, Y: 0}, -1}, {geom.GridPoint{X: 11, Y: 10}, -1}, {geom.GridPoint{X: -5, Y: 5}, -1},
	} {
		if got := square.Where(c.at); got != c.want {
			t.Errorf("%v lies at %d, want %d", c.at, got, c.want)
		}
	}
}

// Side tells what a float64 cannot: one step beside a line of 2^60.
func TestSide_Large(t *testing.T) {
	const big = 1 << 60
	a, b := geom.GridPoint{X: -big, Y: -big}, geom.GridPoint{X: big, Y: big - 1}
	for _, c := range []struct {
		at   geom.GridPoint
		want int
	}{{geom.GridPoint{X: big, Y: big}, 1}, {b, 0}, {geom.GridPoint{X: big - 1, Y: big - 2}, -1}, {geom.GridPoint{X: 0, Y: 0}, 1}, {geom.GridPoint{X: 0, Y: -1}, -1}} {
		if got := geom.Side(a, b, c.at); got != c.want {
			t.Errorf("%v lies on side %d, want %d", c.at, got, c.want)
		}
	}
}

func FuzzRing_Check(f *testing.F) {
	f.Add([]byte{0, 0, 1, 0, 1, 1})
	f.Add([]byte{0, 0, 4, 4, 4, 0, 0, 4})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 60 {
			return
		}
		var r geom.Ring
		for i := 0; i+1 < len(data); i += 2 {
			r = append(r, geom.Point{X: float64(int8(data[i])), Y: float64(int8(data[i+1]))})
		}
		if got, want := r.Check() == nil, plainlySimple(r); got != want {
			t.Fatalf("%v: simple %v, want %v", r, got, want)
		}
	})
}

func TestPolygon_Check(t *testing.T) {
	square := func(x, y, side float64) geom.Ring { return ringOf(x, y, x+side, y, x+side, y+side, x, y+side) }
	for _, c := range []struct {
		name  string
		holes []geom.Ring
		want  string
	}{
		{"two holes", []geom.Ring{square(1, 1, 2), square(5, 5, 2)}, ""},
		{"outside", []geom.Ring{square(11, 1, 2)}, "hole 1: it lies outside the outer ring"},
		{"across", []geom.Ring{square(9, 1, 2)}, "hole 1: it meets the outer ring"},
		{"touching", []geom.Ring{square(1, 1, 2), square(3, 1, 2)}, "hole 2: it meets hole 1"},
		{"in one another", []geom.Ring{square(1, 1, 6), square(2, 2, 2)}, "hole 2: it and hole 1 lie in one another"},
		{"bad hole", []geom.Ring{square(1, 1, 2), ringOf(5, 5, 6, 6)}, "hole 2: it has 2 points"},
	} {
		p := geom.Polygon{Outer: square(0, 0, 10)}
		for _, h := range c.holes {
			p.Holes = append(p.Holes, h)
		}
		err := p.Check()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// TestCheck_Bounded refuses in a second or two what would take hours.
func TestCheck_Bounded(t *testing.T) {
	var zigzag geom.Ring // edges whose boxes all meet
	for i := range 40_000 {
		zigzag = append(zigzag, geom.Point{X: 0.01*float64(i) + 1000*float64(i%2), Y: 1000 * float64(i%2)})
	}
	zigzag = append(zigzag, geom.Point{X: 2000, Y: -50}, geom.Point{X: -50, Y: -50})
	perforated := geom.Polygon{Outer: []geom.Point{{X: -1, Y: -1}, {X: 1e4, Y: -1}, {X: 1e4, Y: 1e4}, {X: -1, Y: 1e4}}}
	for i := range geom.MostHoles + 1 {
		x, y := float64(i%100*4), float64(i/100*4)
		perforated.Holes = append(perforated.Holes, []geom.Point{{X: x, Y: y}, {X: x + 1, Y: y}, {X: x, Y: y + 1}})
	}
	for name, err := range map[string]error{"zigzag": zigzag.Check(), "perforated": perforated.Check()} {
		if fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%s: %v, want too large", name, err)
		}
	}
	perforated.Holes = perforated.Holes[:geom.MostHoles]
	if err := perforated.Check(); err != nil {
		t.Errorf("as many holes as may be: %v", err)
	}
}
