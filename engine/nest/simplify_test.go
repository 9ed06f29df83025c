package nest

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/geom"
)

// TestSimplified_HoldsTheShape draws wavy rings with a hole: what comes back
// is simpler, hardly larger, simple itself, and holds every corner.
func TestSimplified_HoldsTheShape(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	wave := func(r float64, n int) []geom.Point {
		k, deep := float64(2+rng.IntN(9)), 0.3*rng.Float64()
		var ring []geom.Point
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			q := r * (1 + deep*math.Sin(k*a) + 0.002*rng.Float64())
			ring = append(ring, geom.Point{X: q * math.Cos(a), Y: q * math.Sin(a)})
		}
		return ring
	}
	for range 200 {
		shape := geom.Polygon{Outer: wave(10, 30+rng.IntN(200)), Holes: [][]geom.Point{wave(4, 50)}}
		s := simplified(shape)
		n, m := len(shape.Outer)+50, len(s.Outer)+len(s.Holes[0])
		if m >= n || s.Area() < shape.Area() || s.Area() > 1.0011*shape.Area() || s.Bounds() != shape.Bounds() {
			t.Fatalf("%d of %d corners, area %v of %v, box %v of %v", m, n, s.Area(), shape.Area(), s.Bounds(), shape.Bounds())
		}
		for _, ring := range s.Rings() {
			for i := range ring {
				for j := range i {
					if i-j > 1 && (j != 0 || i != len(ring)-1) && cross(ring[i], ring[(i+1)%len(ring)], ring[j], ring[j+1]) {
						t.Fatalf("edges %d and %d meet", j, i)
					}
				}
			}
		}
		for _, ring := range shape.Rings() {
			for _, p := range ring {
				if s.Depth(p) < -1e-9 {
					t.Fatalf("corner %v lies %v outside", p, -s.Depth(p))
				}
			}
		}
	}
}
