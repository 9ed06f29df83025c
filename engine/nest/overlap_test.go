package nest

import (
	"math/rand/v2"
	"testing"

	"fettle/geom"
)

// TestOverlap_SameInLanes holds what the processor's lanes make of circles to
// the plain form, bit for bit.
func TestOverlap_SameInLanes(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	draw := func() circles {
		var x, y, r []float64
		for range 1 + rng.IntN(mostPoles) {
			x, y, r = append(x, 10*rng.Float64()), append(y, 10*rng.Float64()), append(r, 2*rng.Float64())
		}
		var c circles
		c.lay(x, y, r, geom.Point{})
		return c
	}
	met := 0
	for range 20000 {
		a, b := draw(), draw()
		s := sizeOf(&form{diameter: 10 * rng.Float64(), reach: 1}, &form{diameter: 1, reach: 1})
		dx, dy, enough := float32(40*rng.Float64()-20), float32(40*rng.Float64()-20), float32(50*rng.Float64())
		sum, meet := s.overlap(&a, &b, dx, dy, enough)
		plain, also := s.overlapLanes(&a, &b, dx, dy, enough)
		if sum != plain || meet != also {
			t.Fatalf("%d and %d circles at %v, %v: %v, %v and %v, %v", a.n, b.n, dx, dy, sum, meet, plain, also)
		}
		if meet && sum < enough {
			met++
		}
	}
	if met < 1000 {
		t.Errorf("only %d met", met)
	}
}
