// Package polygons holds geom/overlay to another library of polygons, which is
// too large to stand in the program's own list of modules. Run it here:
//
//	cd tool/outside/polygons && go test .
package polygons

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/tdewolff/canvas"

	"fettle/geom"
	"fettle/geom/overlay"
)

// path has holes the other way round than outlines.
func path(p geom.Polygon) *canvas.Path {
	out := &canvas.Path{}
	for k, r := range p.Rings() {
		if (geom.RingArea(r) < 0) != (k > 0) {
			r = geom.Ring(r).Reversed()
		}
		for i, q := range r {
			if i == 0 {
				out.MoveTo(q.X, q.Y)
			} else {
				out.LineTo(q.X, q.Y)
			}
		}
		out.Close()
	}
	return out
}

// area by the even-odd rule of rings that lie in one another: those of this
// library have holes in either direction. A ring counts by how many others hold
// a point just inside of it.
func area(p *canvas.Path) (sum float64) {
	var rings []geom.Ring
	for _, part := range p.Flatten(1e-3).Split() {
		var r geom.Ring
		for _, c := range part.Coords() {
			r = append(r, geom.Point{X: c.X, Y: c.Y})
		}
		if r = r.Tidy(); math.Abs(geom.RingArea(r)) > 1e-9 {
			rings = append(rings, r)
		}
	}
	for i, r := range rings {
		deep, at := 0, inside(r)
		for k, other := range rings {
			if k != i && (geom.Polygon{Outer: other}).Contains(at) {
				deep++
			}
		}
		if a := math.Abs(geom.RingArea(r)); deep%2 == 0 {
			sum += a
		} else {
			sum -= a
		}
	}
	return sum
}

// inside is a point in the ring, near the middle of its longest edge.
func inside(r geom.Ring) geom.Point {
	best := 0
	for i := range r {
		if r[i].Distance(r[(i+1)%len(r)]) > r[best].Distance(r[(best+1)%len(r)]) {
			best = i
		}
	}
	a, b := r[best], r[(best+1)%len(r)]
	m, d := a.Add(b).Scale(0.5), b.Sub(a)
	aside := geom.Point{X: -d.Y, Y: d.X}.Scale(1e-6)
	if geom.RingArea(r) < 0 {
		aside = aside.Scale(-1)
	}
	return m.Add(aside)
}

func ours(list []geom.Polygon, err error) float64 {
	if err != nil {
		panic(err)
	}
	sum := 0.0
	for _, p := range list {
		sum += p.Area()
	}
	return sum
}

func star(rng *rand.Rand, x, y float64) geom.Polygon {
	ring := func(n int, low, high float64) (r []geom.Point) {
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.6*rng.Float64()) / float64(n))
			k := low + (high-low)*rng.Float64()
			r = append(r, geom.Point{X: x + k*c, Y: y + k*s})
		}
		return r
	}
	p := geom.Polygon{Outer: ring(5+rng.IntN(30), 60, 100), Holes: [][]geom.Point{ring(5+rng.IntN(10), 10, 40)}}
	if p.Check() != nil {
		return star(rng, x, y)
	}
	return p
}

func TestBooleans(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n := range 1000 {
		a, b := star(rng, 0, 0), star(rng, 200*rng.Float64()-100, 200*rng.Float64()-100)
		as, bs, pa, pb := []geom.Polygon{a}, []geom.Polygon{b}, path(a), path(b)
		for _, c := range []struct {
			name        string
			ours, other float64
		}{
			{"union", ours(overlay.Union(a, b)), area(pa.Or(pb))},
			{"intersection", ours(overlay.Intersect(as, bs)), area(pa.And(pb))},
			{"difference", ours(overlay.Subtract(as, bs)), area(pa.Not(pb))},
		} {
			if math.Abs(c.ours-c.other) > 1e-4 {
				t.Errorf("pair %d, %s: %v here, %v there", n, c.name, c.ours, c.other)
			}
		}
	}
}

// TestOffset compares areas. The other library's own offset goes wrong inwards
// where walls vanish: where the two differ, the distance to the edge decides at
// places of the plane, and it must be for us.
func TestOffset(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	worst, differ := 0.0, 0
	for n := range 100 {
		p, by := star(rng, 0, 0), 20*rng.Float64()
		if n%2 == 0 {
			by = -by
		}
		got, err := overlay.Offset([]geom.Polygon{p}, by, overlay.Round{Chord: 1e-3})
		d := math.Abs(ours(got, err) - area(path(p).Offset(by, 1e-3)))
		if d <= 2 { // mm² of thousands: chords of a micrometre
			worst = max(worst, d)
			continue
		}
		differ++
		if by > 0 {
			t.Errorf("polygon %d by %.3f: the areas differ by %v", n, by, d)
		}
		for range 20_000 {
			q := geom.Point{X: 250 * (rng.Float64() - 0.5), Y: 250 * (rng.Float64() - 0.5)}
			depth := p.Depth(q) + by
			if math.Abs(depth) > 2e-3 && holds(got, q) != (depth > 0) {
				t.Fatalf("polygon %d by %.3f: %v, %g deep, is on the wrong side here", n, by, q, depth)
			}
		}
	}
	t.Logf("%d offsets of 100 differ and ours is right at all places; the others by %.3f mm² at most", differ, worst)
}

func holds(list []geom.Polygon, q geom.Point) bool {
	for _, p := range list {
		if p.Contains(q) {
			return true
		}
	}
	return false
}
